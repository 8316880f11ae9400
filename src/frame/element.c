#include "frame/element.h"

#include "check/loads_body.h"

#include <math.h>
#include <string.h>

/* A turn theta of a joint is a slope toward `up` of theta . e_right, and toward `right` of -theta . e_up. */
static double slope_of(const frame_tube *t, int plane, const double turn[RBOW_AXES])
{
    return plane == UP ? dot3(turn, t->side[RIGHT]) : -dot3(turn, t->side[UP]);
}

tube_motion rbow_tube_motion(const frame_tube *t, double *motions)
{
    const double *a = motions_of(motions, t->joint[END_A]), *b = motions_of(motions, t->joint[END_B]);
    const double move[RBOW_AXES] = {b[0] - a[0], b[1] - a[1], b[2] - a[2]};
    tube_motion m;
    m.elongation = dot3(move, t->axis);
    m.twist = dot3(b + RBOW_AXES, t->axis) - dot3(a + RBOW_AXES, t->axis);
    for (int i = 0; i < PLANES; i++) {
        m.chord[i] = dot3(move, t->side[i]) / t->length;
        m.slope[END_A][i] = slope_of(t, i, a + RBOW_AXES) - m.chord[i];
        m.slope[END_B][i] = slope_of(t, i, b + RBOW_AXES) - m.chord[i];
    }
    return m;
}

tube_state rbow_tube_state(const frame_tube *t, const tube_motion *m)
{
    tube_state s = {.axial = axial_of(t, m), .torque = t->twist * m->twist};
    memcpy(s.slope, m->slope, sizeof s.slope);
    return s;
}

void rbow_tube_loads(const frame_tube *t, const tube_state *s, double factor, tube_loads *out)
{
    const built_in *built = &t->built;
    *out = (tube_loads){.axial = s->axial, .torque = s->torque};
    for (int i = 0; i < PLANES; i++) {
        out->planes.slope_a[i] = built->slope[END_A][i] + s->slope[END_A][i];
        out->planes.slope_b[i] = built->slope[END_B][i] - s->slope[END_B][i];
        out->planes.spread[i] = factor * t->spread[i];
        out->planes.point[i] = factor * t->point[i];
        out->planes.bow[i] = built->bow[i];
    }
}

/* ---- couples ------------------------------------------------------------------------------------------- */

static void couples_at(const frame_tube *t, double z, const plane_loads *loads, double couples[ENDS][PLANES])
{
    double a[PLANES], b[PLANES];
    end_moments_of(&t->member.beam, z, loads, a, b);
    for (int i = 0; i < PLANES; i++) {
        couples[END_A][i] = a[i] * t->member.unit;
        couples[END_B][i] = -b[i] * t->member.unit;
    }
}

void rbow_tube_couples(const frame_tube *t, const tube_loads *at, double couples[ENDS][PLANES])
{
    plane_loads loads;
    memset(couples, 0, ENDS * sizeof *couples);
    if (t->pinned) return;
    planes_beside(at, &loads);
    couples_at(t, relative_load(&t->member, at->axial), &loads, couples);
}

/* By a central difference whose step is a small share of the distance to the pole at the critical load: with 1e-5 of it both
 * the cubic term and rounding leave about 1e-10. */
void rbow_tube_softening(const frame_tube *t, const tube_loads *at, double couples[ENDS][PLANES])
{
    const double per_axial = relative_load(&t->member, 1), z = at->axial * per_axial;
    const double room = t->member.critical_load * per_axial - z, step = 1e-5 * fmin(1 + fabs(z), room);
    double below[ENDS][PLANES];
    plane_loads loads;
    memset(couples, 0, ENDS * sizeof *couples);
    if (t->pinned) return;
    planes_beside(at, &loads);
    couples_at(t, z + step, &loads, couples);
    couples_at(t, z - step, &loads, below);
    for (int k = 0; k < ENDS; k++)
        for (int i = 0; i < PLANES; i++) couples[k][i] = (couples[k][i] - below[k][i]) / (2 * step) * per_axial;
}

