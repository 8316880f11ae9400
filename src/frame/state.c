/* A state is G(u) = F(u, P(u)) - load = 0, F the forces of the joints on the tubes, P the axial forces, linear in u. The
 * stiffness K is the derivative of F at fixed P in its bending; the tangent T has, in addition, one product of two vectors for
 * each tube, its bending by P times its P by u. Steps with K alone, decomposed once, shrink the error by the spectral radius of
 * 1 - K^-1 T each; a radius below 1 proves that det T > 0, so that there is no fold. Few of its values are large, so mixing the
 * last steps removes them (Anderson, J. ACM 12 (1965), 547; from memory). Where the plain steps shrink slowly, the sign of det T
 * is asked at the end, and where even mixed steps do, Newton steps with T take over.
 * Source: Livesley, Matrix Methods of Structural Analysis, 2nd ed. 1975, ch. 11 (stability functions in frames; from memory). */
#include "frame/state.h"

#include "frame/element.h"

#include <float.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

enum { NEWTON_MOST = 9, STEPS_MOST = 14, ROUNDS_MOST = 2 };
static const double slow = 0.5;        /* contraction of plain steps above which the sign of det T is asked */
static const double settled = 1e-11;   /* of the largest axial force */
static const double rounded = 1e-7;    /* next to buckling rounding keeps steps from shrinking further: below this they have settled */

static void places_of(const rbow_frame_solver *s, const frame_tube *t, int place[ELEMENT])
{
    for (int end = 0; end < ENDS; end++)
        for (int k = 0; k < RBOW_MOTIONS; k++) place[end * RBOW_MOTIONS + k] = s->place[t->joint[end] * RBOW_MOTIONS + (size_t)k];
}

/* ---- stiffness ------------------------------------------------------------------------------------------ */

static void add_element(rbow_frame_solver *s, const int place[ELEMENT], double k[ELEMENT][ELEMENT])
{
    double *at = s->stiffness.data;
    const size_t wide = s->band + 1;
    for (int i = 0; i < ELEMENT; i++)
        for (int j = 0; j < ELEMENT; j++)
            if (place[j] >= 0 && place[i] >= place[j]) at[(size_t)place[j] * wide + (size_t)(place[i] - place[j])] += k[i][j];
}

/* L D L' in the storage of gsl_linalg_ldlt_band_decomp, whose own function calls the error handler at a pivot of 0.
 * Returned: the first unknown whose pivot is not above `least` times its diagonal; count for none */
static size_t decompose_band(rbow_frame_solver *s, double least)
{
    double *k = s->stiffness.data;
    const size_t wide = s->band + 1;
    for (size_t j = 0; j < s->count; j++) {
        double *row = &k[j * wide];
        const size_t below = s->count - 1 - j < s->band ? s->count - 1 - j : s->band;
        if (!(row[0] > least * s->step.data[j])) return j;
        for (size_t i = 1; i <= below; i++) {
            const double share = row[i] / row[0];
            double *target = &k[(j + i) * wide];
            if (!(fabs(share) > 0)) continue;
            for (size_t m = i; m <= below; m++) target[m - i] -= share * row[m];
        }
        for (size_t i = 1; i <= below; i++) row[i] /= row[0];
    }
    return s->count;
}

static void assemble(rbow_frame_solver *s, const double *axial)
{
    memset(s->stiffness.data, 0, s->stiffness.size1 * s->stiffness.tda * sizeof(double));
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        frame_tube *t = &s->tubes[i];
        element e;
        int place[ELEMENT];
        double k[ELEMENT][ELEMENT];
        rbow_element_couples(t, axial[i], &e);
        rbow_element_stiffness(t, &e, k);
        places_of(s, t, place);
        add_element(s, place, k);
    }
    for (size_t j = 0; j < s->count; j++) s->step.data[j] = s->stiffness.data[j * (s->band + 1)];
}

bool rbow_frame_decompose(rbow_frame_solver *s, const double *axial)
{
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (!(axial[i] < s->tubes[i].member.critical_load)) return false;
    assemble(s, axial);
    return decompose_band(s, 1e-13) == s->count;
}

void rbow_frame_solve_step(rbow_frame_solver *s)
{
    if (s->count > 0) gsl_linalg_ldlt_band_svx(&s->stiffness, &s->step);
}

