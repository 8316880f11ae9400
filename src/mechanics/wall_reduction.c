#include <railbow/tube.h>

#include <math.h>

rbow_status rbow_wall_reduction(double diameter_to_wall, double elastic_modulus, double compression_yield,
                                double *reduction)
{
    *reduction = NAN;
    if (!(diameter_to_wall >= 2 && elastic_modulus > 0 && compression_yield > 0)) return RBOW_OUT_OF_RANGE;

    const double relative = diameter_to_wall * compression_yield / elastic_modulus;
    if (!(relative <= RBOW_WALL_RATIO_MOST)) return RBOW_WALL_RULE;
    *reduction = relative <= RBOW_WALL_RATIO_WHOLE ? 1 : fmin(1, 0.038 / relative + 2.0 / 3);
    return RBOW_OK;
}
