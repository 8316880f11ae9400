#include "detail/factor.h"
#include "detail/frame_forces.h"
#include "frame/bows.h"
#include "frame/factors.h"
#include "frame/margin.h"
#include "frame/tube_search.h"
#include "mechanics/no_result.h"

#include <railbow/clock.h>

/* ---- faults ------------------------------------------------------------------------------------------------ */

size_t rbow_frame_detail_faults(const rbow_frame *frame, size_t tube, const rbow_detail *detail, rbow_status *faults, size_t most)
{
    if (tube < frame->tube_count) {
        const rbow_member m = rbow_frame_member(frame, &frame->tubes[tube]);
        return rbow_detail_faults(detail, &m, frame->tubes[tube].material, faults, most);
    }
    if (most > 0) faults[0] = RBOW_OUT_OF_RANGE;
    return 1;
}

/* ---- levels ------------------------------------------------------------------------------------------------ */

static void levels(const void *of, const rbow_section_forces *f, double level[LIMITS])
{
    for (int k = 0; k < LIMITS; k++) level[k] = rbow_detail_level(of, f, k);
}

/* Levels per unit of what acts, against those of the tube. */
static double weight_of(const detail_model *m)
{
    const rbow_section *s = &m->metal.section;
    const double yield = fmin(m->metal.compression_yield, m->metal.yield), by_moment = 1 / (s->section_modulus * yield);
    const detail_slopes slopes = rbow_detail_slopes_of(m);
    const rbow_section_forces push = {.axial = 1}, torque = {.torque = 1};
    double weight = fmax(1, (slopes.moment + 20 * slopes.shear / m->length) / by_moment); /* a wave of up to 2 pi, and its couples */
    for (int k = 0; k < LIMITS; k++) {
        weight = fmax(weight, rbow_detail_level(m, &push, k) * s->area * yield);
        weight = fmax(weight, rbow_detail_level(m, &torque, k) * s->polar_inertia * yield / (s->od / 2) / sqrt(3.0));
    }
    return weight;
}

/* ---- several on one path ----------------------------------------------------------------------------------- */

enum { FOLLOWED_MOST = 16 };

typedef struct found_lowest {
    double ratio, factor[LIMITS];
    int mode[LIMITS], fit, side;
} found_lowest;

typedef struct followed { /* details that are followed together */
    const rbow_frame_detail *details;
    size_t count;
    detail_model models[FOLLOWED_MOST];
    frame_follower followers[FOLLOWED_MOST];
    found_lowest low[FOLLOWED_MOST];
} followed;

/* Status: RBOW_OK | a wall rule's */
static rbow_status follow(rbow_frame_solver *s, const rbow_frame_detail *details, size_t count, followed *f)
{
    f->details = details;
    f->count = count < FOLLOWED_MOST ? count : FOLLOWED_MOST;
    for (size_t i = 0; i < f->count; i++) {
        const size_t tube = details[i].tube;
        detail_model *m = &f->models[i];
        const rbow_status status = rbow_detail_model_of(&details[i].detail, &s->tubes[tube].member, s->frame.tubes[tube].material, m);
        if (status != RBOW_OK) return status;
        f->followers[i] = (frame_follower){.tube = tube, .at = m->detail.at, .weight = weight_of(m), .levels = levels, .of = m};
        for (int k = 0; k < LIMITS; k++) f->followers[i].has[k] = rbow_detail_has(m, k);
        f->low[i].ratio = NAN;
    }
    s->followers = f->followers;
    s->follower_count = f->count;
    return RBOW_OK;
}

static void unfollow(rbow_frame_solver *s)
{
    s->followers = NULL;
    s->follower_count = 0;
    s->follows_only = false;
}

/* ---- the check --------------------------------------------------------------------------------------------- */

static double required(const rbow_frame_run *run, int which)
{
    return which == DETAIL_YIELD ? factor_yield_of(run) : run->factor;
}

