/* States are analytic in the load factor up to the end of the path. The path is cut into panels; in each the movements are the
 * polynomial through nine states at Chebyshev's points, and the panel is narrowed until the polynomial through every other of them
 * meets the rest to `close_enough` in utilisation of every tube that is still searched, so that the error of the full one is about
 * its square. All tubes are searched in a panel before the next one is solved. The last 2e-7 of a path before its end are left
 * out: a limit that is reached there has the factor of the end.
 * Source: Trefethen, Approximation Theory and Approximation Practice, 2013, ch. 8 (convergence). */
#include "frame/factors.h"

#include "frame/tube_search.h"

#include <float.h>
#include <math.h>
#include <string.h>

static const double close_enough = 2e-5; /* in utilisation, of every other node */
static const double noise = 1e-2; /* in utilisation: what rounding may leave in states close to buckling */
static const double nearly = 0.99; /* of the end */
static const double narrowest = 2e-7; /* of the end: a path is searched this close to it */

/* ---- panels --------------------------------------------------------------------------------------------- */

/* The states at the nodes. The first one stands in row 0 already.
 * Returned: false where the path has no state at one of them */
static bool fill_panel(frame_path *path, const panel *p)
{
    rbow_frame_solver *s = path->solver;
    for (int k = 1; k < NODES; k++) {
        s->measured = k == NODES - 1 && !(p->factor[k] < s->sure_below);
        const bool gone = rbow_frame_path_go(path, p->factor[k]);
        s->measured = false;
        if (!gone) return false;
        memcpy(row_of(s, k), rbow_frame_path_state(path), s->count * sizeof(double));
    }
    return true;
}

/* ---- the path ----------------------------------------------------------------------------------------------- */

/* What is searched: the tubes, then the followers. */
static size_t searches(const rbow_frame_solver *s)
{
    return s->frame.tube_count + s->follower_count;
}

static frame_reached *reached_by(const rbow_frame_solver *s, size_t index)
{
    const size_t tubes = s->frame.tube_count;
    return index < tubes ? &s->reached[index] : &s->followers[index - tubes].reached;
}

static bool is_searched(const rbow_frame_solver *s, size_t index)
{
    for (int k = 0; k < FRAME_LIMITS; k++)
        if (isinf(reached_by(s, index)->factor[k])) return false;
    return true;
}

static bool all_searched(const rbow_frame_solver *s)
{
    for (size_t i = 0; i < searches(s); i++)
        if (!is_searched(s, i)) return false;
    return true;
}

/* The largest of the tubes that are still searched. */
static double roughest(rbow_frame_solver *s, const panel *p)
{
    double rough = 0;
    for (size_t i = 0; i < searches(s); i++)
        if (!is_searched(s, i)) rough = fmax(rough, rbow_frame_roughness(s, i, p));
    return rough;
}

static rbow_status search_all(rbow_frame_solver *s, const panel *p, double asked)
{
    for (size_t i = 0; i < searches(s); i++) {
        const rbow_status status = is_searched(s, i) ? RBOW_OK : rbow_frame_search_tube(s, i, p, asked);
        if (status != RBOW_OK) return status;
    }
    return RBOW_OK;
}

static bool is_asked(const rbow_frame_solver *s, size_t index, int which)
{
    if (index < s->frame.tube_count) return !s->follows_only && is_judged(s, index);
    const frame_follower *f = &s->followers[index - s->frame.tube_count];
    return which < LIMITS && f->has[which] && is_judged(s, f->tube);
}

/* What is not asked counts as reached, farther than anything is. */
static void nothing_reached(rbow_frame_solver *s)
{
    for (size_t i = 0; i < searches(s); i++)
        for (int k = 0; k < FRAME_LIMITS; k++) {
            frame_reached *r = reached_by(s, i);
            r->factor[k] = is_asked(s, i, k) ? (double)INFINITY : DBL_MAX;
            r->at[k] = NAN;
            r->last[k] = 0;
        }
}

/* A limit that is within rounding of being reached where the path ends is reached there: a pinned tube on Euler's curve. Where the
 * search breaks off before, because rounding hides the states, one that is half reached counts as reached where it does, and far from
 * the end every one: that is on the safe side. */
static void reach_at_end(rbow_frame_solver *s, double path_end, double searched)
{
    const bool whole = !(searched < fmin(path_end, endless_from) * (1 - 1e-5));
    for (size_t i = 0; i < searches(s); i++)
        for (int k = 0; k < FRAME_LIMITS; k++) {
            frame_reached *r = reached_by(s, i);
            const bool counts = whole ? r->last[k] >= 1 - 1e-6 : r->last[k] >= 0.5 || searched < nearly * path_end;
            if (isinf(r->factor[k]) && counts) r->factor[k] = whole ? path_end : searched;
        }
}

