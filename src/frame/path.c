#include <stdio.h>
#include <stdlib.h>
#include "frame/path.h"

#include "frame/assemble.h"

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
        const int f = rbow_frame_seek_and_keep(s, next);
        if (f == STATE_GOOD) {
            if (!(next < factor)) return true;
            from = next;
            step *= 2;
        } else {
            step = (next - from) / 2;
            if (getenv("DBG")) fprintf(stderr, "reach %.15g from %.15g step %g found %d end\n", factor, from, step, f);
            if (!(step > width_enough / 8 * next)) return false;
        }
    }
}

/* Two folds at one load factor, as a frame that is symmetric in two planes can have, leave the sign of the determinant as it
 * was, but change two pivots of the derivative. So may a part of the matrix alone, which is no fold of the frame. At two folds
 * the determinant falls to a quarter with each halving of the bracket.
 * Given:    low, high  good states; before  negative pivots of the derivative at low
 * Returned: the load factor of the two folds; INFINITY for none */
static double double_fold(rbow_frame_solver *s, double low, double high, size_t before)
{
    enum { EARLY = 4, LATE = 16, HALVINGS = 26 };
    static const double must_fall = 8; /* in the logarithm, from early to late */
    double early = 0;
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = low + (high - low) / 2;
        if (!rbow_frame_reach(s, middle)) return INFINITY;
        const pivots p = rbow_frame_factor_tangent(s, middle);
        if (p.negative == before)
            low = middle;
        else
            high = middle;
        if (i == EARLY) early = p.log_size;
        if (i == LATE && early - p.log_size < must_fall) return INFINITY;
    }
    return high;
}

/* A step that misses may have been too long, and is halved; one that meets a buckled state has passed the end. Where two in a
 * row are good the next is twice as long. */
path_end rbow_frame_follow(rbow_frame_solver *s, double step)
{
    double last = 0, beyond = INFINITY;
    size_t negative = s->at_rest.negative;
    int good = 1;
    for (;;) {
        double next = fmin(last + step, farthest);
        if (next >= beyond) next = last + (beyond - last) / 2;
        const reached_state found = rbow_frame_seek_and_keep(s, next);
        if (found == STATE_GOOD) {
            const size_t now = s->of_tangent.negative;
            const double fold = now != negative ? double_fold(s, last, next, negative) : (double)INFINITY;
            if (isfinite(fold)) return (path_end){fold, last};
            negative = now;
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
