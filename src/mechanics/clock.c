#include <railbow/clock.h>

#include <gsl/gsl_math.h>

static double without_rounding(double share, double clock)
{
    return fabs(share) > 1e-15 * (1 + fabs(clock)) ? share : 0;
}

void rbow_clock_components(double size, double clock, double components[2])
{
    components[0] = size * without_rounding(cos(clock), clock);
    components[1] = size * without_rounding(sin(clock), clock);
}

double rbow_clock_of(double up, double right)
{
    const double clock = atan2(right, up);
    if (!(fabs(up) > 0 || fabs(right) > 0)) return NAN;
    return clock < -1e-12 ? clock + 2 * M_PI : fmax(clock, 0) + 0.0;
}
