/* The stiffness under P0 + factor P1 is positive definite on an interval of load factors: its energy, least over all movements
 * between the joints, is concave in the axial forces. So the number of modes passed (negative pivots of the stiffness and own
 * critical loads of tubes between joints at rest) is 0 up to the first critical factor and not 0 beyond it, and halving finds it.
 * Source: Wittrick & Williams, Q. J. Mech. Appl. Math. 24 (1971), 263-284 (from memory). */
#include "frame/element.h"
#include "frame/path.h"
#include "frame/state.h"

#include <math.h>
#include <string.h>

enum { FROM_FIT, FROM_RUN }; /* where a part of the axial forces stands in frame_reached.factor */

/* Axial forces to first order: bending as without axial force. Given: s->fit, s->bows and factor say of what */
static void first_order(rbow_frame_solver *s, double factor, int part)
{
    double *u = row_of(s, 0);
    memset(u, 0, s->count * sizeof *u);
    for (size_t i = 0; i < s->frame.joint_count * RBOW_MOTIONS; i++)
        if (s->place[i] >= 0) s->step.data[s->place[i]] = factor * s->applied[i];
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        frame_tube *t = &s->tubes[i];
        element e;
        double forces[ELEMENT];
        rbow_element_of(s, t, 0, factor, &e);
        e.axial = rbow_element_axial(s, t, u);
        rbow_element_forces(s, t, &e, u, factor, forces);
        for (int k = 0; k < ELEMENT; k++) {
            const int place = s->place[t->joint[k / RBOW_MOTIONS] * RBOW_MOTIONS + (size_t)(k % RBOW_MOTIONS)];
            if (place >= 0) s->step.data[place] -= forces[k];
        }
    }
    rbow_frame_solve_step(s);
    memcpy(u, s->step.data, s->count * sizeof *u);
    for (size_t i = 0; i < s->frame.tube_count; i++) s->reached[i].factor[part] = rbow_element_axial(s, &s->tubes[i], u);
}

static bool is_stable(rbow_frame_solver *s, double factor)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const double *part = s->reached[i].factor;
        s->axial[i] = part[FROM_FIT] + factor * part[FROM_RUN];
    }
    return rbow_frame_decompose(s, s->axial);
}

rbow_status rbow_frame_critical_factor(rbow_frame_solver *s, const rbow_frame_run *run, double *critical_factor)
{
    double low = 0, high = 1;
    *critical_factor = NAN;
    const rbow_status status = rbow_frame_set_run(s, run);
    if (status != RBOW_OK) return status;
    for (size_t i = 0; i < s->frame.tube_count; i++) s->axial[i] = 0;
    s->bows = 0;
    for (int part = FROM_FIT; part <= FROM_RUN; part++) {
        memset(s->axial, 0, s->frame.tube_count * sizeof *s->axial);
        if (!rbow_frame_decompose(s, s->axial)) return RBOW_NO_CONVERGENCE;
        s->fit = part == FROM_FIT ? 1 : 0;
        first_order(s, part == FROM_FIT ? 0 : 1, part);
    }
    *critical_factor = 0;
    if (!is_stable(s, 0)) return RBOW_OK;
    while (high <= endless_from && is_stable(s, high)) {
        low = high;
        high *= 2;
    }
    *critical_factor = INFINITY;
    if (high > endless_from) return RBOW_OK;
    while (high - low > 1e-10 * high) {
        const double middle = low + (high - low) / 2;
        *(is_stable(s, middle) ? &low : &high) = middle;
    }
    *critical_factor = high;
    return RBOW_OK;
}
