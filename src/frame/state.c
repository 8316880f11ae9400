/* A state is G(u) = F(u, P(u)) - load = 0, F the forces of the joints on the tubes, P the axial forces, linear in u. The
 * stiffness K is the derivative of F at fixed P in its bending; the tangent T has, in addition, one product of two vectors for
 * each tube, its bending by P times its P by u. Steps with K alone, decomposed once, shrink the error by the spectral radius of
 * 1 - K^-1 T each. Few of its values are large, so mixing the last steps removes them (Anderson, J. ACM 12 (1965), 547; from
 * memory). A fold shows in the sign of det T, which is asked where the steps shrink slowly, and always where the state is measured:
 * steps from a symmetric guess do not meet a mode that is not. Where even mixed steps shrink slowly, Newton steps with T take over.
 * Source: Livesley, Matrix Methods of Structural Analysis, 2nd ed. 1975, ch. 11 (stability functions in frames; from memory). */
#include "frame/state.h"

#include "frame/element.h"
#include "frame/mixer.h"
#include "frame/stiffness.h"
#include "frame/tangent.h"

#include <float.h>
#include <math.h>
#include <string.h>

enum { NEWTON_MOST = 9, STEPS_MOST = 14, ROUNDS_MOST = 2 };
static const double slow = 0.5;        /* contraction of plain steps above which the sign of det T is asked */
static const double settled = 1e-11;   /* of the largest axial force */
static const double rounded = 1e-7;    /* next to buckling rounding keeps steps from shrinking further: below this they have settled */

/* ---- balance -------------------------------------------------------------------------------------------- */

static bool set_axial(rbow_frame_solver *s, const double *unknowns)
{
    bool below = true;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        s->axial[i] = rbow_element_axial(s, &s->tubes[i], unknowns);
        below = below && s->axial[i] < s->tubes[i].member.critical_load;
    }
    return below;
}

static void load_step(rbow_frame_solver *s, double factor)
{
    for (size_t i = 0; i < s->frame.joint_count * RBOW_MOTIONS; i++)
        if (s->place[i] >= 0) s->step.data[s->place[i]] = factor * s->applied[i];
}

bool rbow_frame_imbalance(rbow_frame_solver *s, double factor, const double *unknowns)
{
    if (!set_axial(s, unknowns)) return false;
    load_step(s, factor);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const frame_tube *t = &s->tubes[i];
        const axial_forces axial = {s->axial[i], s->axial[i]};
        int place[ELEMENT];
        double forces[ELEMENT];
        rbow_element_forces(s, t, &axial, unknowns, factor, forces);
        rbow_frame_places(s, t, place);
        for (int k = 0; k < ELEMENT; k++)
            if (place[k] >= 0) s->step.data[place[k]] -= forces[k];
    }
    return true;
}

/* Whether what is missing for balance is no more than the rounding of the forces, which are differences of large numbers where
 * the frame has moved far. */
static bool is_rounding(const rbow_frame_solver *s, const double *unknowns)
{
    double size[2] = {0, 0}, off[2] = {0, 0}, stretch = 0, bend = 0, shortest = INFINITY;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        stretch = fmax(stretch, s->tubes[i].stretch);
        bend = fmax(bend, s->tubes[i].member.unit);
        shortest = fmin(shortest, s->tubes[i].length);
    }
    for (size_t i = 0; i < s->frame.joint_count * RBOW_MOTIONS; i++) {
        const int j = s->place[i], kind = i % RBOW_MOTIONS < RBOW_AXES ? 0 : 1;
        if (j < 0) continue;
        size[kind] = fmax(size[kind], fabs(unknowns[j]));
        off[kind] = fmax(off[kind], fabs(s->step.data[j]));
    }
    const double moment = bend * (size[1] + size[0] / shortest), force = stretch * size[0] + moment / shortest;
    return off[0] <= DBL_EPSILON * force && off[1] <= 4 * DBL_EPSILON * moment;
}

/* The largest part of the step as a share of the largest movement, or of the largest turn; a turn counts beside that of a chord. */
static double share_of_step(const rbow_frame_solver *s, const double *unknowns)
{
    double size[2] = {0, 0}, off[2] = {0, 0}, shortest = INFINITY;
    for (size_t i = 0; i < s->frame.tube_count; i++) shortest = fmin(shortest, s->tubes[i].length);
    for (size_t i = 0; i < s->frame.joint_count * RBOW_MOTIONS; i++) {
        const int j = s->place[i], kind = i % RBOW_MOTIONS < RBOW_AXES ? 0 : 1;
        if (j < 0) continue;
        size[kind] = fmax(size[kind], fabs(unknowns[j]));
        off[kind] = fmax(off[kind], fabs(s->step.data[j]));
    }
    size[1] = fmax(size[1], size[0] / shortest);
    const double moved = off[0] > 0 ? off[0] / size[0] : 0, turned = off[1] > 0 ? off[1] / size[1] : 0;
    return fmax(moved, turned);
}

/* Adds the step to the unknowns.
 * Returned: the largest change of an axial force, beyond rounding, as a share of the largest axial force; or a tenth of the share
 *           of the step in the movements, if that is more */
