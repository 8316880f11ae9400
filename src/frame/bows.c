#include "frame/bows.h"

#include "frame/element.h"
#include "frame/run.h"

#include <gsl/gsl_math.h>

static double largest_slope(const rbow_frame_solver *s)
{
    double most = 0;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const tube_motion m = rbow_tube_motion(&s->tubes[i], s->motion);
        for (int k = 0; k < PLANES; k++)
            most = fmax(most, fmax(fabs(m.chord[k]), fmax(fabs(m.slope[END_A][k]), fabs(m.slope[END_B][k]))));
    }
    return most;
}

/* A movement that is this share of the largest slope in the frame is rounding. */
static const double rest = 1e-10;

static double clock_of_movement(rbow_frame_solver *s, const frame_tube *t, double factor, double scale)
{
    const tube_motion m = rbow_tube_motion(t, s->motion);
    const tube_state state = rbow_tube_state(t, &m);
    double movement[PLANES];
    evaluation e;
    tube_loads loads;
    rbow_tube_loads(t, &state, factor, &loads);
    rbow_evaluate_loads(&t->member, &loads, false, &e);
    const peak w = rbow_largest_movement(&t->member, &e.solution, movement);
    if (!(w.size > rest * scale)) return 0;
    const double clock = atan2(movement[RIGHT], movement[UP]);
    return clock < 0 ? clock + 2 * M_PI : clock;
}

bool rbow_frame_turn_bows(rbow_frame_solver *s, double step)
{
    bool any = false;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        any = any || s->tubes[i].bow_unknown;
        if (s->tubes[i].bow_unknown) s->tubes[i].bow_clock = 0;
    }
    if (!any) return false;
    double factor = 1;
    rbow_frame_set_built_in(s, RBOW_FRAME_AS_BUILT, 0);
    if (!rbow_frame_start(s)) return true;
    if (!rbow_frame_reach(s, factor)) {
        factor = rbow_frame_follow(s, step).last / 2;
        if (!rbow_frame_reach(s, factor)) return true;
    }
    const double scale = largest_slope(s);
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (s->tubes[i].bow_unknown) s->tubes[i].bow_clock = clock_of_movement(s, &s->tubes[i], factor, scale);
    return true;
}
