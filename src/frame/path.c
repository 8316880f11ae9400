#include "frame/path.h"

#include <math.h>

static const double farthest = 1e6;
static const double width_enough = 2e-8; /* of the bracket of the end, as a share of the load factor */

static double nearest_below(const rbow_frame_solver *s, double factor)
{
    double nearest = 0;
    for (size_t i = 0; i < s->known_count; i++)
        if (s->known[i].factor <= factor) nearest = fmax(nearest, s->known[i].factor);
    return nearest;
}

bool rbow_frame_reach(rbow_frame_solver *s, double factor)
{
    double from = nearest_below(s, factor), step = factor - from;
    for (;;) {
        const double next = from + step < factor ? from + step : factor;
        if (rbow_frame_seek_and_keep(s, next) == STATE_GOOD) {
            if (!(next < factor)) return true;
            from = next;
            step *= 2;
        } else {
            step = (next - from) / 2;
            if (!(step > width_enough / 8 * next)) return false;
        }
    }
}

/* A step that misses may have been too long, and is halved; one that meets a buckled state has passed the end. Where two in a
 * row are good the next is twice as long. */
path_end rbow_frame_follow(rbow_frame_solver *s, double step)
{
    double last = 0, beyond = INFINITY;
    int good = 1;
    for (;;) {
        double next = fmin(last + step, farthest);
        if (next >= beyond) next = last + (beyond - last) / 2;
        const reached_state found = rbow_frame_seek_and_keep(s, next);
        if (found == STATE_GOOD) {
            last = next;
            if (last >= farthest) return (path_end){INFINITY, last};
            if (++good > 1) step *= 2;
        } else {
            if (found == STATE_BEYOND) beyond = next;
            step = (next - last) / 2;
            good = 0;
        }
        if ((isfinite(beyond) && beyond - last <= width_enough * beyond) || step <= width_enough / 2 * next)
            return (path_end){fmin(last + 2 * step, beyond), last};
    }
}
