#include <railbow/readings.h>

#include <railbow/clock.h>

#include "mechanics/no_result.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_math.h>
#include <math.h>

/* wall = mean + p cos(clock) + q sin(clock): three normal equations, solved on the stack. Their condition depends
 * on the spread of the clocks. The determinant measures it and does not depend on the orientation of the tube: its root is
 * 1/2 for evenly spaced clocks and falls with the cube of a narrow spread. A spread below about 55 degrees would multiply
 * the gauge's error by more than ten on the far side, so it is refused. */
static const double least_spread = 0.02;

RESULT_OF_DOUBLES(rbow_bore);
/* The determinant of the normal equations, whose first element is 1. Known before they are decomposed, it keeps a singular
 * matrix from GSL, whose error handler may end the program. */
static double determinant(const double a[9])
{
    return a[4] * a[8] - a[5] * a[7] - a[1] * (a[3] * a[8] - a[5] * a[6]) + a[2] * (a[3] * a[7] - a[4] * a[6]);
}

rbow_status rbow_bore_fit(const rbow_wall_reading *readings, size_t count, rbow_bore *bore)
{
    double sums[9] = {0}, right[3] = {0};
    NO_RESULT(bore);
    for (size_t i = 0; i < count; i++) {
        const double basis[3] = {1, cos(readings[i].clock), sin(readings[i].clock)};
        if (!isfinite(readings[i].clock) || !isfinite(readings[i].wall)) return RBOW_OUT_OF_RANGE;
        for (int row = 0; row < 3; row++) {
            right[row] += basis[row] * readings[i].wall / (double)count;
            for (int column = 0; column < 3; column++) sums[3 * row + column] += basis[row] * basis[column] / (double)count;
        }
    }
    gsl_matrix_view equations = gsl_matrix_view_array(sums, 3, 3);
    gsl_vector_view unknowns = gsl_vector_view_array(right, 3);
    if (count < 3 || !(determinant(sums) > least_spread * least_spread)) return RBOW_OUT_OF_RANGE;
    if (gsl_linalg_cholesky_decomp1(&equations.matrix) != GSL_SUCCESS) return RBOW_OUT_OF_RANGE;
    gsl_linalg_cholesky_svx(&equations.matrix, &unknowns.vector);

    const double offset = hypot(right[1], right[2]);
    const int even = !(offset > 1e-12 * fabs(right[0]));
    *bore = (rbow_bore){
        .mean = right[0],
        .offset = offset,
        .thin_clock = even ? (double)NAN : rbow_clock_of(-right[1], -right[2]),
        .least = right[0] - offset,
    };
    return RBOW_OK;
}
