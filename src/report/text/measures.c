#include "report/text/measures.h"

#include "report/values.h"

#include <railbow/member.h>

#include <math.h>

/* 359.96 is 0 where one decimal is shown. */
void put_degrees(text *out, double clock, int decimals)
{
    const double degrees = fmod(clock * (180 / 3.14159265358979323846), 360), scale = pow(10, decimals);
    const double shown = round(degrees * scale) / scale;
    put_decimals(out, shown >= 360 ? 0 : shown < 0 ? shown + 360 : shown, decimals, ROUND_NEAREST);
}

void put_clock(text *out, double clock)
{
    if (isnan(clock)) return;
    text_put(out, " toward clock ");
    put_degrees(out, clock, 0);
}

void add_clock(grid *g, double clock, int decimals)
{
    text t = {0};
    if (isnan(clock))
        text_char(&t, '-');
    else if (clock <= RBOW_ANY_CLOCK)
        text_put(&t, "any");
    else
        put_degrees(&t, clock, decimals);
    grid_text(g, TONE_PLAIN, &t);
}
