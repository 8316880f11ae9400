/* The balance R(u) = 0 of the joints, in which every tube's axial force is that of its own motions, by Newton's method. Where
 * it converges the axial forces are those of the state itself.
 *
 * A step is trusted as far as the one before it foretold it: while each is less than half of the one before, the balance that
 * is found is the one next to the start (Deuflhard, Newton Methods for Nonlinear Problems, 2004, sec. 5.1, from memory). The
 * factors of the derivative serve several steps, and are made anew where the steps shrink by less than ten times. */
#include "frame/state.h"

#include "frame/assemble.h"
#include "frame/element.h"

#include <float.h>
#include <math.h>
#include <string.h>

enum { STEPS_MOST = 30 };

static const double enough = 1e-11;       /* of the largest axial force and the largest slope */
static const double rounding = 1e-9;      /* steps below this that shrink no more are rounding */
static const double foretold = 0.5, quick = 0.1;

static size_t motion_count(const rbow_frame_solver *s)
{
    return s->frame.joint_count * RBOW_MOTIONS;
}

/* ---- the start ------------------------------------------------------------------------------------------ */

/* The known states next to a load factor, nearest first. */
static int nearest_states(const rbow_frame_solver *s, double factor, const known_state *near[], int most)
{
    int count = 0;
    for (size_t k = 0; k < s->known_count; k++) {
        const double distance = fabs(s->known[k].factor - factor);
        int i = count < most ? count++ : most;
        for (; i > 0 && fabs(near[i - 1]->factor - factor) > distance; i--)
            if (i < most) near[i] = near[i - 1];
        if (i < most) near[i] = &s->known[k];
    }
    return count;
}

enum { POINTS = 4 };

/* Of states that crowd together, as they do where the path ends, one is enough. Returned: how many are left */
static int thin_out(const known_state *near[], int count, double factor)
{
    const double apart = fabs(near[0]->factor - factor) / 2;
    int kept = 1;
    for (int i = 1; i < count && kept < POINTS; i++) {
        bool crowds = false;
        for (int k = 0; k < kept; k++) crowds = crowds || fabs(near[i]->factor - near[k]->factor) < apart;
        if (!crowds) near[kept++] = near[i];
    }
    return kept;
}

/* The polynomial through the nearest known states, at most `most` of them. */
static void extrapolate(rbow_frame_solver *s, double factor, int most)
{
    const known_state *near[STATES_KEPT];
    int count = thin_out(near, nearest_states(s, factor, near, STATES_KEPT), factor);
    if (count > most) count = most;
    memset(s->motion, 0, motion_count(s) * sizeof *s->motion);
    for (int i = 0; i < count; i++) {
        double share = 1;
        for (int j = 0; j < count; j++)
            if (j != i) share *= (factor - near[j]->factor) / (near[i]->factor - near[j]->factor);
        for (size_t k = 0; k < motion_count(s); k++) s->motion[k] += share * near[i]->motion[k];
    }
}

/* ---- a step --------------------------------------------------------------------------------------------- */

typedef struct step_size { /* shares of the largest value of the state */
    double size;  /* the larger of the shares by which axial forces and slopes change */
    double share; /* how much of the step stays below every tube's critical load */
} step_size;

static double larger_of(double a, double b)
{
    return a > b || isnan(a) ? a : b;
}

static double largest_move(const rbow_frame_solver *s)
{
    double most = 0;
    for (size_t i = 0; i < motion_count(s); i += RBOW_MOTIONS)
        for (size_t k = 0; k < RBOW_AXES; k++) most = fmax(most, fabs(s->motion[i + k]));
    return most;
}

static double slopes_of(const tube_motion *m)
{
    double most = 0;
    for (int i = 0; i < PLANES; i++)
        most = larger_of(fmax(fabs(m->chord[i]), fmax(fabs(m->slope[END_A][i]), fabs(m->slope[END_B][i]))), most);
    return most;
}

/* The step as a share of the state that it leads to. What a hundred thousandth of the largest movement would be in a single
 * tube counts as a large value too: less is rounding. */
static step_size size_of_step(const rbow_frame_solver *s)
{
    double axial = 0, slope = 0, axial_change = 0, slope_change = 0, share = 1, stiffest = 0, shortest = INFINITY;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const frame_tube *t = &s->tubes[i];
        const tube_motion now = rbow_tube_motion(t, s->motion), change = rbow_tube_motion(t, s->change);
        const double before = axial_of(t, &now), by = -t->stretch * change.elongation, room = t->member.critical_load - before;
        axial = fmax(axial, fabs(before + by));
        slope = fmax(slope, slopes_of(&now));
        axial_change = larger_of(fabs(by), axial_change);
        slope_change = larger_of(slopes_of(&change), slope_change);
        if (by > 0.9 * room) share = fmin(share, 0.9 * room / by);
        stiffest = fmax(stiffest, t->stretch);
        shortest = fmin(shortest, t->length);
    }
    const double floor = 1e-5 * largest_move(s);
    slope = fmax(slope, slope_change); /* the first step starts from nothing */
    const double of_axial = axial_change / (fmax(axial, stiffest * floor) + DBL_MIN);
    const double of_slope = slope_change / (fmax(slope, floor / shortest) + DBL_MIN);
    return (step_size){larger_of(of_axial, of_slope), share};
}

