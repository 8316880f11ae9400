/* The check of a frame in one run: on each side of the unknown bows, as built and without misses and gaps. */
#include "frame/bows.h"
#include "frame/critical.h"
#include "frame/limits.h"
#include "frame/results.h"
#include "frame/run.h"

#include <gsl/gsl_math.h>
#include <string.h>

typedef struct checking {
    rbow_frame_solver *solver;
    const rbow_frame_run *run;
    double step;     /* the first along a path */
    double critical;
    int sides;       /* 2 where a bow is unknown */
    bool forced;     /* there is a miss or a gap */
    rbow_frame_joint_result *joints;
} checking;

static double side_of(int side)
{
    return side == 0 ? 1 : -1;
}

static bool is_forced(const rbow_frame *f)
{
    for (size_t i = 0; i < f->tube_count; i++)
        if (f->tubes[i].miss_a > 0 || f->tubes[i].miss_b > 0 || fabs(f->tubes[i].gap) > 0) return true;
    return false;
}

static double usual_factor(const rbow_frame_run *run)
{
    return end_is(run->factor_yield, RBOW_UNSET) ? run->factor : fmax(run->factor, run->factor_yield);
}

/* A first step along a path: half of the way to the critical factor. */
static double first_step(double critical)
{
    return critical > 0 && isfinite(critical) ? critical / 2 : 1;
}

/* ---- one path ---------------------------------------------------------------------------------------------- */

static void no_state(rbow_frame_solver *s, tube_limits *limits)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) limits[i] = (tube_limits){.at = {NAN, NAN, NAN}};
}

/* The states at load factors 0 and 1. Given: after rbow_frame_start with what is built in */
static void tell_states(const checking *c, int side)
{
    rbow_frame_solver *s = c->solver;
    rbow_frame_tube_result *tubes = s->results[side];
    rbow_frame_joint_result *joints = side == 0 ? c->joints : NULL;
    rbow_frame_tell_rest(s, tubes, joints);
    if (rbow_frame_reach(s, 1)) {
        rbow_frame_tell_loaded(s, tubes, joints);
        return;
    }
    for (size_t i = 0; i < s->frame.tube_count; i++) tubes[i].remarks |= RBOW_REMARK_UNSTABLE;
}

static rbow_status check_path(const checking *c, int side, int fit)
{
    rbow_frame_solver *s = c->solver;
    tube_limits *limits = s->limits[side][fit];
    rbow_frame_set_built_in(s, fit, side_of(side));
    path_end end = {0, 0};
    rbow_status status = RBOW_OK;
    if (rbow_frame_start(s)) {
        if (fit == RBOW_FRAME_AS_BUILT) tell_states(c, side);
        end = rbow_frame_follow(s, c->step);
        status = rbow_frame_find_limits(s, &end, usual_factor(c->run), limits);
    } else {
        no_state(s, limits);
        if (fit == RBOW_FRAME_AS_BUILT)
            for (size_t i = 0; i < s->frame.tube_count; i++) s->results[side][i].remarks |= RBOW_REMARK_UNSTABLE;
    }
    for (size_t i = 0; fit == RBOW_FRAME_AS_BUILT && i < s->frame.tube_count; i++) s->results[side][i].path_end = end.end;
    return status;
}

static rbow_status check_side(const checking *c, int side)
{
    rbow_frame_solver *s = c->solver;
    rbow_frame_no_results(&s->frame, s->results[side], NULL, NULL);
    for (size_t i = 0; i < s->frame.tube_count; i++) rbow_frame_tell_tube(&s->tubes[i], &s->frame.tubes[i], &s->results[side][i]);
    const rbow_status status = check_path(c, side, RBOW_FRAME_AS_BUILT);
    if (status != RBOW_OK || c->forced) return status != RBOW_OK ? status : check_path(c, side, RBOW_FRAME_UNFORCED);
    memcpy(s->limits[side][RBOW_FRAME_UNFORCED], s->limits[side][RBOW_FRAME_AS_BUILT],
           s->frame.tube_count * sizeof *s->limits[side][RBOW_FRAME_AS_BUILT]);
    return RBOW_OK;
}

/* ---- the lowest margin of a tube ----------------------------------------------------------------------------- */