/* One plane turns A, the other B. */
end_stiffness rbow_end_stiffness_of(const frame_tube *t, double axial)
{
    const plane_loads unit = {.slope_a = {[UP] = 1}, .slope_b = {[RIGHT] = -1}};
    double couples[ENDS][PLANES];
    if (t->pinned) return (end_stiffness){0, 0, 0};
    couples_at(t, relative_load(&t->member, axial), &unit, couples);
    return (end_stiffness){couples[END_A][UP], (couples[END_B][UP] + couples[END_A][RIGHT]) / 2, couples[END_B][RIGHT]};
}

/* ---- forces -------------------------------------------------------------------------------------------- */

static void add_along(double size, const double direction[RBOW_AXES], double to[RBOW_AXES])
{
    for (int i = 0; i < RBOW_AXES; i++) to[i] += size * direction[i];
}

/* Lateral: moments about A give Y_B L = -(C_A + C_B) - P (v_B - v_A). What acts across the tube between its joints goes to
 * them by the lever rule, with the loads of the run. */
void rbow_tube_forces(const frame_tube *t, double axial, double torque, double couples[ENDS][PLANES],
                      const double chord_force[PLANES], double forces[ENDS][RBOW_MOTIONS])
{
    memset(forces, 0, ENDS * sizeof *forces);
    for (int i = 0; i < PLANES; i++) {
        const double lateral = (couples[END_A][i] + couples[END_B][i]) / t->length + chord_force[i];
        add_along(lateral, t->side[i], forces[END_A]);
        add_along(-lateral, t->side[i], forces[END_B]);
    }
    for (int k = 0; k < ENDS; k++) {
        add_along(couples[k][UP], t->side[RIGHT], forces[k] + RBOW_AXES);
        add_along(-couples[k][RIGHT], t->side[UP], forces[k] + RBOW_AXES);
    }
    add_along(axial, t->axis, forces[END_A]);
    add_along(-axial, t->axis, forces[END_B]);
    add_along(-torque, t->axis, forces[END_A] + RBOW_AXES);
    add_along(torque, t->axis, forces[END_B] + RBOW_AXES);
}

/* ---- stiffness ----------------------------------------------------------------------------------------- */

/* Both planes are alike, so that a lateral movement u meets along I - e e^T, and a turn theta meets a movement along
 * theta x e, e the axis: the entry of row i and column j of that product. */
static double crossed(const double e[RBOW_AXES], int i, int j)
{
    return i == j ? 0 : (j - i + RBOW_AXES) % RBOW_AXES == 1 ? e[(j + 1) % RBOW_AXES] : -e[(i + 1) % RBOW_AXES];
}

/* With S the couples' stiffness, of the potential sum over both planes of (phi S phi)/2 - P L psi^2/2, phi = theta - psi. */
void rbow_tube_stiffness(const frame_tube *t, double axial, stiffness_block blocks[ENDS][ENDS])
{
    const end_stiffness s = rbow_end_stiffness_of(t, axial);
    const double length = t->length, a = s.aa + s.ab, b = s.ab + s.bb;
    const double lateral = ((a + b) / length - axial) / length, turn[ENDS][ENDS] = {{s.aa, s.ab}, {s.ab, s.bb}};
    const double turned[ENDS] = {a / length, b / length}, *e = t->axis;
    for (int p = 0; p < ENDS; p++)
        for (int q = 0; q < ENDS; q++) {
            const double sign = p == q ? 1 : -1, of_p = p == END_A ? 1 : -1, of_q = q == END_A ? 1 : -1;
            for (int i = 0; i < RBOW_AXES; i++)
                for (int j = 0; j < RBOW_AXES; j++) {
                    const double along = e[i] * e[j], across = (i == j ? 1 : 0) - along;
                    double(*k)[RBOW_MOTIONS] = blocks[p][q];
                    k[i][j] = sign * (lateral * across + t->stretch * along);
                    k[i][RBOW_AXES + j] = of_p * turned[q] * crossed(e, i, j);
                    k[RBOW_AXES + i][j] = of_q * turned[p] * crossed(e, j, i);
                    k[RBOW_AXES + i][RBOW_AXES + j] = turn[p][q] * across + sign * t->twist * along;
                }
        }
}
