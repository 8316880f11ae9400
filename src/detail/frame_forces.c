#include "detail/frame_forces.h"

#include "frame/tube_search.h"
#include "mechanics/no_result.h"

/* The loads of the run the other way round, for a factor below 0. */
static void turn_loads(rbow_frame_solver *s)
{
    for (size_t i = 0; i < s->frame.joint_count * RBOW_MOTIONS; i++) s->applied[i] = -s->applied[i];
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        frame_tube *t = &s->tubes[i];
        for (int k = 0; k < PLANES; k++) {
            t->spread[k] = -t->spread[k];
            t->point[k] = -t->point[k];
        }
        for (int k = 0; k < ENDS; k++) t->along[k] = -t->along[k];
    }
}

/* At a factor of at least 0. */
static rbow_status forces_at(rbow_frame_solver *s, double factor, size_t tube, double at, place_side side, rbow_section_forces *f)
{
    frame_path states;
    evaluation e;
    if (!rbow_frame_path_begin(&states, s) || !rbow_frame_path_go(&states, factor)) return RBOW_UNSTABLE;
    rbow_frame_evaluate(s, &s->tubes[tube], rbow_frame_path_state(&states), factor, false, &e);
    if (!e.stands) return RBOW_UNSTABLE;
    *f = rbow_frame_forces_of(&s->tubes[tube], &e, at, side);
    return RBOW_OK;
}

rbow_status rbow_frame_forces_signed(rbow_frame_solver *s, double factor, size_t tube, double at, place_side side, rbow_section_forces *f)
{
    if (factor < 0) turn_loads(s);
    const rbow_status status = forces_at(s, fabs(factor), tube, at, side, f);
    if (factor < 0) turn_loads(s);
    return status;
}

rbow_status rbow_frame_forces(rbow_frame_solver *s, const rbow_frame_run *run, double factor, int fit, size_t tube, double at,
                              rbow_section_forces *forces)
{
    NO_RESULT(forces);
    if (!isfinite(factor) || tube >= s->frame.tube_count || !(at >= 0 && at <= s->tubes[tube].length)
        || (fit != RBOW_FRAME_AS_BUILT && fit != RBOW_FRAME_UNFORCED))
        return RBOW_OUT_OF_RANGE;
    const rbow_status status = rbow_frame_set_run(s, run);
    if (status != RBOW_OK) return status;
    s->fit = fit == RBOW_FRAME_AS_BUILT ? 1 : 0;
    s->bows = 1;
    return rbow_frame_forces_signed(s, factor, tube, at, SIDE_OF_MORE, forces);
}
