#include "study/inspection.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double full_circle = 2 * 3.14159265358979323846;

static void say_clocks(text *next, const char *how_many, double first, double second)
{
    text_format(next, "read the wall at %s: %d and %d", how_many, clock_degrees(first), clock_degrees(second));
}

/* The readings that are needed to fit the bore, as evenly spaced round the tube as the present ones allow. */
static void say_next(text *next, const rbow_wall_reading *walls, size_t count)
{
    double up = 0, right = 0;
    for (size_t i = 0; i < count; i++) up += cos(walls[i].clock), right += sin(walls[i].clock);
    const double middle = atan2(right, up), third = full_circle / 3;
    if (count == 0)
        text_put(next, "read the wall at clocks 0, 120 and 240");
    else if (count == 1)
        say_clocks(next, "two more clocks", walls[0].clock + third, walls[0].clock + 2 * third);
    else if (hypot(up, right) < 1e-6 * (double)count) /* in pairs opposite each other */
        say_clocks(next, "clocks across from these", walls[0].clock + full_circle / 4, walls[0].clock + 3 * full_circle / 4);
    else if (count == 2)
        text_format(next, "read the wall at one more clock: %d", clock_degrees(middle + full_circle / 2));
    else
        say_clocks(next, "clocks further round than these", middle + third, middle + 2 * third);
}

/* One wall a clock, the least that was read there. Returned: how many */
static size_t walls_of(const tube_readings *t, const possible_readings *p, rbow_wall_reading walls[])
{
    size_t count = 0;
    for (size_t i = 0; i < t->count; i++) {
        const reading_row *r = t->at[i];
        if (r->measure != MEASURE_WALL || !is_possible_reading(p, r)) continue;
        size_t k = 0;
        while (k < count && !is_same_place(&(reading_row){.measure = MEASURE_WALL, .clock = walls[k].clock}, r)) k++;
        if (k == count) walls[count++] = (rbow_wall_reading){r->clock, r->reading};
        walls[k].wall = fmin(walls[k].wall, r->reading);
    }
    return count;
}

/* Given: in_doubt  a wall reading cannot be: then nothing is fitted. Returned: false where memory ran out */
static bool fit_wall(const tube_readings *t, const possible_readings *p, bool in_doubt, inspect_row *tube, text *next)
{
    rbow_wall_reading *walls = calloc(t->count + 1, sizeof *walls);
    rbow_bore bore;
    if (walls == NULL) return false;
    const size_t count = walls_of(t, p, walls);
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        sum += walls[i].wall;
        tube->wall_least = fmin(tube->wall_least, walls[i].wall); /* fmin passes the first over NaN */
    }
    if (count > 0 && !in_doubt) tube->bore.mean = sum / (double)count;
    if (!in_doubt && rbow_bore_fit(walls, count, &bore) == RBOW_OK)
        tube->bore = bore;
    else if (!in_doubt)
        say_next(next, walls, count);
    free(walls);
    return true;
}

static void gather(const tube_readings *t, const possible_readings *p, inspect_row *tube)
{
    size_t count = 0;
    double sum = 0;
    for (size_t i = 0; i < t->count; i++) {
        const reading_row *r = t->at[i];
        if (r->measure == MEASURE_BOW) tube->bow = fmax(tube->bow, r->reading);
        if (r->measure != MEASURE_OD || !is_possible_reading(p, r)) continue;
        tube->od_least = fmin(tube->od_least, r->reading);
        tube->od_most = fmax(tube->od_most, r->reading);
        sum += r->reading;
        count++;
    }
    if (count == 0) return;
    tube->od_mean = sum / (double)count;
    tube->ovality = tube->od_most - tube->od_least;
}

/* ---- the verdict ------------------------------------------------------------------------------------- */

/* "wall reads 0.048 in, under 0.0522 in" */
static void add_reason(text *reasons, const tube_readings *t, const char *what, double value, const char *against,
                       double limit)
{
    begin_reason(reasons);
    text_format(reasons, "%s ", what);
    put_reading(reasons, t, value);
    text_format(reasons, ", %s ", against);
    put_reading(reasons, t, limit);
}

static void add_near(text *reasons, const tube_readings *t, const char *what, double value, double limit)
{
    const unit *u = unit_shown(DIM_LENGTH, t->units);
    text against = {0};
    text_format(&against, "within the gauge (%.3g %s) of the spec's", unit_from_own(u, t->gauge), u->name);
    add_reason(reasons, t, what, value, text_string(&against, &reasons->failed), limit);
    text_free(&against);
}

typedef struct spec_limit { /* one limit of a specification, and the reading closest to it or furthest beyond */
    const char *what, *reads;
    double value, limit;
    int below; /* 1: a lower limit; 0: an upper limit */
} spec_limit;