/* Returned: the size of the full step; NaN where a number is none */
static double take_step(rbow_frame_solver *s)
{
    rbow_frame_gather(s, s->balance, s->unknowns);
    rbow_full_band_solve(&s->tangent, s->unknowns);
    for (size_t i = 0; i < s->size; i++) s->unknowns[i] = -s->unknowns[i];
    rbow_frame_spread(s, s->unknowns, s->change);
    const step_size step = size_of_step(s);
    for (size_t i = 0; i < motion_count(s); i++) s->motion[i] += step.share * s->change[i];
    return step.share < 1 ? fmax(step.size, 1) : step.size;
}

/* ---- the search ------------------------------------------------------------------------------------------ */

static void renew_tangent(rbow_frame_solver *s, double factor)
{
    s->of_tangent = rbow_frame_factor_tangent(s, factor);
    s->tangent_fits = true;
}

/* From s->motion to the balance next to it. */
static bool find_balance(rbow_frame_solver *s, double factor)
{
    double before = INFINITY;
    int age = 0; /* steps since the factors of the derivative were made */
    s->tangent_fits = false;
    for (int i = 0; i < STEPS_MOST; i++) {
        if (!rbow_frame_balance(s, factor)) return false;
        if (!s->tangent_fits) {
            renew_tangent(s, factor);
            age = 0;
        }
        const double size = take_step(s), shrinks = size / before;
        if (isnan(size)) return false;
        if (i == 0) s->first_step = size;
        if (size <= enough || (size <= rounding && shrinks > quick && age <= 1)) return rbow_frame_balance(s, factor);
        if (shrinks > foretold && age <= 1 && size > rounding) return false;
        if (shrinks > quick) s->tangent_fits = false;
        if (i > 0 && age == 0) s->first_step = size;
        before = size;
        age++;
    }
    return false;
}

/* No pivot of the stiffness is negative, nor is the determinant of the derivative. A derivative that was made too far from the
 * state, or near a change of sign, is made anew at the state itself. */
static reached_state judge(rbow_frame_solver *s, double factor)
{
    const bool near = s->first_step <= 0.05 && s->of_tangent.least > 0.1 * s->at_rest.least;
    if (!s->tangent_fits || !near) renew_tangent(s, factor);
    if (s->of_tangent.negative % 2 != 0) return STATE_BEYOND;
    return rbow_frame_factor_stiffness(s, s->axial).negative > 0 ? STATE_BEYOND : STATE_GOOD;
}

reached_state rbow_frame_seek(rbow_frame_solver *s, double factor)
{
    for (int points = POINTS; points >= 1; points -= POINTS - 1) {
        extrapolate(s, factor, points);
        if (find_balance(s, factor)) return judge(s, factor);
    }
    return STATE_MISSED;
}

static bool is_known(const rbow_frame_solver *s, double factor)
{
    for (size_t i = 0; i < s->known_count; i++)
        if (s->known[i].factor >= factor && s->known[i].factor <= factor) return true;
    return false;
}

/* The first is kept for good; of the others the farthest makes room. */
static known_state *room_for(rbow_frame_solver *s, double factor)
{
    if (s->known_count < STATES_KEPT) return &s->known[s->known_count++];
    known_state *far = &s->known[1];
    for (size_t i = 2; i < STATES_KEPT; i++)
        if (fabs(s->known[i].factor - factor) > fabs(far->factor - factor)) far = &s->known[i];
    return far;
}

reached_state rbow_frame_seek_and_keep(rbow_frame_solver *s, double factor)
{
    const reached_state found = rbow_frame_seek(s, factor);
    if (found != STATE_GOOD || is_known(s, factor)) return found;
    known_state *keep = room_for(s, factor);
    keep->factor = factor;
    memcpy(keep->motion, s->motion, motion_count(s) * sizeof *s->motion);
    return found;
}

/* ---- the first state ------------------------------------------------------------------------------------- */

static void count_built_in(rbow_frame_solver *s, double share)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const built_in *whole = &s->tubes[i].whole;
        built_in *b = &s->tubes[i].built;
        b->gap = share * whole->gap;
        for (int k = 0; k < PLANES; k++) {
            b->bow[k] = share * whole->bow[k];
            for (int e = 0; e < ENDS; e++) b->slope[e][k] = share * whole->slope[e][k];
        }
    }
}

bool rbow_frame_start(rbow_frame_solver *s)
{
    double *first = s->known[0].motion, step = 1;
    memset(first, 0, motion_count(s) * sizeof *first);
    s->at_rest = (pivots){.least = 0};
    for (double share = 0; share < 1;) {
        count_built_in(s, fmin(share + step, 1));
        memcpy(s->motion, first, motion_count(s) * sizeof *first);
        if (find_balance(s, 0) && judge(s, 0) == STATE_GOOD) {
            share = fmin(share + step, 1);
            memcpy(first, s->motion, motion_count(s) * sizeof *first);
        } else {
            step /= 2;
        }
        if (step < 1e-6) return false;
    }
    s->known[0].factor = 0;
    s->known_count = 1;
    s->at_rest = s->of_tangent;
    return true;
}