static double advance(rbow_frame_solver *s, double *unknowns)
{
    double change = 0, most = 0, rounding = 0, far = 0;
    for (size_t j = 0; j < s->count; j++) {
        unknowns[j] += s->step.data[j];
        far = fmax(far, fabs(unknowns[j]));
    }
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const double axial = rbow_element_axial(s, &s->tubes[i], unknowns);
        change = fmax(change, fabs(axial - s->axial[i]));
        most = fmax(most, fabs(axial));
        rounding = fmax(rounding, 8 * DBL_EPSILON * far * s->tubes[i].stretch);
        if (isnan(axial)) return NAN;
    }
    return fmax(change <= rounding ? 0 : change / most, share_of_step(s, unknowns) / 10);
}

/* ---- Newton --------------------------------------------------------------------------------------------- */

static bool newton(rbow_frame_solver *s, double factor, double *unknowns)
{
    double before = INFINITY;
    for (int round = 0; round < NEWTON_MOST; round++) {
        if (!rbow_frame_imbalance(s, factor, unknowns)) return false;
        const bool balanced = is_rounding(s, unknowns);
        const int sign = rbow_frame_decompose_tangent(s, factor, unknowns);
        if (sign == 0) return false;
        if (balanced) return sign > 0 && rbow_frame_decompose(s, s->axial);
        rbow_frame_solve_tangent(s);
        const double change = advance(s, unknowns);
        const bool stands = round > 2 && change > before / 4;
        if (isnan(change) || (stands && change > rounded)) return false;
        if (change <= settled || stands) return sign > 0 && set_axial(s, unknowns) && rbow_frame_decompose(s, s->axial);
        before = change;
    }
    return false;
}

/* ---- state ---------------------------------------------------------------------------------------------- */

typedef enum settling { SETTLED, UNSETTLED, NO_STATE } settling;

/* Mixed steps with the stiffness as decomposed.
 * Returned: since  all changes of axial forces since then, as shares of the largest
 *           plain  contraction of the first two steps, which are not mixed */
static settling settle(rbow_frame_solver *s, double factor, double *unknowns, double *since, double *plain)
{
    mixer m = {.s = s};
    double first = 0, before = INFINITY;
    *since = *plain = 0;
    for (int step = 0; step < STEPS_MOST; step++) {
        if (!rbow_frame_imbalance(s, factor, unknowns)) return NO_STATE;
        if (step > 0 && is_rounding(s, unknowns)) return SETTLED;
        rbow_frame_solve_step(s);
        if (step == 1) *plain = first > 0 ? sqrt(product(s->step.data, s->step.data, s->count)) / first : 0;
        if (step == 0) first = sqrt(product(s->step.data, s->step.data, s->count));
        rbow_frame_mix(&m);
        const double change = advance(s, unknowns);
        if (isnan(change) || !set_axial(s, unknowns)) return NO_STATE;
        *since += change;
        if (change <= settled) return SETTLED;
        if (step > 4 && change > before) return change <= rounded ? SETTLED : UNSETTLED;
        before = change;
    }
    return UNSETTLED;
}

/* Steps with the stiffness as it was last decomposed, which most often is that of a state nearby.
 * Returned: false where they do not settle; the unknowns are then the guess again */
static bool settle_near(rbow_frame_solver *s, double factor, double *unknowns, double *plain)
{
    double since, *guess = row_of(s, STATES - 1);
    if (!s->decomposed) return false;
    memcpy(guess, unknowns, s->count * sizeof *guess);
    if (settle(s, factor, unknowns, &since, plain) == SETTLED) return true;
    memcpy(unknowns, guess, s->count * sizeof *guess);
    set_axial(s, unknowns);
    return false;
}

/* Given: plain  contraction of plain steps there
 * Returned: whether the state lies before a fold */
static bool is_before_fold(rbow_frame_solver *s, double factor, const double *unknowns, double plain)
{
    return (plain < slow && !s->measured) || rbow_frame_decompose_tangent(s, factor, unknowns) > 0;
}

/* With the stiffness of the state itself: one more step, which changes nothing that counts. */
static bool is_balanced(rbow_frame_solver *s, double factor, double *unknowns)
{
    if (!rbow_frame_imbalance(s, factor, unknowns)) return false;
    if (is_rounding(s, unknowns)) return true;
    rbow_frame_solve_step(s);
    return advance(s, unknowns) <= rounded && set_axial(s, unknowns);
}

static bool solve(rbow_frame_solver *s, double factor, double *unknowns)
{
    const bool sure = factor < s->sure_below;
    double since, plain;
    if (!set_axial(s, unknowns)) return false;
    if (settle_near(s, factor, unknowns, &plain)) {
        if (sure) return true;
        if (!rbow_frame_decompose(s, s->axial)) return false;
        if (is_balanced(s, factor, unknowns)) return is_before_fold(s, factor, unknowns, plain);
    }
    for (int round = 0; round < ROUNDS_MOST; round++) {
        if (!rbow_frame_decompose(s, s->axial)) return false;
        const settling how = settle(s, factor, unknowns, &since, &plain);
        if (how == NO_STATE) return false;
        if (how == UNSETTLED) continue;
        if (sure) return true;
        if (since > (s->measured ? 1e-10 : 1e-6) && !rbow_frame_decompose(s, s->axial)) return false; /* else the pivots are of this state */
        return is_before_fold(s, factor, unknowns, plain);
    }
    return newton(s, factor, unknowns);
}

/* A stiffness that a failed attempt leaves behind is no beginning for the next. */
bool rbow_frame_solve(rbow_frame_solver *s, double factor, double *unknowns)
{
    const bool solved = solve(s, factor, unknowns);
    if (!solved) s->decomposed = false;
    return solved;
}
