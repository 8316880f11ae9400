#include "frame/element.h"

#include "mechanics/beamcolumn_body.h"

#include <string.h>

static double load_of(const frame_tube *t, double axial)
{
    return axial * (t->length / t->member.unit);
}

/* Couples C_A, C_B of both planes under relative loads. */
static void couples_of(const frame_tube *t, double axial, const plane_loads *loads, double couples[PLANES][ENDS])
{
    equilibrium e;
    moments a, b;
    const location end_a = location_of(&station_a), end_b = location_of(&station_b);
    equilibrium_of(&t->member.beam, load_of(t, axial), loads, &e);
    moments_at(&e, &end_a, &a);
    moments_at(&e, &end_b, &b);
    for (int i = 0; i < PLANES; i++) {
        couples[i][END_A] = a.m[i] * t->member.unit;
        couples[i][END_B] = -b.m[i] * t->member.unit;
    }
}

static plane_loads loads_of(const rbow_frame_solver *s, const frame_tube *t, double factor)
{
    const double per_unit = t->length / t->member.unit;
    plane_loads l = {.moment_a = {0}};
    for (int i = 0; i < PLANES; i++) {
        l.slope_a[i] = s->fit * t->slope[END_A][i];
        l.slope_b[i] = s->fit * t->slope[END_B][i];
        l.spread[i] = factor * t->spread[i] * t->length * per_unit;
        l.point[i] = factor * t->point[i] * per_unit;
        l.bow[i] = s->bows * t->bow[i];
    }
    return l;
}

void rbow_element_couples(frame_tube *t, double axial, element *out)
{
    const plane_loads unit = {.slope_a = {[UP] = 1}, .slope_b = {[RIGHT] = -1}};
    double turned[PLANES][ENDS];
    out->axial = axial;
    if (!(t->couple_axial <= axial && t->couple_axial >= axial)) {
        couples_of(t, axial, &unit, turned);
        t->couple_axial = axial;
        t->couple[END_A][END_A] = turned[UP][END_A];
        t->couple[END_B][END_B] = turned[RIGHT][END_B];
        t->couple[END_A][END_B] = t->couple[END_B][END_A] = (turned[UP][END_B] + turned[RIGHT][END_A]) / 2;
    }
    memcpy(out->couple, t->couple, sizeof t->couple);
}

void rbow_element_of(const rbow_frame_solver *s, frame_tube *t, double axial, double factor, element *out)
{
    const plane_loads loads = loads_of(s, t, factor);
    rbow_element_couples(t, axial, out);
    couples_of(t, axial, &loads, out->fixed);
}

/* ---- motions ------------------------------------------------------------------------------------------- */

static void motions_of(const rbow_frame_solver *s, const double *unknowns, size_t joint, double move[RBOW_AXES], double turn[RBOW_AXES])
{
    for (int i = 0; i < RBOW_AXES; i++) {
        move[i] = motion_of(s, unknowns, joint, i);
        turn[i] = motion_of(s, unknowns, joint, RBOW_AXES + i);
    }
}

element_ends rbow_element_ends(const rbow_frame_solver *s, const frame_tube *t, const double *unknowns, int plane)
{
    element_ends ends;
    for (int i = 0; i < ENDS; i++) {
        double move[RBOW_AXES], turn[RBOW_AXES];
        motions_of(s, unknowns, t->joint[i], move, turn);
        ends.moved[i] = dot3(move, t->side[plane]);
        ends.slope[i] = dot3(turn, t->turn_axis[plane]);
    }
    return ends;
}

static double chord_of(const frame_tube *t, const element_ends *e)
{
    return (e->moved[END_B] - e->moved[END_A]) / t->length;
}

double rbow_element_axial(const rbow_frame_solver *s, const frame_tube *t, const double *unknowns)
{
    double move[ENDS][RBOW_AXES], turn[RBOW_AXES];
    for (int i = 0; i < ENDS; i++) motions_of(s, unknowns, t->joint[i], move[i], turn);
    return -t->stretch * (dot3(move[END_B], t->axis) - dot3(move[END_A], t->axis) + s->fit * t->gap);
}

