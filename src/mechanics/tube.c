#include <railbow/tube.h>

#include "mechanics/no_result.h"

#include <gsl/gsl_math.h>
#include <math.h>

RESULT_OF_DOUBLES(rbow_section);

/* The textbook forms (D^4 - d^4 and the like) cancel for thin walls. Written with the mean diameter
 * m = D - t and D - d = 2t they do not:
 *     D^2 - d^2 = 4 t m      D^2 + d^2 = 2 (m^2 + t^2)      D^3 - d^3 = 2t (3 m^2 + t^2)  */
rbow_status rbow_section_of(double od, double wall, rbow_section *section)
{
    NO_RESULT(section);
    if (!(od > 0 && isfinite(od))) return RBOW_BAD_OD;
    if (!(wall > 0 && wall <= od / 2)) return RBOW_BAD_WALL;

    const double mean = od - wall;
    const double squares = mean * mean + wall * wall;
    const double area = M_PI * wall * mean;
    const double inertia = area * squares / 8;
    *section = (rbow_section){
        .od = od,
        .wall = wall,
        .bore = od - 2 * wall,
        .area = area,
        .inertia = inertia,
        .section_modulus = inertia / (od / 2),
        .plastic_modulus = wall * (3 * mean * mean + wall * wall) / 3,
        .polar_inertia = 2 * inertia,
        .radius = sqrt(squares / 8),
        .diameter_to_wall = od / wall,
    };
    return RBOW_OK;
}