static void tell_governing(const tube_limits *l, const frame_margin *m, rbow_frame_tube_result *r)
{
    r->margin = m->margin;
    r->governs = m->governs;
    r->verdict = r->margin >= 0 ? RBOW_HOLDS : RBOW_SHORT;
    r->yield_factor = l->factor[RBOW_BY_YIELD];
    r->column_factor = l->factor[RBOW_BY_COLUMN];
    r->interaction_factor = l->factor[RBOW_BY_INTERACTION];
    r->governs_at = m->governs < RBOW_FRAME_BY_NONE ? l->at[m->governs] : (double)NAN;
}

static double turned(double clock, int side)
{
    const double other = clock + (side == 0 ? 0 : M_PI);
    return other >= 2 * M_PI ? other - 2 * M_PI : other;
}

/* Where two are equal, the first side and what is built stand. */
static void tell_margins(const checking *c, size_t i, rbow_frame_tube_result *r)
{
    const rbow_frame_solver *s = c->solver;
    double least[2] = {INFINITY, INFINITY};
    frame_margin margins[2][2];
    int side = 0, fit = RBOW_FRAME_AS_BUILT;
    for (int k = 0; k < c->sides; k++)
        for (int f = RBOW_FRAME_AS_BUILT; f <= RBOW_FRAME_UNFORCED; f++) {
            margins[k][f] = rbow_frame_margin_of(c->run, &s->limits[k][f][i]);
            least[f] = fmin(least[f], margins[k][f].margin);
            const double lowest = margins[side][fit].margin;
            if (!(margins[k][f].margin < lowest - 1e-9 * (1 + fabs(lowest)))) continue;
            side = k;
            fit = f;
        }
    *r = s->results[side][i];
    tell_governing(&s->limits[side][fit][i], &margins[side][fit], r);
    r->margin_as_built = least[RBOW_FRAME_AS_BUILT];
    r->margin_unforced = least[RBOW_FRAME_UNFORCED];
    r->margin = fmin(least[0], least[1]);
    r->verdict = r->margin >= 0 ? RBOW_HOLDS : RBOW_SHORT;
    r->fit_taken = fit;
    r->near_buckling = c->critical < 3;
    if (s->tubes[i].bow_unknown) r->bow_clock_taken = turned(s->tubes[i].bow_clock, side);
}

/* ---- the run -------------------------------------------------------------------------------------------------- */

static bool are_numbers(const rbow_frame_solver *s, const rbow_frame_tube_result *tubes)
{
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (isnan(tubes[i].margin) || isinf(tubes[i].peak_stress)) return false;
    return true;
}

static rbow_status check_run(checking *c, rbow_frame_tube_result *tubes)
{
    rbow_frame_solver *s = c->solver;
    rbow_status status = rbow_frame_set_run(s, c->run);
    if (status != RBOW_OK) return status;
    rbow_frame_set_built_in(s, RBOW_FRAME_AS_BUILT, 1);
    rbow_frame_first_order(s);
    c->critical = rbow_frame_critical(s);
    c->step = first_step(c->critical);
    c->sides = rbow_frame_turn_bows(s, c->step) ? 2 : 1;
    for (int side = 0; side < c->sides && status == RBOW_OK; side++) status = check_side(c, side);
    if (status != RBOW_OK) return status;
    for (size_t i = 0; i < s->frame.tube_count; i++) tell_margins(c, i, &tubes[i]);
    return are_numbers(s, tubes) ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

rbow_status rbow_frame_check(rbow_frame_solver *s, const rbow_frame_run *run, rbow_frame_tube_result *tubes,
                             rbow_frame_joint_result *joints, rbow_frame_run_result *whole)
{
    checking c = {.solver = s, .run = run, .forced = is_forced(&s->frame), .joints = joints};
    rbow_frame_no_results(&s->frame, tubes, joints, whole);
    const rbow_status status = rbow_frame_run_faults(&s->frame, run, NULL, 0) > 0 ? RBOW_OUT_OF_RANGE : check_run(&c, tubes);
    if (status != RBOW_OK) {
        rbow_frame_no_results(&s->frame, tubes, joints, whole);
        return status;
    }
    if (whole == NULL) return RBOW_OK;
    rbow_frame_tell_whole(&s->frame, tubes, joints, whole);
    whole->critical_factor = c.critical;
    return RBOW_OK;
}
