#include "report/values.h"

#include "table/number.h"

#include <math.h>

static bool put_odd(text *out, double value)
{
    if (isnan(value)) text_put(out, "-");
    if (isinf(value)) text_put(out, value > 0 ? "no limit" : "-no limit");
    return !isfinite(value);
}

void put_number(text *out, double value, int digits)
{
    char written[NUMBER_ROOM];
    if (put_odd(out, value)) return;
    number_write_digits(written, value + 0.0, digits); /* -0 + 0 is 0 */
    text_put(out, written);
}

/* A multiple of 1/scale; one that differs from it by rounding error alone stays. */
static double rounded(double value, double scale, rounding way)
{
    const double scaled = value * scale, slack = 1e-9 * fmax(1, fabs(scaled));
    const double whole = way == ROUND_DOWN ? floor(scaled + slack) : way == ROUND_UP ? ceil(scaled - slack) : round(scaled);
    return whole / scale + 0.0;
}

void put_decimals(text *out, double value, int decimals, rounding way)
{
    if (put_odd(out, value)) return;
    if (fabs(value) < 1e9)
        text_format(out, "%.*f", decimals, rounded(value, pow(10, decimals), way));
    else
        put_number(out, value, 3);
}

void put_percent(text *out, double share)
{
    const double least = -0.0005; /* what is below 0 must look so */
    if (isnan(share))
        text_put(out, "-");
    else if (isinf(share))
        text_put(out, "no limit");
    else if (share > 99.99)
        text_put(out, "over 9999 %");
    else
        text_format(out, "%+.1f %%", 100 * (share < 0 && share > least ? 2 * least : share) + 0.0);
}

void put_factor(text *out, double factor)
{
    if (isinf(factor))
        text_put(out, "no limit");
    else if (factor > 999)
        text_put(out, "over 999");
    else
        put_decimals(out, factor, 2, ROUND_DOWN);
}

void put_required(text *out, double factor)
{
    put_decimals(out, factor, 2, ROUND_UP);
}

const char *unit_name(dimension d, unit_system units)
{
    const unit *u = unit_shown(d, units);
    return u != NULL ? u->name : "";
}

double shown(double value, dimension d, unit_system units)
{
    const unit *u = unit_shown(d, units);
    return u != NULL ? unit_from_own(u, value) : value;
}

static void put_unit(text *out, dimension d, unit_system units)
{
    if (d != DIM_NONE) text_format(out, " %s", unit_name(d, units));
}

void put_value(text *out, double value, dimension d, unit_system units)
{
    put_number(out, shown(value, d, units), 6);
    put_unit(out, d, units);
}

/* ---- what was worked out ---------------------------------------------------------------------------- */

/* Three significant digits without an exponent: 29600, 467, 16.0, 3.30, 0.00125. */
static void put_three_digits(text *out, double value, rounding way)
{
    if (put_odd(out, value)) return;
    const int place = fabs(value) > 0 ? (int)floor(log10(fabs(value))) : 0;
    if (place < -6 || place > 8) {
        put_number(out, value, 3);
        return;
    }
    text_format(out, "%.*f", place < 2 ? 2 - place : 0, rounded(value, pow(10, 2 - place), way));
}

void put_bare(text *out, double value, dimension d, unit_system units, rounding way)
{
    const double number = isfinite(value) ? shown(value, d, units) : value;
    if (d == DIM_LENGTH)
        put_decimals(out, number, units == UNITS_US ? 3 : 2, way);
    else if (d == DIM_ANGLE)
        put_decimals(out, number, 1, way);
    else if (d == DIM_MASS)
        put_decimals(out, number, 2, way);
    else
        put_three_digits(out, number, way);
}

void put_quantity(text *out, double value, dimension d, unit_system units, rounding way)
{
    put_bare(out, value, d, units, way);
    if (!isnan(value)) put_unit(out, d, units);
}

void put_fraction(text *out, double value, dimension d, unit_system units, rounding way)
{
    if (d != DIM_LENGTH || units != UNITS_US || !(fabs(value) < 100)) return;
    const rounding size = value < 0 && way != ROUND_NEAREST ? (way == ROUND_UP ? ROUND_DOWN : ROUND_UP) : way;
    const int parts = (int)lround(64 * rounded(fabs(value), 64, size)), whole = parts / 64;
    int top = parts % 64, bottom = 64;
    if (top == 0) return;
    for (; top % 2 == 0; top /= 2) bottom /= 2;
    if (value < 0) text_char(out, '-');
    if (whole > 0) text_format(out, "%d ", whole);
    text_format(out, "%d/%d", top, bottom);
}

void put_length(text *out, double value, unit_system units, rounding way)
{
    text fraction = {0};
    put_quantity(out, value, DIM_LENGTH, units, way);
    put_fraction(&fraction, value, DIM_LENGTH, units, way);
    if (fraction.at != NULL) text_format(out, " (%s)", fraction.at);
    text_free_part(&fraction, out);
}
