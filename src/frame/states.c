/* One state, or one number, of a frame in a run. */
#include "frame/bows.h"
#include "frame/critical.h"
#include "frame/element.h"
#include "frame/run.h"

#include "mechanics/beamcolumn_body.h"
#include "mechanics/no_result.h"

#include <string.h>

/* Makes the path of a run and its first state. Status: RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_UNSTABLE */
static rbow_status open_path(rbow_frame_solver *s, const rbow_frame_run *run, int fit)
{
    if (rbow_frame_run_faults(&s->frame, run, NULL, 0) > 0) return RBOW_OUT_OF_RANGE;
    if (fit != RBOW_FRAME_AS_BUILT && fit != RBOW_FRAME_UNFORCED) return RBOW_OUT_OF_RANGE;
    if (rbow_frame_set_run(s, run) != RBOW_OK) return RBOW_OUT_OF_RANGE;
    rbow_frame_turn_bows(s, 1);
    rbow_frame_set_built_in(s, fit, 1);
    return rbow_frame_start(s) ? RBOW_OK : RBOW_UNSTABLE;
}

static rbow_status reach(rbow_frame_solver *s, const rbow_frame_run *run, double factor, int fit)
{
    if (!(factor >= 0 && isfinite(factor))) return RBOW_OUT_OF_RANGE;
    const rbow_status status = open_path(s, run, fit);
    if (status != RBOW_OK) return status;
    return rbow_frame_reach(s, factor) ? RBOW_OK : RBOW_UNSTABLE;
}

rbow_status rbow_frame_state(rbow_frame_solver *s, const rbow_frame_run *run, double factor, int fit, rbow_frame_motion *motions,
                             double *axial)
{
    const rbow_status status = reach(s, run, factor, fit);
    for (size_t i = 0; motions != NULL && i < s->frame.joint_count; i++)
        for (int k = 0; k < RBOW_AXES; k++) {
            motions[i].move[k] = status == RBOW_OK ? motions_of(s->motion, i)[k] : (double)NAN;
            motions[i].turn[k] = status == RBOW_OK ? motions_of(s->motion, i)[RBOW_AXES + k] : (double)NAN;
        }
    for (size_t i = 0; axial != NULL && i < s->frame.tube_count; i++) axial[i] = status == RBOW_OK ? s->axial[i] : (double)NAN;
    return status;
}

rbow_status rbow_frame_path_end(rbow_frame_solver *s, const rbow_frame_run *run, int fit, double *end)
{
    *end = NAN;
    const rbow_status status = open_path(s, run, fit);
    if (status != RBOW_OK && status != RBOW_UNSTABLE) return status;
    *end = status == RBOW_OK ? rbow_frame_follow(s, 1).end : 0;
    return RBOW_OK;
}

rbow_status rbow_frame_critical_factor(rbow_frame_solver *s, const rbow_frame_run *run, double *critical_factor)
{
    *critical_factor = NAN;
    if (rbow_frame_run_faults(&s->frame, run, NULL, 0) > 0 || rbow_frame_set_run(s, run) != RBOW_OK) return RBOW_OUT_OF_RANGE;
    rbow_frame_set_built_in(s, RBOW_FRAME_AS_BUILT, 1);
    rbow_frame_first_order(s);
    *critical_factor = rbow_frame_critical(s);
    return RBOW_OK;
}

/* ---- along a tube -------------------------------------------------------------------------------------------- */

/* The movement across the drawn line: the chord's, and the tube's off its chord. */
static void tell_station(rbow_frame_solver *s, const frame_tube *t, const tube_motion *m, const evaluation *e, rbow_profile *out)
{
    const prepared *p = &t->member;
    const double x = out->at / t->length, position = x - 0.5, *a = motions_of(s->motion, t->joint[END_A]);
    const station there = station_at(&p->beam, position, position < 0.5 ? nextafter(position, 1) : position);
    const location at = location_of(&there);
    const equilibrium solved = equilibrium_from(&p->beam, &e->solution);
    moments of;
    double w[PLANES], dw[PLANES], moved[PLANES];
    moments_at(&solved, &at, &of);
    movements_at(&solved, &at, w, dw);
    for (int i = 0; i < PLANES; i++) moved[i] = dot3(a, t->side[i]) + m->chord[i] * out->at + w[i] * t->length;
    out->moment_up = of.m[UP] * p->unit;
    out->moment_right = of.m[RIGHT] * p->unit;
    out->deflection_up = moved[UP];
    out->deflection_right = moved[RIGHT];
}

static void forget(rbow_profile *places, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const double at = places[i].at;
        NO_RESULT(&places[i]);
        places[i].at = at;
    }
}

rbow_status rbow_frame_profile(rbow_frame_solver *s, const rbow_frame_run *run, double factor, int fit, size_t tube,
                               rbow_profile *places, size_t count)
{
    evaluation e;
    tube_loads loads;
    forget(places, count);
    if (tube >= s->frame.tube_count) return RBOW_OUT_OF_RANGE;
    const frame_tube *t = &s->tubes[tube];
    for (size_t i = 0; i < count; i++)
        if (!(places[i].at >= 0 && places[i].at <= t->length * (1 + 1e-12))) return RBOW_OUT_OF_RANGE;
    const rbow_status status = reach(s, run, factor, fit);
    if (status != RBOW_OK) return status;
    const tube_motion m = rbow_tube_motion(t, s->motion);
    const tube_state state = rbow_tube_state(t, &m);
    rbow_tube_loads(t, &state, factor, &loads);
    rbow_evaluate_loads(&t->member, &loads, false, &e);
    for (size_t i = 0; i < count; i++) tell_station(s, t, &m, &e, &places[i]);
    return RBOW_OK;
}
