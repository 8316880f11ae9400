#include "frame/bows.h"

#include "frame/tube_search.h"

#include <railbow/clock.h>

#include <string.h>

bool rbow_frame_has_open_bow(const rbow_frame_solver *s)
{
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (s->tubes[i].bow_unknown) return true;
    return false;
}

static void set_bow(const rbow_frame_solver *s, size_t tube, double size, double clock)
{
    rbow_clock_components(size * s->frame.tubes[tube].bow / s->tubes[tube].length, clock, s->tubes[tube].bow);
}

void rbow_frame_turn_bows(rbow_frame_solver *s, int side)
{
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (s->tubes[i].bow_unknown) set_bow(s, i, side, s->sides[i]);
}

void rbow_frame_find_sides(rbow_frame_solver *s)
{
    frame_path path;
    double factor = 1;
    memset(s->sides, 0, s->frame.tube_count * sizeof *s->sides);
    rbow_frame_turn_bows(s, 0);
    bool moved = rbow_frame_path_begin(&path, s);
    if (moved && !rbow_frame_path_go(&path, factor)) {
        factor = rbow_frame_path_begin(&path, s) ? 0.9 * fmin(1, rbow_frame_path_to_end(&path)) : 0;
        moved = rbow_frame_path_begin(&path, s) && rbow_frame_path_go(&path, factor);
    }
    const double *u = rbow_frame_path_state(&path);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const frame_tube *t = &s->tubes[i];
        if (!t->bow_unknown) continue;
        evaluation e = {.stands = false};
        double movement[PLANES] = {0, 0};
        if (moved) rbow_frame_evaluate(s, t, u, factor, false, &e);
        const peak far = e.stands ? rbow_largest_movement(&t->member, &e.solution, movement) : (peak){0, 0};
        s->sides[i] = far.size > 1e-12 ? rbow_clock_of(movement[UP], movement[RIGHT]) : 0;
    }
}
