/* The load factor is divided into panels, in which what each tube meets is known as a series (panel.h). A tube whose series is
 * not short enough waits, and both halves of the panel follow. So every tube meets its panels in rising order, and all tubes
 * share the states. Within a panel the search is that of a member (first_crossing.h). */
#include "frame/limits.h"

#include "check/first_crossing.h"
#include "frame/panel.h"

#include <math.h>

static const double farthest = 1e6;
static const double narrow = 1e-8; /* a panel this narrow, as a share of its load factor, is not divided */

typedef struct search {
    rbow_frame_solver *solver;
    tube_limits *limits;
    double end;
} search;

static bool is_open(const tube_limits *l)
{
    return !(l->found[RBOW_BY_YIELD] && l->found[RBOW_BY_COLUMN] && l->found[RBOW_BY_INTERACTION]);
}

static size_t open_count(const search *f)
{
    size_t count = 0;
    for (size_t i = 0; i < f->solver->frame.tube_count; i++) count += is_open(&f->limits[i]);
    return count;
}

/* ---- one tube in one panel -------------------------------------------------------------------------------- */

static double place_of(const course *c, limit which, double factor)
{
    evaluation e;
    tube_loads loads;
    rbow_course_loads(c, factor, &loads);
    rbow_evaluate_loads(&c->tube->member, &loads, true, &e);
    return e.stands ? (e.limits[which].at + 0.5) * c->tube->length : (double)NAN;
}

static void note(const course *c, tube_limits *l, rbow_governs by, double factor)
{
    if (!isfinite(factor)) return;
    l->found[by] = true;
    l->factor[by] = factor;
    if (by != RBOW_BY_COLUMN) l->at[by] = place_of(c, by == RBOW_BY_YIELD ? LIMIT_YIELD : LIMIT_INTERACTION, factor);
}

/* Interaction counts only in compression: the parts of the panel with P > 0 are searched one after another. */
static double first_interaction(const course *c, path *along, const panel *p)
{
    const double nothing = 1e-13 * c->tube->member.column_load;
    for (double from = p->low; from < p->high;) {
        from = rbow_course_first(c, 1, nothing, from, p->high);
        if (!isfinite(from)) break;
        const double pulled = rbow_course_first(c, -1, -nothing / 2, from, p->high), to = fmin(pulled, p->high);
        const double found = rbow_first_crossing(along, LIMIT_INTERACTION, from, to);
        if (isfinite(found) || !(to > from)) return found;
        from = to;
    }
    return INFINITY;
}

static void search_tube(search *f, const course *c, const panel *p, tube_limits *l)
{
    const bool ends = isfinite(f->end);
    const load_source source = {rbow_course_loads, c, ends ? f->end : 1, ends ? 1 : 0};
    path along = rbow_path_under(&c->tube->member, &source);
    if (!l->found[RBOW_BY_COLUMN])
        note(c, l, RBOW_BY_COLUMN, rbow_course_first(c, 1, c->tube->member.column_load, p->low, p->high));
    if (!l->found[RBOW_BY_YIELD]) note(c, l, RBOW_BY_YIELD, rbow_first_crossing(&along, LIMIT_YIELD, p->low, p->high));
    if (!l->found[RBOW_BY_INTERACTION]) note(c, l, RBOW_BY_INTERACTION, first_interaction(c, &along, p));
    if (along.failed) f->solver->failed = true;
}

/* ---- panels ----------------------------------------------------------------------------------------------- */

/* Searches the tubes that wait for panels of this depth. Returned: how many must wait for deeper ones */
static size_t search_tubes(search *f, const panel *p, int depth)
{
    size_t waiting = 0;
    for (size_t i = 0; i < f->solver->frame.tube_count; i++) {
        tube_limits *l = &f->limits[i];
        if (l->waits != depth || !is_open(l)) continue;
        const course c = rbow_course_of(f->solver, p, i);
        if (p->high - p->low > narrow * p->high && !rbow_course_is_known(&c)) {
            l->waits = depth + 1;
            waiting++;
        } else {
            search_tube(f, &c, p, l);
        }
    }
    return waiting;
}

static bool search_panel(search *f, const panel *p, int depth)
{
    const double middle = p->low + (p->high - p->low) / 2;
    if (!rbow_panel_fill(f->solver, p)) return false;
    if (search_tubes(f, p, depth) == 0 || f->solver->failed) return true;
    if (!search_panel(f, &(panel){p->low, middle}, depth + 1)) return false;
    bool waits = false;
    for (size_t i = 0; i < f->solver->frame.tube_count; i++) waits = waits || (f->limits[i].waits > depth && is_open(&f->limits[i]));
    if (waits && !search_panel(f, &(panel){middle, p->high}, depth + 1)) return false;
    for (size_t i = 0; i < f->solver->frame.tube_count; i++)
        if (f->limits[i].waits > depth) f->limits[i].waits = depth;
    return true;
}

/* The next panel: at most half of the way to the end, and at last all of it. */
static double next_high(const path_end *end, double low, double width)
{
    if (isinf(end->end)) return fmin(low + width, farthest);
    const double left = end->last - low;
    return left < 1e-3 * end->last ? end->last : low + fmin(width, left / 2);
}

static void clear(search *f, const path_end *end)
{
    for (size_t i = 0; i < f->solver->frame.tube_count; i++)
        f->limits[i] = (tube_limits){.factor = {end->end, end->end, end->end}, .at = {NAN, NAN, NAN}};
}

rbow_status rbow_frame_find_limits(rbow_frame_solver *s, const path_end *end, double usual, tube_limits *limits)
{
    search f = {s, limits, end->end};
    double low = 0, width = 2 * usual;
    clear(&f, end);
    while (low < end->last && open_count(&f) > 0) {
        const panel p = {low, next_high(end, low, width)};
        if (!search_panel(&f, &p, 0)) return RBOW_NO_CONVERGENCE;
        if (s->failed) return RBOW_STRESS_OVERFLOW;
        low = p.high;
        width *= 2;
    }
    return RBOW_OK;
}