double rbow_element_torque(const rbow_frame_solver *s, const frame_tube *t, const double *unknowns)
{
    double move[RBOW_AXES], turn[ENDS][RBOW_AXES];
    for (int i = 0; i < ENDS; i++) motions_of(s, unknowns, t->joint[i], move, turn[i]);
    return t->twist * (dot3(turn[END_B], t->axis) - dot3(turn[END_A], t->axis));
}

/* ---- forces -------------------------------------------------------------------------------------------- */

static void add_end(double forces[ELEMENT], int end, int first, double size, const double direction[RBOW_AXES])
{
    for (int i = 0; i < RBOW_AXES; i++) forces[end * RBOW_MOTIONS + first + i] += size * direction[i];
}

/* Couples and the lateral forces that balance them and the loads across the tube: moments about A give
 *     Y_B L = -(C_A + C_B + first moment of the loads) - P (v_B - v_A). */
static void add_plane(const frame_tube *t, int plane, const double couple[ENDS], double axial_turn, double factor, double forces[ELEMENT])
{
    const double spread = factor * t->spread[plane] * t->length, point = factor * t->point[plane];
    const double about_a = spread * t->length / 2 + point * t->point_at;
    const double at_b = -(couple[END_A] + couple[END_B] + about_a) / t->length - axial_turn;
    add_end(forces, END_A, 0, -spread - point - at_b, t->side[plane]);
    add_end(forces, END_B, 0, at_b, t->side[plane]);
    for (int i = 0; i < ENDS; i++) add_end(forces, i, RBOW_AXES, couple[i], t->turn_axis[plane]);
}

void rbow_element_forces(const rbow_frame_solver *s, const frame_tube *t, const element *e, const double *unknowns, double factor,
                         double forces[ELEMENT])
{
    const double torque = rbow_element_torque(s, t, unknowns);
    memset(forces, 0, ELEMENT * sizeof *forces);
    for (int i = 0; i < PLANES; i++) {
        const element_ends ends = rbow_element_ends(s, t, unknowns, i);
        const double chord = chord_of(t, &ends), a = ends.slope[END_A] - chord, b = ends.slope[END_B] - chord;
        double couple[ENDS];
        for (int k = 0; k < ENDS; k++) couple[k] = e->couple[k][END_A] * a + e->couple[k][END_B] * b + e->fixed[i][k];
        add_plane(t, i, couple, e->axial * chord, factor, forces);
    }
    add_end(forces, END_A, 0, e->axial - factor * t->along[END_A], t->axis);
    add_end(forces, END_B, 0, -e->axial - factor * t->along[END_B], t->axis);
    add_end(forces, END_A, RBOW_AXES, -torque, t->axis);
    add_end(forces, END_B, RBOW_AXES, torque, t->axis);
}

/* ---- derivatives --------------------------------------------------------------------------------------- */

/* The slope theta - psi of an end in a plane as a sum over the motions. */
static void slope_rate(const frame_tube *t, int plane, int end, double rate[ELEMENT])
{
    memset(rate, 0, ELEMENT * sizeof *rate);
    add_end(rate, END_A, 0, 1 / t->length, t->side[plane]);
    add_end(rate, END_B, 0, -1 / t->length, t->side[plane]);
    add_end(rate, end, RBOW_AXES, 1, t->turn_axis[plane]);
}

static void chord_rate(const frame_tube *t, int plane, double rate[ELEMENT])
{
    memset(rate, 0, ELEMENT * sizeof *rate);
    add_end(rate, END_A, 0, -1 / t->length, t->side[plane]);
    add_end(rate, END_B, 0, 1 / t->length, t->side[plane]);
}

void rbow_element_axial_rate(const frame_tube *t, double rate[ELEMENT])
{
    memset(rate, 0, ELEMENT * sizeof *rate);
    add_end(rate, END_A, 0, t->stretch, t->axis);
    add_end(rate, END_B, 0, -t->stretch, t->axis);
}