/* The motion of a pivot that vanished: its own unknown 1, the ones before it as the decomposed part asks, the rest 0. */
static void loose_motion(rbow_frame_solver *s, size_t pivot, double *motion)
{
    const double *k = s->stiffness.data;
    const size_t wide = s->band + 1;
    memset(motion, 0, s->count * sizeof *motion);
    motion[pivot] = 1;
    for (size_t j = pivot; j-- > 0;)
        for (size_t i = 1; i <= s->band && j + i <= pivot; i++) motion[j] -= k[j * wide + i] * motion[j + i];
}

static double size_of_frame(const rbow_frame *f)
{
    double size = 0;
    for (size_t i = 0; i < f->joint_count; i++)
        for (int k = 0; k < RBOW_AXES; k++) size = fmax(size, fabs(f->joints[i].at[k] - f->joints[0].at[k]));
    return size;
}

static void tell_loose(const rbow_frame_solver *s, const double *motion, rbow_frame_loose *loose)
{
    const double size = size_of_frame(&s->frame);
    double most = 0;
    for (size_t i = 0; i < s->frame.joint_count; i++)
        for (int k = 0; k < RBOW_MOTIONS; k++) {
            const double moved = fabs(motion_of(s, motion, i, k)) * (k < RBOW_AXES ? 1 : size);
            if (!(moved > most * (1 + 1e-9))) continue;
            most = moved;
            loose->joint = i;
        }
    for (int k = 0; k < RBOW_MOTIONS; k++)
        loose->motion[k] = motion_of(s, motion, loose->joint, k) * (k < RBOW_AXES ? 1 : size) / most;
}

bool rbow_frame_is_held(rbow_frame_solver *s, rbow_frame_loose *loose)
{
    memset(s->axial, 0, s->frame.tube_count * sizeof *s->axial);
    assemble(s, s->axial);
    const size_t pivot = decompose_band(s, 1e-11);
    if (pivot == s->count) return true;
    loose_motion(s, pivot, row_of(s, 0));
    if (loose != NULL) tell_loose(s, row_of(s, 0), loose);
    return false;
}

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
        frame_tube *t = &s->tubes[i];
        element e;
        int place[ELEMENT];
        double forces[ELEMENT];
        rbow_element_of(s, t, s->axial[i], factor, &e);
        rbow_element_forces(s, t, &e, unknowns, factor, forces);
        places_of(s, t, place);
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

static void add_to_tangent(rbow_frame_solver *s, int row, int column, double value)
{
    s->tangent.data[(size_t)column * s->tangent.tda + 2 * s->band + (size_t)row - (size_t)column] += value;
}

static void assemble_tangent(rbow_frame_solver *s, double factor, const double *unknowns)
{
    memset(s->tangent.data, 0, s->tangent.size1 * s->tangent.tda * sizeof(double));
    for (size_t n = 0; n < s->frame.tube_count; n++) {
        frame_tube *t = &s->tubes[n];
        element e;
        int place[ELEMENT];
        double k[ELEMENT][ELEMENT], by_axial[ELEMENT], rate[ELEMENT];
        rbow_element_couples(t, s->axial[n], &e);
        rbow_element_stiffness(t, &e, k);
        rbow_element_by_axial(s, t, s->axial[n], factor, unknowns, by_axial);
        rbow_element_axial_rate(t, rate);
        places_of(s, t, place);
        for (int i = 0; i < ELEMENT; i++)
            for (int j = 0; j < ELEMENT; j++)
                if (place[i] >= 0 && place[j] >= 0) add_to_tangent(s, place[i], place[j], k[i][j] + by_axial[i] * rate[j]);
    }
}

/* Decomposes the tangent. Returned: the sign of its determinant */
static int decompose_tangent(rbow_frame_solver *s)
{
    int sign = 1;
    if (gsl_linalg_LU_band_decomp(s->count, s->band, s->band, &s->tangent, &s->pivots) != 0) return 0;
    for (size_t j = 0; j < s->count; j++) {
        const double pivot = s->tangent.data[j * s->tangent.tda + 2 * s->band];
        if (!(fabs(pivot) > 0)) return 0;
        if ((pivot < 0) != (s->pivots.data[j] != j)) sign = -sign;
    }
    return sign;
}

/* Given: a state. Returned: whether it lies before a fold */
static bool is_before_fold(rbow_frame_solver *s, double factor, const double *unknowns)
{
    assemble_tangent(s, factor, unknowns);
    return decompose_tangent(s) > 0;
}

