/* Modes v with T v = m K v, T the tangent and K the stiffness without axial forces, which is positive definite: without load all m
 * are 1, and a fold is passed as one becomes negative. Inverse iteration finds the m closest to 0; each mode found
 * is taken out of the next (Wielandt, Math. Z. 50 (1944), 93; from memory). */
#include "frame/modes.h"

#include "frame/mixer.h"
#include "frame/stiffness.h"
#include "frame/tangent.h"

#include <math.h>
#include <string.h>

enum { MODES = 3, ROUNDS = 30 };
static const double settled = 0.9999; /* cosine of the angle between two steps */

static double *mode_row(const rbow_frame_solver *s, int i) { return row_of(s, STATES + i); }
static double *dual_row(const rbow_frame_solver *s, int i) { return row_of(s, STATES + MODES + i); }

/* Any vector that no symmetry of a frame leaves out. */
static void begin(const rbow_frame_solver *s, double *v, int mode)
{
    for (size_t j = 0; j < s->count; j++) v[j] = sin((double)(j + 1) * (1.7 + mode)) / (double)(1 + j % 3);
}

/* Returned: 1/m of the mode in its row, with its dual row; NaN where the steps do not settle on one direction */
static double find_mode(rbow_frame_solver *s, int mode)
{
    double *v = mode_row(s, mode), *dual = dual_row(s, mode), *step = s->step.data;
    double along = 0, inverse = NAN;
    begin(s, v, mode);
    for (int round = 0; round < ROUNDS && !(fabs(along) > settled) && !(round > 5 && fabs(inverse) < 1.25); round++) {
        rbow_frame_times_unloaded(s, v, step);
        rbow_frame_solve_tangent(s);
        for (int i = 0; i < mode; i++) {
            const double share = product(dual_row(s, i), step, s->count);
            for (size_t j = 0; j < s->count; j++) step[j] -= share * mode_row(s, i)[j];
        }
        const double size = sqrt(product(step, step, s->count)), was = sqrt(product(v, v, s->count));
        along = product(v, step, s->count) / (size * was);
        inverse = along > 0 ? size / was : -size / was;
        for (size_t j = 0; j < s->count; j++) v[j] = step[j] / size;
    }
    rbow_frame_times_unloaded(s, v, dual);
    const double energy = product(v, dual, s->count);
    for (size_t j = 0; j < s->count; j++) dual[j] /= energy;
    return fabs(along) > settled ? inverse : (double)NAN;
}

double rbow_frame_negative_mode(rbow_frame_solver *s)
{
    for (int mode = 0; mode < MODES && (size_t)mode < s->count; mode++) {
        const double inverse = find_mode(s, mode);
        if (inverse < 0) return 1 / inverse;
        if (!(inverse > 1)) return NAN; /* those that follow are no closer to 0 than in the unloaded frame */
    }
    return NAN;
}
