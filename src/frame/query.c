#include "frame/element.h"
#include "frame/tube_search.h"
#include "frame/state.h"
#include "mechanics/no_result.h"

#include <railbow/clock.h>

#include <math.h>
#include <string.h>

/* A state of the path of a run; bows of unknown clock count upward. */
static rbow_status go(rbow_frame_solver *s, const rbow_frame_run *run, double factor, int fit, frame_path *path)
{
    if (!(factor >= 0 && isfinite(factor)) || (fit != RBOW_FRAME_AS_BUILT && fit != RBOW_FRAME_UNFORCED)) return RBOW_OUT_OF_RANGE;
    const rbow_status status = rbow_frame_set_run(s, run);
    if (status != RBOW_OK) return status;
    s->fit = fit == RBOW_FRAME_AS_BUILT ? 1 : 0;
    s->bows = 1;
    s->measured = true;
    const bool gone = rbow_frame_path_begin(path, s) && rbow_frame_path_go(path, factor);
    s->measured = false;
    return gone ? RBOW_OK : RBOW_UNSTABLE;
}

static void tell_motions(const rbow_frame_solver *s, const double *u, rbow_frame_motion *motions)
{
    for (size_t i = 0; i < s->frame.joint_count; i++)
        for (int k = 0; k < RBOW_AXES; k++) {
            motions[i].move[k] = motion_of(s, u, i, k);
            motions[i].turn[k] = motion_of(s, u, i, RBOW_AXES + k);
        }
}

rbow_status rbow_frame_state(rbow_frame_solver *s, const rbow_frame_run *run, double factor, int fit, rbow_frame_motion *motions,
                             double *axial)
{
    frame_path path;
    const rbow_status status = go(s, run, factor, fit, &path);
    for (size_t i = 0; motions != NULL && i < s->frame.joint_count; i++) NO_RESULT(&motions[i]);
    for (size_t i = 0; axial != NULL && i < s->frame.tube_count; i++) axial[i] = NAN;
    if (status != RBOW_OK) return status;
    const double *u = rbow_frame_path_state(&path);
    if (motions != NULL) tell_motions(s, u, motions);
    for (size_t i = 0; axial != NULL && i < s->frame.tube_count; i++) axial[i] = rbow_element_axial(s, &s->tubes[i], u);
    return RBOW_OK;
}

rbow_status rbow_frame_path_end(rbow_frame_solver *s, const rbow_frame_run *run, int fit, double *path_end)
{
    frame_path path;
    *path_end = NAN;
    const rbow_status status = go(s, run, 0, fit, &path);
    if (status != RBOW_OK && status != RBOW_UNSTABLE) return status;
    *path_end = status == RBOW_UNSTABLE ? 0 : rbow_frame_path_to_end(&path);
    return RBOW_OK;
}

rbow_status rbow_frame_profile(rbow_frame_solver *s, const rbow_frame_run *run, double factor, int fit, size_t tube,
                               rbow_profile *places, size_t count)
{
    frame_path path;
    evaluation e;
    if (tube >= s->frame.tube_count) return RBOW_OUT_OF_RANGE;
    for (size_t i = 0; i < count; i++)
        if (!(places[i].at >= 0 && places[i].at <= s->tubes[tube].length)) return RBOW_OUT_OF_RANGE;
    const rbow_status status = go(s, run, factor, fit, &path);
    if (status != RBOW_OK) return status;
    const frame_tube *t = &s->tubes[tube];
    const double *u = rbow_frame_path_state(&path);
    rbow_frame_evaluate(s, t, u, factor, false, &e);
    if (!e.stands) return RBOW_UNSTABLE;
    rbow_profile_of(&t->member, &e.solution, places, count);
    const element_ends up = rbow_element_ends(s, t, u, UP), right = rbow_element_ends(s, t, u, RIGHT);
    for (size_t i = 0; i < count; i++) {
        const double share = places[i].at / t->length;
        places[i].deflection_up += up.moved[END_A] + share * (up.moved[END_B] - up.moved[END_A]);
        places[i].deflection_right += right.moved[END_A] + share * (right.moved[END_B] - right.moved[END_A]);
    }
    return RBOW_OK;
}

/* ---- one tube ------------------------------------------------------------------------------------------- */

static void tell_use(const frame_tube *t, const evaluation *e, int which, rbow_limit *use)
{
    const reached *most = &e->limits[which];
    rbow_profile there = {.at = fmin(fmax((most->at + 0.5) * t->length, 0), t->length)};
    rbow_profile_of(&t->member, &e->solution, &there, 1);
    use->tension = 0;
    use->axial = e->axial + 0.0;
    use->torque = e->torque + 0.0;
    use->at = there.at;
    use->moment_up = there.moment_up;
    use->moment_right = there.moment_right;
    use->level = most->utilisation;
    use->in_weld_zone = most->zone != ZONE_TUBE;
}

rbow_status rbow_frame_use(rbow_frame_solver *s, const rbow_frame_run *run, double factor, int fit, size_t tube, int check,
                           rbow_limit *use)
{
    frame_path path;
    evaluation e;
    fill_no_result(use, offsetof(rbow_limit, in_weld_zone), sizeof *use);
    use->factor = factor;
    if (tube >= s->frame.tube_count || (check != RBOW_BY_YIELD && check != RBOW_BY_INTERACTION)) return RBOW_OUT_OF_RANGE;
    const rbow_status status = go(s, run, factor, fit, &path);
    if (status != RBOW_OK) return status;
    rbow_frame_evaluate(s, &s->tubes[tube], rbow_frame_path_state(&path), factor, true, &e);
    if (!e.stands) return RBOW_UNSTABLE;
    const int which = check == RBOW_BY_YIELD ? LIMIT_YIELD : LIMIT_INTERACTION;
    if (!isfinite(e.limits[which].utilisation)) return RBOW_STRESS_OVERFLOW;
    tell_use(&s->tubes[tube], &e, which, use);
    return RBOW_OK;
}

void rbow_frame_directions(const rbow_frame *f, size_t tube, double along[RBOW_AXES], double up[RBOW_AXES], double right[RBOW_AXES])
{
    frame_tube t = {.length = rbow_frame_member(f, &f->tubes[tube]).length};
    rbow_frame_set_directions(f, &f->tubes[tube], &t);
    memcpy(along, t.axis, sizeof t.axis);
    memcpy(up, t.side[UP], sizeof t.side[UP]);
    memcpy(right, t.side[RIGHT], sizeof t.side[RIGHT]);
}

void rbow_frame_bow_clocks(const rbow_frame_solver *s, double *clocks)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) clocks[i] = rbow_clock_of(s->tubes[i].bow[UP], s->tubes[i].bow[RIGHT]);
}