static bool newton(rbow_frame_solver *s, double factor, double *unknowns)
{
    double before = INFINITY;
    for (int round = 0; round < NEWTON_MOST; round++) {
        if (!rbow_frame_imbalance(s, factor, unknowns)) return false;
        const bool balanced = is_rounding(s, unknowns);
        assemble_tangent(s, factor, unknowns);
        const int sign = decompose_tangent(s);
        if (sign == 0) return false;
        if (balanced) return sign > 0 && rbow_frame_decompose(s, s->axial);
        gsl_linalg_LU_band_svx(s->band, s->band, &s->tangent, &s->pivots, &s->step);
        const double change = advance(s, unknowns);
        const bool stands = round > 2 && change > before / 4;
        if (isnan(change) || (stands && change > rounded)) return false;
        if (change <= settled || stands) return sign > 0 && set_axial(s, unknowns) && rbow_frame_decompose(s, s->axial);
        before = change;
    }
    return false;
}

/* ---- mixed steps ---------------------------------------------------------------------------------------- */

typedef struct mixer { /* the last steps: what the unknowns and the plain step changed by */
    rbow_frame_solver *s;
    int count, next;
} mixer;

static double *moved_row(const mixer *m, int i)
{
    return row_of(m->s, STATES + i);
}

static double *change_row(const mixer *m, int i)
{
    return row_of(m->s, STATES + MIX + i);
}

static double product(const double *a, const double *b, size_t n)
{
    double sum = 0;
    for (size_t j = 0; j < n; j++) sum += a[j] * b[j];
    return sum;
}

/* The shares that make the mixed step least: normal equations, by elimination. Shares of steps that add nothing are 0. */
static void shares_of(const mixer *m, const double *step, double share[MIX])
{
    const size_t n = m->s->count;
    double a[MIX][MIX + 1];
    for (int i = 0; i < m->count; i++) {
        for (int j = 0; j < m->count; j++) a[i][j] = product(change_row(m, i), change_row(m, j), n);
        a[i][m->count] = product(change_row(m, i), step, n);
        a[i][i] *= 1 + 1e-12;
    }
    for (int i = 0; i < m->count; i++)
        for (int k = i + 1; k < m->count; k++) {
            const double by = a[i][i] > 0 ? a[k][i] / a[i][i] : 0;
            for (int j = i; j <= m->count; j++) a[k][j] -= by * a[i][j];
        }
    for (int i = m->count - 1; i >= 0; i--) {
        double sum = a[i][m->count];
        for (int j = i + 1; j < m->count; j++) sum -= a[i][j] * share[j];
        share[i] = a[i][i] > 0 ? sum / a[i][i] : 0;
    }
}

/* Given: m->s->step, the plain step. Returned: the mixed one there; the oldest of the rows waits for the next change */
static void mix(mixer *m)
{
    double *step = m->s->step.data, share[MIX] = {0};
    const size_t n = m->s->count;
    const int last = (m->next + MIX - 1) % MIX;
    if (m->count > 0)
        for (size_t j = 0; j < n; j++) change_row(m, last)[j] = step[j] - change_row(m, last)[j];
    shares_of(m, step, share);
    double *plain = change_row(m, m->next), *moved = moved_row(m, m->next);
    const int used = m->count;
    for (size_t j = 0; j < n; j++) {
        double mixed = step[j];
        for (int i = 0; i < used; i++) mixed -= share[i] * (moved_row(m, i)[j] + change_row(m, i)[j]);
        plain[j] = step[j];
        moved[j] = step[j] = mixed;
    }
    m->next = (m->next + 1) % MIX;
    if (m->count < MIX) m->count++;
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
        mix(&m);
        const double change = advance(s, unknowns);
        if (isnan(change) || !set_axial(s, unknowns)) return NO_STATE;
        *since += change;
        if (change <= settled) return SETTLED;
        if (step > 4 && change > before) return change <= rounded ? SETTLED : UNSETTLED;
        before = change;
    }
    return UNSETTLED;
}

bool rbow_frame_solve(rbow_frame_solver *s, double factor, double *unknowns)
{
    if (!set_axial(s, unknowns)) return false;
    for (int round = 0; round < ROUNDS_MOST; round++) {
        double since, plain;
        if (!rbow_frame_decompose(s, s->axial)) return false;
        const settling how = settle(s, factor, unknowns, &since, &plain);
        if (how == NO_STATE) return false;
        if (how == UNSETTLED) continue;
        if (since > 1e-6 && !rbow_frame_decompose(s, s->axial)) return false; /* else the pivots are those of this state */
        return plain < slow || is_before_fold(s, factor, unknowns);
    }
    return newton(s, factor, unknowns);
}
