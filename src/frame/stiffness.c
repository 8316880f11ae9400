/* The stiffness of the frame under given axial forces, as a band, and whether the frame is held. */
#include "frame/stiffness.h"

#include "frame/element.h"

#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

void rbow_frame_places(const rbow_frame_solver *s, const frame_tube *t, int place[ELEMENT])
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
        int place[ELEMENT];
        double k[ELEMENT][ELEMENT];
        rbow_element_stiffness(t, axial[i], k);
        rbow_frame_places(s, t, place);
        add_element(s, place, k);
    }
    for (size_t j = 0; j < s->count; j++) s->step.data[j] = s->stiffness.data[j * (s->band + 1)];
}

static double log_of_pivots(const rbow_frame_solver *s)
{
    double sum = 0;
    for (size_t j = 0; j < s->count; j++) sum += log(s->stiffness.data[j * (s->band + 1)]);
    return sum;
}

bool rbow_frame_decompose(rbow_frame_solver *s, const double *axial)
{
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (!(axial[i] < s->tubes[i].member.critical_load)) return false;
    assemble(s, axial);
    s->decomposed = decompose_band(s, 1e-13) == s->count;
    if (s->decomposed) s->log_stiffness = log_of_pivots(s);
    return s->decomposed;
}

void rbow_frame_solve_step(rbow_frame_solver *s)
{
    if (s->count > 0) gsl_linalg_ldlt_band_svx(&s->stiffness, &s->step);
}

void rbow_frame_times_unloaded(const rbow_frame_solver *s, const double *v, double *out)
{
    const double *k = s->unloaded;
    const size_t wide = s->band + 1;
    for (size_t j = 0; j < s->count; j++) {
        double sum = v[j];
        for (size_t i = 1; i < wide && j + i < s->count; i++) sum += k[j * wide + i] * v[j + i];
        out[j] = k[j * wide] * sum;
    }
    for (size_t j = s->count; j-- > 0;)
        for (size_t i = 1; i < wide && j + i < s->count; i++) out[j + i] += k[j * wide + i] * out[j];
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
    if (pivot == s->count) {
        memcpy(s->unloaded, s->stiffness.data, s->count * (s->band + 1) * sizeof(double));
        return true;
    }
    loose_motion(s, pivot, row_of(s, 0));
    if (loose != NULL) tell_loose(s, row_of(s, 0), loose);
    return false;
}