typedef struct path_search {
    double end;   /* of the path; INFINITY where it has none, or it is not known */
    double asked; /* the largest required load factor */
    double upto;  /* load factor beyond which nothing is asked, with an end of INFINITY alone; INFINITY: every factor is */
} path_search;

/* Toward an end an error in x is one in the load factor that is exp(x) times smaller. */
static double enough_at(double x, double end)
{
    return isinf(end) ? close_enough : fmin(close_enough * exp(x / 2), 5e-3);
}

/* The error of every other node grows with the fifth power of the width. */
static double better_width(double width, double rough, double enough)
{
    return width * fmin(3, fmax(0.25, 0.85 * pow(enough / fmax(rough, DBL_MIN), 0.2)));
}

/* The lowest of the factors that are found, each as a share of what is required of it. */
static double lowest_share(const rbow_frame_solver *s)
{
    double lowest = INFINITY;
    for (size_t i = 0; i < searches(s); i++)
        for (int k = 0; k < FRAME_LIMITS; k++)
            lowest = fmin(lowest, reached_by(s, i)->factor[k] / (k == FRAME_YIELD ? factor_yield_of(s->run) : s->run->factor));
    return lowest;
}

/* Returned: ends      whether the path ends before `upto`, a load factor, and before a lower margin is found
 *           searched  load factor that the search has come to */
static rbow_status search_path(rbow_frame_solver *s, const path_search *q, bool *ends, double *searched)
{
    const double most = isinf(q->end) ? endless_from : -log(narrowest), first = rbow_panel_x(2 * q->asked, q->end);
    double from = 0, width = isinf(q->end) ? q->asked : first < 0.7 ? first : 0.7, upto = q->upto, rough_before = INFINITY;
    frame_path path;
    *ends = true;
    *searched = 0;
    nothing_reached(s);
    if (!(q->end > 0)) return RBOW_OK;
    if (!rbow_frame_path_begin(&path, s)) return isinf(q->upto) ? RBOW_NO_CONVERGENCE : RBOW_OK;
    memcpy(row_of(s, 0), s->rest, s->count * sizeof(double));
    *ends = false;
    while (from < fmin(most, upto) && !all_searched(s)) {
        const double last = isinf(q->end) ? fmin(most, upto) : most;
        const panel p = rbow_panel_of(from, from + 1.2 * width < last ? from + width : last, q->end);
        const double reach = p.to - p.from, enough = enough_at(p.from, q->end);
        const bool whole = fill_panel(&path, &p);
        const double rough = whole ? roughest(s, &p) : (double)INFINITY;
        width = better_width(reach, rough, enough);
        *ends = !whole && isfinite(q->upto);
        if (*ends) break;
        const bool is_noise = rough < noise && rough > 0.7 * rough_before; /* a narrower panel is no smoother */
        rough_before = rough;
        if (rough > enough && !is_noise && reach > (whole || isinf(q->end) ? 1e-9 : 0.02)) {
            width = fmin(width, reach / 1.5);
            rbow_frame_path_from(&path, s, p.factor[0], row_of(s, 0));
            continue;
        }
        if (!whole) return *searched > fmin(q->end / 2, 20 * q->asked) ? RBOW_OK : RBOW_NO_CONVERGENCE;
        if (is_noise) width = 2 * reach;
        const rbow_status status = search_all(s, &p, q->asked);
        if (status != RBOW_OK) return status;
        from = p.to;
        *searched = p.factor[NODES - 1];
        rough_before = INFINITY;
        memcpy(row_of(s, 0), row_of(s, NODES - 1), s->count * sizeof(double));
        if (isfinite(q->upto)) upto = fmin(upto, lowest_share(s) * q->asked);
    }
    return RBOW_OK;
}

rbow_status rbow_frame_factors(rbow_frame_solver *s, double path_end)
{
    const path_search q = {.end = path_end, .asked = largest_required(s->run), .upto = INFINITY};
    bool ends;
    double searched;
    s->sure_below = 0.999 * path_end;
    const rbow_status status = search_path(s, &q, &ends, &searched);
    s->sure_below = 0;
    reach_at_end(s, path_end, all_searched(s) ? path_end : searched);
    return status;
}

rbow_status rbow_frame_lowest_factors(rbow_frame_solver *s, double most, double *path_end)
{
    const double asked = largest_required(s->run), first = fmin(most, 4);
    const path_search q = {.end = INFINITY, .asked = asked, .upto = first * asked};
    frame_path path;
    bool ends;
    double searched;
    *path_end = INFINITY;
    const rbow_status status = search_path(s, &q, &ends, &searched);
    if (status != RBOW_OK || (!ends && (most <= first || lowest_share(s) <= first))) return status;
    *path_end = rbow_frame_path_begin(&path, s) ? rbow_frame_path_to_end(&path) : 0;
    return rbow_frame_factors(s, *path_end);
}