static int limits_of(const tube_readings *t, const inspect_row *r, spec_limit limits[4])
{
    const spec_row *s = t->spec;
    int count = 0;
    if (!isnan(s->od_least)) limits[count++] = (spec_limit){"od", "od reads", r->od_least, s->od_least, 1};
    if (!isnan(s->od_most)) limits[count++] = (spec_limit){"od", "od reads", r->od_most, s->od_most, 0};
    if (!isnan(s->wall_least)) limits[count++] = (spec_limit){"wall", "wall reads", r->wall_least, s->wall_least, 1};
    if (!isnan(s->bow_most)) limits[count++] = (spec_limit){"bow", "bow reads", r->bow, s->bow_most, 0};
    return count;
}

/* Distance of the value inside its limit; negative outside. */
static double room_of(const spec_limit *l)
{
    return l->below ? l->value - l->limit : l->limit - l->value;
}

typedef struct findings { /* what the readings and the limits found */
    bool od_in_doubt, wall_in_doubt; /* a reading cannot be */
    bool below, unread, recheck;
} findings;

/* Of a measure with a reading that cannot be the reason is said already. */
static bool is_in_doubt(const findings *f, const char *what)
{
    return strcmp(what, "od") == 0 ? f->od_in_doubt : strcmp(what, "wall") == 0 && f->wall_in_doubt;
}

static const double rounding = 1e-9; /* in; a limit as written is not missed by a last bit */

static void judge_limit(const tube_readings *t, const spec_limit *l, bool said_already, findings *f, text *reasons)
{
    const double room = room_of(l);
    if (isnan(l->value) && is_in_doubt(f, l->what)) return;
    if (isnan(l->value)) {
        f->unread = true;
        if (strcmp(l->what, "wall") == 0 || said_already) return; /* for the wall, the fit says what to read */
        begin_reason(reasons);
        text_format(reasons, "read the %s", l->what);
    } else if (room < -t->gauge - rounding) {
        f->below = true;
        add_reason(reasons, t, l->reads, l->value, l->below ? "under the spec's" : "over the spec's", l->limit);
    } else if (room <= t->gauge + rounding) {
        f->recheck = true;
        add_near(reasons, t, l->reads, l->value, l->limit);
    }
}

/* Compares the thinnest wall anywhere with its limit. */
static void judge_fit(const tube_readings *t, const inspect_row *r, const text *next, findings *f, text *reasons)
{
    const double least = t->spec->wall_least;
    if (isnan(least) || f->wall_in_doubt) return;
    if (isnan(r->bore.least)) {
        f->unread = true;
        begin_reason(reasons);
        text_put(reasons, text_string(next, &reasons->failed));
    } else if (r->bore.least <= least + t->gauge + rounding) {
        f->recheck = true;
        add_reason(reasons, t, "by the fit the thinnest wall is", r->bore.least, "the spec's", least);
        if (!isnan(r->bore.thin_clock)) text_format(reasons, ": read it at clock %d", clock_degrees(r->bore.thin_clock));
    }
}

static void judge(const tube_readings *t, inspect_row *r, const text *next, findings *f, text *reasons)
{
    spec_limit limits[4];
    const int count = limits_of(t, r, limits);
    for (int i = 0; i < count; i++)
        judge_limit(t, &limits[i], i > 0 && strcmp(limits[i].what, limits[i - 1].what) == 0, f, reasons);
    judge_fit(t, r, next, f, reasons);
    r->verdict = f->below ? INSPECT_BELOW : f->unread ? INSPECT_UNREAD : f->recheck ? INSPECT_RECHECK : INSPECT_MEETS;
}

/* Which measures have a reading that cannot be. */
static findings doubts_about(const tube_readings *t, const possible_readings *p)
{
    findings f = {.wall_in_doubt = walls_are_apart(t, p)};
    for (size_t i = 0; i < t->count; i++) {
        if (is_possible_reading(p, t->at[i])) continue;
        f.od_in_doubt = f.od_in_doubt || t->at[i]->measure == MEASURE_OD;
        f.wall_in_doubt = f.wall_in_doubt || t->at[i]->measure == MEASURE_WALL;
    }
    return f;
}

bool inspect_tube(const tube_readings *t, inspect_row *tube, text *reasons)
{
    text next = {0};
    const possible_readings p = possible_for(t);
    findings f = doubts_about(t, &p);
    *tube = (inspect_row){.tag = t->at[0]->tag, .part = t->at[0]->part, .od_mean = NAN, .od_least = NAN, .od_most = NAN,
                          .ovality = NAN, .wall_least = NAN, .bore = {NAN, NAN, NAN, NAN}, .bow = NAN, .name = "",
                          .margin_nominal = NAN, .margin_measured = NAN};
    f.recheck = say_impossible(reasons, t, &p);
    gather(t, &p, tube);
    const bool fitted = fit_wall(t, &p, f.wall_in_doubt, tube, &next);
    if (fitted) judge(t, tube, &next, &f, reasons);
    if (fitted) say_doubled(reasons, t, &p);
    text_free(&next);
    return fitted;
}
