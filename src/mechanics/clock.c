#include <railbow/clock.h>

#include <math.h>

static double without_rounding(double share, double clock)
{
    return fabs(share) > 1e-15 * (1 + fabs(clock)) ? share : 0;
}

void rbow_clock_components(double size, double clock, double components[2])
{
    components[0] = size * without_rounding(cos(clock), clock);
    components[1] = size * without_rounding(sin(clock), clock);
}
