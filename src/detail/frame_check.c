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

/* ---- the check --------------------------------------------------------------------------------------------- */

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

typedef struct lowest {
    double ratio, factor[LIMITS];
    int mode[LIMITS], fit, side;
} lowest;

static double required(const rbow_frame_run *run, int which)
{
    return which == DETAIL_YIELD ? factor_yield_of(run) : run->factor;
}

/* The mode at a factor of the path that is set. */
static int mode_at(rbow_frame_solver *s, const detail_model *m, int which, double factor, double path_end)
{
    rbow_section_forces f;
    if (isinf(factor)) return RBOW_DETAIL_BY_NONE;
    if (factor >= path_end || rbow_frame_forces_signed(s, factor, s->follower->tube, m->detail.at, &f) != RBOW_OK) return RBOW_DETAIL_BY_BUCKLING;
    return rbow_detail_mode_of(m, &f, which);
}

/* Of one path. */
static rbow_status take_path(rbow_frame_solver *s, const detail_model *m, int fit, int side, lowest *low)
{
    frame_path states;
    lowest here = {.ratio = INFINITY, .fit = fit, .side = side};
    const double path_end = rbow_frame_path_begin(&states, s) ? rbow_frame_path_to_end(&states) : 0;
    const rbow_status status = rbow_frame_factors(s, path_end);
    if (status != RBOW_OK) return status;
    for (int k = 0; k < LIMITS; k++) {
        const bool there = rbow_detail_has(m, k);
        here.factor[k] = there ? fmin(s->reached[s->follower->tube].factor[k], path_end) : (double)INFINITY;
        here.mode[k] = mode_at(s, m, k, here.factor[k], path_end);
        here.ratio = fmin(here.ratio, here.factor[k] / required(s->run, k));
    }
    if (isnan(low->ratio) || here.ratio < low->ratio) *low = here;
    return RBOW_OK;
}

static rbow_status take_all(rbow_frame_solver *s, const detail_model *m, lowest *low)
{
    const int sides = rbow_frame_has_open_bow(s) ? 2 : 1, fits = rbow_frame_is_forced(s) ? 2 : 1;
    rbow_status status = RBOW_OK;
    s->fit = s->bows = 1;
    if (sides == 2) rbow_frame_find_sides(s);
    for (int side = 0; side < sides; side++) {
        rbow_frame_turn_bows(s, side == 0 ? 1 : -1);
        for (int fit = 0; fit < fits && status == RBOW_OK; fit++) {
            s->fit = fit == 0 ? 1 : 0;
            status = take_path(s, m, fit == 0 ? RBOW_FRAME_AS_BUILT : RBOW_FRAME_UNFORCED, side == 0 ? 1 : -1, low);
        }
    }
    return status;
}

/* At load factor 1 on the path that governs. */
static void tell_loaded(rbow_frame_solver *s, const detail_model *m, const lowest *low, rbow_detail_result *r)
{
    rbow_section_forces f;
    s->fit = low->fit == RBOW_FRAME_AS_BUILT ? 1 : 0;
    rbow_frame_turn_bows(s, low->side);
    if (rbow_frame_forces_signed(s, 1, s->follower->tube, m->detail.at, &f) == RBOW_OK) rbow_detail_tell_forces(m, &f, r);
    else r->remarks |= RBOW_DETAIL_UNSTABLE;
}

static rbow_status check(rbow_frame_solver *s, const detail_model *m, const rbow_detail *given, rbow_detail_result *r)
{
    lowest low = {.ratio = NAN};
    const rbow_status status = take_all(s, m, &low);
    if (status != RBOW_OK) return status;
    const detail_factors k = {{low.factor[0], low.factor[1]}, {low.mode[0], low.mode[1]}};
    rbow_detail_tell_sizes(given, m, r);
    const double asked[LIMITS] = {[DETAIL_YIELD] = required(s->run, DETAIL_YIELD), [DETAIL_WELD] = required(s->run, DETAIL_WELD)};
    rbow_detail_tell_margin(&k, asked, low.ratio, r);
    r->fit_taken = low.fit == RBOW_FRAME_AS_BUILT ? RBOW_FIT_AS_BUILT : RBOW_FIT_UNFORCED;
    r->joints_taken = RBOW_JOINTS_NONE;
    tell_loaded(s, m, &low, r);
    return RBOW_OK;
}

rbow_status rbow_frame_detail_check(rbow_frame_solver *s, const rbow_frame_run *run, size_t tube, const rbow_detail *detail,
                                    rbow_detail_result *result)
{
    detail_model m;
    rbow_detail_result r = rbow_detail_no_answer();
    rbow_status status;
    *result = r;
    if (rbow_frame_detail_faults(&s->frame, tube, detail, &status, 1) > 0) return status;
    status = rbow_frame_set_run(s, run);
    if (status == RBOW_OK) status = rbow_detail_model_of(detail, &s->tubes[tube].member, s->frame.tubes[tube].material, &m);
    if (status != RBOW_OK) return status;
    const frame_follower follower = {.tube = tube, .at = detail->at, .weight = weight_of(&m), .levels = levels, .of = &m};
    s->follower = &follower;
    status = check(s, &m, detail, &r);
    s->follower = NULL;
    if (status == RBOW_OK) *result = r;
    return status;
}
