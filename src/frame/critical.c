/* The count of Wittrick & Williams: the stiffness under P0 + factor P1 has as many negative pivots, and its tubes with joints
 * held have passed as many of their own critical loads, as there are critical load factors below. The potential is a straight
 * line over the load factor and positive at 0, so the count never falls, and bisection on it misses no mode.
 * Source: Wittrick & Williams, A general algorithm for computing natural frequencies of elastic structures, Quart. J. Mech.
 * Appl. Math. 24 (1971), from memory; Horne & Merchant, The Stability of Frames, 1965, for the factor itself. */
#include "frame/critical.h"

#include "frame/assemble.h"
#include "frame/element.h"

#include <math.h>
#include <string.h>

static const double farthest = 1e6, width_enough = 2e-10;

/* ---- axial forces to first order ------------------------------------------------------------------------- */

static void without_axial(rbow_frame_solver *s, double *axial)
{
    memset(axial, 0, s->frame.tube_count * sizeof *axial);
}

/* The joints' forces on tubes that are loaded, or misfit, between joints at rest, without an axial force in the bending. */
static void add_fixed_forces(const frame_tube *t, bool of_run, double *balance)
{
    const double nothing[PLANES] = {0};
    const tube_state rest = {.axial = 0};
    double couples[ENDS][PLANES], forces[ENDS][RBOW_MOTIONS];
    tube_loads loads;
    frame_tube only = *t;
    if (of_run) only.built = (built_in){.gap = 0};
    for (int i = 0; i < PLANES; i++) only.built.bow[i] = 0;
    rbow_tube_loads(&only, &rest, of_run ? 1 : 0, &loads);
    rbow_tube_couples(&only, &loads, couples);
    rbow_tube_forces(&only, -only.stretch * only.built.gap, 0, couples, nothing, forces);
    for (int k = 0; k < ENDS; k++)
        for (int i = 0; i < RBOW_MOTIONS; i++) motions_of(balance, t->joint[k])[i] += forces[k][i];
}

void rbow_frame_first_order(rbow_frame_solver *s)
{
    const size_t motions = s->frame.joint_count * RBOW_MOTIONS;
    without_axial(s, s->axial);
    rbow_frame_factor_stiffness(s, s->axial);
    for (int of_run = 0; of_run < 2; of_run++) {
        for (size_t i = 0; i < motions; i++) s->balance[i] = of_run ? s->applied[i] : 0;
        for (size_t i = 0; i < motions; i++) s->balance[i] = -s->balance[i];
        for (size_t i = 0; i < s->frame.tube_count; i++) add_fixed_forces(&s->tubes[i], of_run, s->balance);
        rbow_frame_gather(s, s->balance, s->unknowns);
        rbow_band_solve(&s->stiffness, s->unknowns);
        rbow_frame_spread(s, s->unknowns, s->motion);
        for (size_t i = 0; i < s->frame.tube_count; i++) {
            const frame_tube *t = &s->tubes[i];
            const tube_motion m = rbow_tube_motion(t, s->motion);
            s->first_order[of_run][i] = t->stretch * (m.elongation - (of_run ? 0 : t->built.gap));
        }
    }
}

/* ---- the count ------------------------------------------------------------------------------------------- */

/* The load factor at which the first tube buckles between joints that are held. */
static double own_factor(const rbow_frame_solver *s)
{
    double least = INFINITY;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const double p0 = s->first_order[0][i], p1 = s->first_order[1][i], own = s->tubes[i].member.critical_load;
        if (p0 >= own) return 0;
        if (p1 > 0) least = fmin(least, (own - p0) / p1);
    }
    return least;
}

static bool has_passed(rbow_frame_solver *s, double factor)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        s->axial[i] = s->first_order[0][i] + factor * s->first_order[1][i];
        if (!(s->axial[i] < s->tubes[i].member.critical_load)) return true;
    }
    return rbow_frame_factor_stiffness(s, s->axial).negative > 0;
}

double rbow_frame_critical(rbow_frame_solver *s)
{
    double low = 0, high = fmin(own_factor(s), farthest);
    if (has_passed(s, 0)) return 0;
    if (!has_passed(s, high * (1 - 1e-10))) return high < farthest ? high : (double)INFINITY;
    while (high - low > width_enough * high) {
        const double middle = low + (high - low) / 2;
        if (has_passed(s, middle))
            high = middle;
        else
            low = middle;
    }
    return low + (high - low) / 2;
}
