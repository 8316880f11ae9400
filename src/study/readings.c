#include "study/readings.h"

#include <math.h>

static const double full_circle = 2 * 3.14159265358979323846;

/* How far beyond a limit of the spec a reading can be one of that part at all. Mills keep a wall to some 10 % and a
 * diameter to 1 %, and a shop may build from a thicker tube than the spec asks for; a slip of the decimal point is a factor
 * of ten, inch for millimetre one of 25. (Common practice, no source.) */
static const double wall_factor = 4, od_factor = 2;

int clock_degrees(double clock)
{
    const int degrees = (int)lround(fmod(clock, full_circle) * 360 / full_circle);
    return (degrees % 360 + 360) % 360;
}

bool is_same_place(const reading_row *a, const reading_row *b)
{
    return a->measure == b->measure && fabs(remainder(a->clock - b->clock, full_circle)) < 1e-6;
}

/* fmin and fmax pass a number over NaN: where one limit is not asked, the other stands for both. */
possible_readings possible_for(const tube_readings *t)
{
    const spec_row *s = t->spec;
    possible_readings p = {
        .od_least = fmin(s->od_least, s->od_most) / od_factor,
        .od_most = fmax(s->od_least, s->od_most) * od_factor,
        .wall_least = s->wall_least / wall_factor,
        .wall_most = s->wall_least * wall_factor,
        .half_od = NAN,
    };
    for (size_t i = 0; i < t->count; i++)
        if (t->at[i]->measure == MEASURE_OD && is_possible_reading(&p, t->at[i])) p.half_od = fmax(p.half_od, t->at[i]->reading / 2);
    if (isnan(p.half_od)) p.half_od = fmax(s->od_least, s->od_most) / 2;
    return p;
}

bool is_possible_reading(const possible_readings *p, const reading_row *r)
{
    const double v = r->reading;
    switch (r->measure) {
        case MEASURE_OD: return v > 0 && !(v < p->od_least) && !(v > p->od_most);
        case MEASURE_WALL: return v > 0 && !(v < p->wall_least) && !(v > p->wall_most) && !(v > p->half_od);
        default: return v >= 0;
    }
}

bool walls_are_apart(const tube_readings *t, const possible_readings *p)
{
    double least = NAN, most = NAN;
    for (size_t i = 0; i < t->count; i++) {
        const reading_row *r = t->at[i];
        if (r->measure != MEASURE_WALL || !is_possible_reading(p, r)) continue;
        least = fmin(least, r->reading);
        most = fmax(most, r->reading);
    }
    return most > wall_factor * least;
}

/* ---- in words ----------------------------------------------------------------------------------------- */

void begin_reason(text *reasons)
{
    if (reasons->length > 0) text_put(reasons, "; ");
}

void put_reading(text *out, const tube_readings *t, double value)
{
    const unit *u = unit_shown(DIM_LENGTH, t->units);
    text_format(out, "%.5g %s", unit_from_own(u, value), u->name);
}

static void put_clock(text *out, const reading_row *r)
{
    if (!isnan(r->clock)) text_format(out, " at clock %d", clock_degrees(r->clock));
}

static const char *name_of(const reading_row *r)
{
    return measure_words[r->measure].word;
}

/* "wall reads 0.585 in at clock 120, which cannot be (the spec asks for at least 0.0522 in): read it again" */
static void say_why(text *out, const tube_readings *t, const possible_readings *p, const reading_row *r)
{
    const bool wall = r->measure == MEASURE_WALL;
    if (!(r->reading > 0)) {
        text_put(out, "it must be above 0");
    } else if (wall && r->reading > p->half_od) {
        text_put(out, "half of the od is ");
        put_reading(out, t, p->half_od);
    } else if (wall) {
        text_put(out, "the spec asks for at least ");
        put_reading(out, t, t->spec->wall_least);
    } else {
        text_put(out, "the spec asks for an od of ");
        put_reading(out, t, isnan(t->spec->od_least) ? t->spec->od_most : t->spec->od_least);
    }
}

static void say_reading(text *out, const tube_readings *t, const possible_readings *p, const reading_row *r)
{
    begin_reason(out);
    text_format(out, "%s reads ", name_of(r));
    put_reading(out, t, r->reading);
    put_clock(out, r);
    text_put(out, ", which cannot be (");
    say_why(out, t, p, r);
    text_put(out, "): read it again");
}

bool say_impossible(text *reasons, const tube_readings *t, const possible_readings *p)
{
    bool said = false;
    for (size_t i = 0; i < t->count; i++) {
        if (is_possible_reading(p, t->at[i])) continue;
        say_reading(reasons, t, p, t->at[i]);
        said = true;
    }
    if (walls_are_apart(t, p)) {
        begin_reason(reasons);
        text_format(reasons, "the most wall read is over %.0f times the least, which cannot be: read both again", wall_factor);
        said = true;
    }
    return said;
}

static bool stands_before(const tube_readings *t, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (is_same_place(t->at[k], t->at[i])) return true;
    return false;
}

/* "wall was read 2 times at clock 120: 0.0585 in, 0.03 in; the least counts" */
static void say_times(text *reasons, const tube_readings *t, const possible_readings *p, size_t first)
{
    size_t times = 0;
    text values = {0};
    const reading_row *r = t->at[first];
    for (size_t i = first; i < t->count; i++) {
        if (!is_same_place(r, t->at[i]) || !is_possible_reading(p, t->at[i])) continue;
        if (times++ > 0) text_put(&values, ", ");
        put_reading(&values, t, t->at[i]->reading);
    }
    if (times > 1) {
        begin_reason(reasons);
        text_format(reasons, "%s was read %zu times", name_of(r), times);
        put_clock(reasons, r);
        text_format(reasons, " (%s): %s", text_string(&values, &reasons->failed),
                    r->measure == MEASURE_OD ? "all count" : r->measure == MEASURE_WALL ? "the least counts" : "the most counts");
    }
    text_free_part(&values, reasons);
}

void say_doubled(text *reasons, const tube_readings *t, const possible_readings *p)
{
    for (size_t i = 0; i < t->count; i++)
        if (!stands_before(t, i)) say_times(reasons, t, p, i);
}