/* The mode at a factor of the path that is set. */
static int mode_at(rbow_frame_solver *s, const detail_model *m, size_t tube, int which, double factor, double path_end)
{
    rbow_section_forces f;
    if (isinf(factor)) return RBOW_DETAIL_BY_NONE;
    if (factor >= path_end || rbow_frame_forces_signed(s, factor, tube, m->detail.at, SIDE_OF_MORE, &f) != RBOW_OK) return RBOW_DETAIL_BY_BUCKLING;
    return rbow_detail_mode_of(m, &f, which);
}

static found_lowest lowest_of(rbow_frame_solver *s, const followed *f, size_t i, double path_end)
{
    found_lowest here = {.ratio = INFINITY};
    for (int k = 0; k < LIMITS; k++) {
        here.factor[k] = f->followers[i].has[k] ? fmin(f->followers[i].reached.factor[k], path_end) : (double)INFINITY;
        here.mode[k] = mode_at(s, &f->models[i], f->followers[i].tube, k, here.factor[k], path_end);
        here.ratio = fmin(here.ratio, here.factor[k] / required(s->run, k));
    }
    return here;
}

/* Of one path. */
static rbow_status take_path(rbow_frame_solver *s, followed *f, int fit, int side)
{
    frame_path states;
    const double path_end = rbow_frame_path_begin(&states, s) ? rbow_frame_path_to_end(&states) : 0;
    const rbow_status status = rbow_frame_factors(s, path_end);
    for (size_t i = 0; i < f->count && status == RBOW_OK; i++) {
        found_lowest here = lowest_of(s, f, i, path_end);
        here.fit = fit;
        here.side = side;
        if (isnan(f->low[i].ratio) || here.ratio < f->low[i].ratio) f->low[i] = here;
    }
    return status;
}

static rbow_status take_all(rbow_frame_solver *s, followed *f)
{
    const int sides = rbow_frame_has_open_bow(s) ? 2 : 1, fits = rbow_frame_is_forced(s) ? 2 : 1;
    rbow_status status = RBOW_OK;
    s->fit = s->bows = 1;
    if (sides == 2) rbow_frame_find_sides(s);
    for (int side = 0; side < sides; side++) {
        rbow_frame_turn_bows(s, side == 0 ? 1 : -1);
        for (int fit = 0; fit < fits && status == RBOW_OK; fit++) {
            s->fit = fit == 0 ? 1 : 0;
            status = take_path(s, f, fit == 0 ? RBOW_FRAME_AS_BUILT : RBOW_FRAME_UNFORCED, side == 0 ? 1 : -1);
        }
    }
    return status;
}

/* At load factor 1 on the path that governs. */
static void tell_loaded(rbow_frame_solver *s, const detail_model *m, size_t tube, const found_lowest *low, rbow_detail_result *r)
{
    rbow_section_forces f;
    s->fit = low->fit == RBOW_FRAME_AS_BUILT ? 1 : 0;
    rbow_frame_turn_bows(s, low->side);
    if (rbow_frame_forces_signed(s, 1, tube, m->detail.at, SIDE_OF_MORE, &f) == RBOW_OK) rbow_detail_tell_forces(m, &f, r);
    else r->remarks |= RBOW_DETAIL_UNSTABLE;
}

static rbow_detail_result result_of(rbow_frame_solver *s, const followed *f, size_t i)
{
    const found_lowest *low = &f->low[i];
    const detail_factors k = {{low->factor[0], low->factor[1]}, {low->mode[0], low->mode[1]}};
    const double asked[LIMITS] = {[DETAIL_YIELD] = required(s->run, DETAIL_YIELD), [DETAIL_WELD] = required(s->run, DETAIL_WELD)};
    rbow_detail_result r = rbow_detail_no_answer();
    rbow_detail_tell_sizes(&f->details[i].detail, &f->models[i], &r);
    rbow_detail_tell_margin(&k, asked, low->ratio, &r);
    r.fit_taken = low->fit == RBOW_FRAME_AS_BUILT ? RBOW_FIT_AS_BUILT : RBOW_FIT_UNFORCED;
    r.joints_taken = RBOW_JOINTS_NONE;
    tell_loaded(s, &f->models[i], f->followers[i].tube, low, &r);
    return r;
}

