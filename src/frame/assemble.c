#include "frame/assemble.h"

#include "frame/element.h"

#include <math.h>
#include <string.h>

static size_t motion_count(const rbow_frame_solver *s)
{
    return s->frame.joint_count * RBOW_MOTIONS;
}

void rbow_frame_gather(const rbow_frame_solver *s, const double *motions, double *unknowns)
{
    for (size_t i = 0; i < motion_count(s); i++)
        if (s->place[i] >= 0) unknowns[s->place[i]] = motions[i];
}

void rbow_frame_spread(const rbow_frame_solver *s, const double *unknowns, double *motions)
{
    for (size_t i = 0; i < motion_count(s); i++) motions[i] = s->place[i] >= 0 ? unknowns[s->place[i]] : 0;
}

/* ---- balance ------------------------------------------------------------------------------------------- */

static void add_forces(const frame_tube *t, double forces[ENDS][RBOW_MOTIONS], double *balance)
{
    for (int k = 0; k < ENDS; k++)
        for (int i = 0; i < RBOW_MOTIONS; i++) motions_of(balance, t->joint[k])[i] += forces[k][i];
}

static void balance_tube(rbow_frame_solver *s, size_t i, const tube_motion *m, double factor)
{
    const frame_tube *t = &s->tubes[i];
    const tube_state state = rbow_tube_state(t, m);
    const double chord_force[PLANES] = {state.axial * m->chord[UP], state.axial * m->chord[RIGHT]};
    double couples[ENDS][PLANES], forces[ENDS][RBOW_MOTIONS];
    tube_loads loads;
    rbow_tube_loads(t, &state, factor, &loads);
    rbow_tube_couples(t, &loads, couples);
    rbow_tube_forces(t, state.axial, state.torque, couples, chord_force, forces);
    add_forces(t, forces, s->balance);
}

bool rbow_frame_balance(rbow_frame_solver *s, double factor)
{
    for (size_t i = 0; i < motion_count(s); i++) s->balance[i] = -factor * s->applied[i];
    bool stands = true;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const tube_motion m = rbow_tube_motion(&s->tubes[i], s->motion);
        s->axial[i] = axial_of(&s->tubes[i], &m);
        if (s->axial[i] < s->tubes[i].member.critical_load)
            balance_tube(s, i, &m, factor);
        else
            stands = false;
    }
    return stands;
}

/* ---- stiffness ----------------------------------------------------------------------------------------- */

/* Adds to a symmetric band what lies on or below its diagonal. */
static void add_below(const rbow_frame_solver *s, const frame_tube *t, stiffness_block blocks[ENDS][ENDS])
{
    for (int p = 0; p < ENDS; p++)
        for (int q = 0; q < ENDS; q++) {
            const int *rows = &s->place[t->joint[p] * RBOW_MOTIONS], *columns = &s->place[t->joint[q] * RBOW_MOTIONS];
            for (int i = 0; i < RBOW_MOTIONS; i++)
                for (int j = 0; rows[i] >= 0 && j < RBOW_MOTIONS; j++)
                    if (columns[j] >= 0 && rows[i] >= columns[j])
                        band_column(&s->stiffness, (size_t)columns[j])[rows[i] - columns[j]] += blocks[p][q][i][j];
        }
}

pivots rbow_frame_factor_stiffness(rbow_frame_solver *s, const double *axial)
{
    stiffness_block blocks[ENDS][ENDS];
    memset(s->stiffness.at, 0, s->size * (s->stiffness.width + 1) * sizeof *s->stiffness.at);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        rbow_tube_stiffness(&s->tubes[i], axial[i], blocks);
        add_below(s, &s->tubes[i], blocks);
    }
    return rbow_band_factor(&s->stiffness);
}

/* ---- tangent ------------------------------------------------------------------------------------------- */

static void add_everywhere(const rbow_frame_solver *s, const frame_tube *t, stiffness_block blocks[ENDS][ENDS])
{
    for (int p = 0; p < ENDS; p++)
        for (int q = 0; q < ENDS; q++) {
            const int *rows = &s->place[t->joint[p] * RBOW_MOTIONS], *columns = &s->place[t->joint[q] * RBOW_MOTIONS];
            for (int i = 0; i < RBOW_MOTIONS; i++)
                for (int j = 0; rows[i] >= 0 && j < RBOW_MOTIONS; j++)
                    if (columns[j] >= 0) band_row(&s->tangent, (size_t)rows[i])[columns[j] - rows[i]] += blocks[p][q][i][j];
        }
}

/* The change of the axial force P with the motions, -EA/L for the elongation, times what P changes through the bending. */
static void add_through_axial(rbow_frame_solver *s, size_t i, double factor, stiffness_block blocks[ENDS][ENDS])
{
    const frame_tube *t = &s->tubes[i];
    const tube_motion m = rbow_tube_motion(t, s->motion);
    const tube_state state = rbow_tube_state(t, &m);
    double couples[ENDS][PLANES], by_axial[ENDS][RBOW_MOTIONS];
    tube_loads loads;
    rbow_tube_loads(t, &state, factor, &loads);
    rbow_tube_softening(t, &loads, couples);
    rbow_tube_forces(t, 0, 0, couples, m.chord, by_axial);
    for (int p = 0; p < ENDS; p++)
        for (int k = 0; k < RBOW_MOTIONS; k++)
            for (int j = 0; j < RBOW_AXES; j++) {
                const double change = by_axial[p][k] * t->stretch * t->axis[j];
                blocks[p][END_A][k][j] += change;
                blocks[p][END_B][k][j] -= change;
            }
}

pivots rbow_frame_factor_tangent(rbow_frame_solver *s, double factor)
{
    stiffness_block blocks[ENDS][ENDS];
    memset(s->tangent.at, 0, s->size * (2 * s->tangent.width + 1) * sizeof *s->tangent.at);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        rbow_tube_stiffness(&s->tubes[i], s->axial[i], blocks);
        add_through_axial(s, i, factor, blocks);
        add_everywhere(s, &s->tubes[i], blocks);
    }
    return rbow_full_band_factor(&s->tangent);
}
