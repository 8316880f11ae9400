#include "report/shop/shop_words.h"

#include "report/values.h"

#include <math.h>

void put_inches(text *out, double value)
{
    const double parts = round(64 * value), whole = floor(parts / 64);
    int top = (int)(parts - 64 * whole), bottom = 64;
    for (; top > 0 && top % 2 == 0; top /= 2) bottom /= 2;
    if (whole > 0 || top == 0) put_decimals(out, whole, 0, ROUND_NEAREST);
    if (top > 0) text_format(out, "%s%d/%d", whole > 0 ? " " : "", top, bottom);
}

void put_stick_place(text *out, double value, unit_system units)
{
    put_decimals(out, shown(value, DIM_LENGTH, units), units == UNITS_US ? 3 : 1, ROUND_NEAREST);
}

void put_stick_length(text *out, double value, unit_system units)
{
    put_stick_place(out, value, units);
    text_format(out, " %s", unit_name(DIM_LENGTH, units));
    if (units != UNITS_US) return;
    text_put(out, " (");
    put_inches(out, value);
    text_char(out, ')');
}

void put_whole_degrees(text *out, double clock)
{
    const double degrees = round(fmod(clock * (180 / 3.14159265358979323846), 360));
    put_decimals(out, degrees >= 360 ? 0 : degrees, 0, ROUND_NEAREST);
}

double sight_size(const sight_row *r)
{
    return r->kind == SIGHT_TUBE ? r->bow : r->miss;
}

double sight_clock(const sight_row *r)
{
    return r->kind == SIGHT_TUBE ? r->bow_clock : r->miss_clock;
}

double sight_error(const sight_row *r)
{
    return r->kind == SIGHT_TUBE ? r->bow_error : r->miss_error;
}

void put_sight_columns(text *out, const sight_row *r, unit_system units)
{
    const char *name = r->kind == SIGHT_TUBE ? "bow" : "miss_a";
    const bool known = r->found.significant;
    text_format(out, "%s ", name);
    put_quantity(out, known ? sight_size(r) : sight_size(r) + sight_error(r), DIM_LENGTH, units, known ? ROUND_NEAREST : ROUND_UP);
    text_format(out, ", %s_clock ", name);
    if (known) put_whole_degrees(out, sight_clock(r));
    text_put(out, known ? " deg" : "any");
    if (r->kind != SIGHT_TUBE) return;
    text_format(out, ", bow_shape %s", r->bow_shape);
    if (isnan(r->bow_at)) return;
    text_put(out, ", bow_at ");
    put_quantity(out, r->bow_at, DIM_LENGTH, units, ROUND_NEAREST);
}

void put_plan(text *out, const stick_row *r)
{
    text_format(out, "%.0f piece%s from %.0f stick%s", r->pieces, r->pieces > 1 ? "s" : "", r->sticks, r->sticks > 1 ? "s" : "");
    if (!(r->least_sticks < r->sticks))
        text_put(out, "; no plan needs fewer");
    else
        text_format(out, "; no plan needs fewer than %.0f", r->least_sticks);
    if (r->basis == RBOW_CUTTING_STOPPED) text_put(out, ". The search was ended before all plans were tried: a better one may exist");
    if (r->basis == RBOW_CUTTING_DECREASING)
        text_put(out, r->least_sticks < r->sticks
                          ? ". Planned by a quick rule (first fit decreasing, not searched): another plan may take fewer sticks"
                          : ". Planned by a quick rule (first fit decreasing, not searched): where pieces have no stick, another plan may place more");
    text_char(out, '.');
}