/* Adds size a b' to the lower half of a matrix. */
static void add_product(double size, const double a[ELEMENT], const double b[ELEMENT], double k[ELEMENT][ELEMENT])
{
    for (int i = 0; i < ELEMENT; i++)
        for (int j = 0; j <= i; j++) k[i][j] += size * a[i] * b[j];
}

static void combine(double p, const double a[ELEMENT], double q, const double b[ELEMENT], double sum[ELEMENT])
{
    for (int i = 0; i < ELEMENT; i++) sum[i] = p * a[i] + q * b[i];
}

void rbow_element_stiffness(const frame_tube *t, const element *e, double k[ELEMENT][ELEMENT])
{
    double rate[ELEMENT], at_a[ELEMENT], at_b[ELEMENT], sum[ELEMENT];
    memset(k, 0, ELEMENT * sizeof *k);
    for (int i = 0; i < PLANES; i++) {
        slope_rate(t, i, END_A, at_a);
        slope_rate(t, i, END_B, at_b);
        combine(e->couple[END_A][END_A], at_a, e->couple[END_A][END_B], at_b, sum);
        add_product(1, at_a, sum, k);
        combine(e->couple[END_B][END_A], at_a, e->couple[END_B][END_B], at_b, sum);
        add_product(1, at_b, sum, k);
        chord_rate(t, i, rate);
        add_product(-e->axial * t->length, rate, rate, k);
    }
    rbow_element_axial_rate(t, rate);
    add_product(1 / t->stretch, rate, rate, k);
    memset(rate, 0, sizeof rate);
    add_end(rate, END_A, RBOW_AXES, -1, t->axis);
    add_end(rate, END_B, RBOW_AXES, 1, t->axis);
    add_product(t->twist, rate, rate, k);
    for (int i = 0; i < ELEMENT; i++)
        for (int j = i + 1; j < ELEMENT; j++) k[i][j] = k[j][i];
}

/* By central differences, which is enough for the direction of a Newton step and the sign of a determinant; the axial force
 * itself acts along the tube and is not in it. */
void rbow_element_by_axial(const rbow_frame_solver *s, frame_tube *t, double axial, double factor, const double *unknowns,
                           double forces[ELEMENT])
{
    const double reach = 1e-5 * t->member.critical_load, room = (t->member.critical_load - axial) / 2;
    const double up = fmin(reach, room);
    element high, low;
    double below[ELEMENT];
    rbow_element_of(s, t, axial + up, factor, &high);
    rbow_element_of(s, t, axial - reach, factor, &low);
    rbow_element_forces(s, t, &high, unknowns, factor, forces);
    rbow_element_forces(s, t, &low, unknowns, factor, below);
    add_end(forces, END_A, 0, -high.axial, t->axis);
    add_end(forces, END_B, 0, high.axial, t->axis);
    add_end(below, END_A, 0, -low.axial, t->axis);
    add_end(below, END_B, 0, low.axial, t->axis);
    for (int i = 0; i < ELEMENT; i++) forces[i] = (forces[i] - below[i]) / (up + reach);
}

/* ---- along the tube ------------------------------------------------------------------------------------ */

member_loads rbow_element_loads(const rbow_frame_solver *s, const frame_tube *t, const element_ends ends[PLANES], double factor)
{
    const plane_loads from = loads_of(s, t, factor);
    member_loads l = {.moment_a = {0}};
    for (int i = 0; i < PLANES; i++) {
        const double chord = chord_of(t, &ends[i]);
        l.slope_a[i] = from.slope_a[i] + ends[i].slope[END_A] - chord;
        l.slope_b[i] = from.slope_b[i] + chord - ends[i].slope[END_B];
        l.spread[i] = from.spread[i];
        l.point[i] = from.point[i];
        l.bow[i] = from.bow[i];
    }
    return l;
}