static rbow_status first_fault(const rbow_frame *frame, const rbow_frame_detail *details, size_t count)
{
    rbow_status fault;
    for (size_t i = 0; i < count; i++)
        if (rbow_frame_detail_faults(frame, details[i].tube, &details[i].detail, &fault, 1) > 0) return fault;
    return RBOW_OK;
}

rbow_status rbow_frame_details_check(rbow_frame_solver *s, const rbow_frame_run *run, const rbow_frame_detail *details, size_t count,
                                     rbow_detail_result *results)
{
    const bool *picked = s->judged;
    rbow_status status = first_fault(&s->frame, details, count);
    for (size_t i = 0; i < count; i++) results[i] = rbow_detail_no_answer();
    s->judged = NULL;
    if (status == RBOW_OK) status = rbow_frame_set_run(s, run);
    for (size_t from = 0; from < count && status == RBOW_OK; from += FOLLOWED_MOST) {
        followed f;
        status = follow(s, details + from, count - from, &f);
        s->follows_only = true;
        if (status == RBOW_OK) status = take_all(s, &f);
        for (size_t i = 0; i < f.count && status == RBOW_OK; i++) results[from + i] = result_of(s, &f, i);
        unfollow(s);
    }
    s->judged = picked;
    for (size_t i = 0; i < count && status != RBOW_OK; i++) results[i] = rbow_detail_no_answer();
    return status;
}

rbow_status rbow_frame_detail_check(rbow_frame_solver *solver, const rbow_frame_run *run, size_t tube, const rbow_detail *detail,
                                    rbow_detail_result *result)
{
    const rbow_frame_detail one = {tube, *detail};
    return rbow_frame_details_check(solver, run, &one, 1, result);
}

/* ---- the margin alone -------------------------------------------------------------------------------------- */

rbow_status rbow_frame_details_margin(rbow_frame_solver *s, const rbow_frame_run *run, const rbow_frame_detail *details, size_t count,
                                      double most, rbow_frame_lowest *lowest, size_t *detail)
{
    rbow_status status = first_fault(&s->frame, details, count);
    *lowest = (rbow_frame_lowest){.margin = most, .governs_at = NAN, .tube = s->frame.tube_count, .governs = RBOW_FRAME_BY_NONE};
    *detail = count;
    for (size_t from = 0; (from == 0 || from < count) && status == RBOW_OK && lowest->margin > -1; from += FOLLOWED_MOST) {
        followed f;
        rbow_frame_lowest found;
        status = follow(s, count > 0 ? details + from : NULL, count - from, &f);
        s->follows_only = from > 0; /* the tubes are searched with the first details */
        if (status == RBOW_OK) status = rbow_frame_margin(s, run, lowest->margin, &found);
        unfollow(s);
        if (status != RBOW_OK || found.tube == s->frame.tube_count) continue;
        *lowest = found;
        *detail = found.governs < RBOW_FRAME_GOVERNS_COUNT ? count : from + (size_t)(found.governs - RBOW_FRAME_GOVERNS_COUNT);
        if (*detail < count) lowest->governs = RBOW_FRAME_BY_NONE;
    }
    return status;
}

rbow_status rbow_frame_tube_margin(rbow_frame_solver *s, const rbow_frame_run *run, size_t tube, const rbow_frame_detail *details,
                                   size_t count, double most, double *margin)
{
    rbow_frame_lowest lowest;
    size_t detail;
    bool fine = tube < s->frame.tube_count;
    for (size_t i = 0; i < count; i++) fine = fine && details[i].tube == tube;
    *margin = NAN;
    if (!fine) return RBOW_OUT_OF_RANGE;
    const bool *picked = s->judged;
    for (size_t i = 0; i < s->frame.tube_count; i++) s->alone[i] = i == tube;
    s->judged = s->alone;
    const rbow_status status = rbow_frame_details_margin(s, run, details, count, most, &lowest, &detail);
    s->judged = picked;
    if (status == RBOW_OK) *margin = lowest.margin;
    return status;
}
