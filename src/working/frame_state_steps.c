#include "working/frame_steps.h"

static const char statics[] = "statics";
static const char geometry[] = "geometry";
static const char drawn[] = "joints.csv";
static const char textbook[] = "mechanics of materials";

enum { A, B };

static double dot(const double a[RBOW_AXES], const double b[RBOW_AXES])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static double length_of(const explained *e, double own) { return shown_value(&e->c, DIM_LENGTH, own); }
static double force_of(const explained *e, double own) { return shown_value(&e->c, DIM_FORCE, own); }

/* ---- directions ----------------------------------------------------------------------------------------- */

static void along_steps(const explained *e)
{
    static const char *const steps[] = {"direction of the tube, forward", "direction of the tube, to the left", "direction of the tube, upward"};
    static const char *const formulas[] = {"e_x = (x_B − x_A) / L", "e_y = (y_B − y_A) / L", "e_z = (z_B − z_A) / L"};
    const rbow_frame_joint *joints = e->answers->model->frame.joints;
    double a[RBOW_AXES], b[RBOW_AXES];
    for (int k = 0; k < RBOW_AXES; k++) {
        a[k] = length_of(e, joints[e->tube->from].at[k]);
        b[k] = length_of(e, joints[e->tube->to].at[k]);
    }
    STEP(&e->c, "length, joint to joint", "L = √((x_B − x_A)² + (y_B − y_A)² + (z_B − z_A)²)", "√((# − #)² + (# − #)² + (# − #)²)", e->c.m.length,
         e->c.length, drawn, b[0], a[0], b[1], a[1], b[2], a[2]);
    for (int k = 0; k < RBOW_AXES; k++)
        STEP(&e->c, steps[k], formulas[k], "(# − #) / #", e->along[k], "", drawn, b[k], a[k], e->c.m.length);
}

/* Up is the part of +z across the tube; of +x on an upright tube. */
static void up_steps(const explained *e)
{
    static const char *const steps[] = {"clock 0, forward", "clock 0, to the left", "clock 0, upward"};
    static const char *const upright[] = {"up_x = √(e_y² + e_z²): upright, so 0 is forward", "up_y = −e_x e_y / √(e_y² + e_z²)",
                                          "up_z = −e_x e_z / √(e_y² + e_z²)"};
    static const char *const other[] = {"up_x = −e_z e_x / √(e_x² + e_y²)", "up_y = −e_z e_y / √(e_x² + e_y²)", "up_z = √(e_x² + e_y²)"};
    const bool is_upright = e->up[RBOW_X] > 0.5 && hypot(e->along[RBOW_X], e->along[RBOW_Y]) < 0.01;
    const int pole = is_upright ? RBOW_X : RBOW_Z;
    const double p = e->along[(pole + 1) % RBOW_AXES], q = e->along[(pole + 2) % RBOW_AXES];
    for (int k = 0; k < RBOW_AXES; k++) {
        const char *formula = is_upright ? upright[k] : other[k];
        if (k == pole)
            STEP(&e->c, steps[k], formula, "√(#² + #²)", e->up[k], "", geometry, p, q);
        else
            STEP(&e->c, steps[k], formula, "(−#) × # / √(#² + #²)", e->up[k], "", geometry, e->along[pole], e->along[k], p, q);
    }
}

static void right_steps(const explained *e)
{
    static const char *const steps[] = {"clock 90°, forward", "clock 90°, to the left", "clock 90°, upward"};
    static const char *const formulas[] = {"r_x = e_y up_z − e_z up_y", "r_y = e_z up_x − e_x up_z", "r_z = e_x up_y − e_y up_x"};
    for (int k = 0; k < RBOW_AXES; k++) {
        const int i = (k + 1) % RBOW_AXES, j = (k + 2) % RBOW_AXES;
        STEP(&e->c, steps[k], formulas[k], "# × # − # × #", e->right[k], "", geometry, e->along[i], e->up[j], e->along[j], e->up[i]);
    }
}

void frame_direction_steps(const explained *e)
{
    working_heading(e->c.w, "The tube in the frame", "");
    along_steps(e);
    up_steps(e);
    right_steps(e);
}

/* ---- what acts between the joints ----------------------------------------------------------------------- */

static void on_tube(const explained *e, double spread[RBOW_AXES], double g[RBOW_AXES], double point[RBOW_AXES], double *at)
{
    *at = e->c.m.length;
    for (int k = 0; k < RBOW_AXES; k++) spread[k] = g[k] = point[k] = 0;
    for (size_t i = 0; i < e->run->load_count; i++) {
        const rbow_frame_load *l = &e->run->loads[i];
        const double acting[] = {l->forward_g, l->left_g, -l->vertical_g};
        const bool here = l->acts_on == RBOW_ACTS_ON_TUBE && l->index == e->place;
        for (int k = 0; k < RBOW_AXES; k++) {
            if (l->acts_on == RBOW_ACTS_ON_ALL) g[k] += acting[k];
            if (here) spread[k] += shown_value(&e->c, DIM_FORCE_PER_LENGTH, l->spread[k]);
            if (here) point[k] += force_of(e, l->force[k]);
        }
        if (here && (fabs(l->force[0]) > 0 || fabs(l->force[1]) > 0 || fabs(l->force[2]) > 0))
            *at = l->at <= RBOW_UNSET ? e->c.m.length / 2 : fmin(length_of(e, l->at), e->c.m.length);
    }
}

static double part_step(const explained *e, const char *step, const char *formula, const double what[RBOW_AXES],
                        const double direction[RBOW_AXES], const char *of)
{
    const double part = dot(what, direction);
    STEP(&e->c, step, formula, "# × # + # × # + # × #", part, of, statics, what[0], direction[0], what[1], direction[1], what[2],
         direction[2]);
    return part;
}

static void spread_steps(explained *e, const double spread[RBOW_AXES], const double g[RBOW_AXES], double weight)
{
    static const char *const steps[] = {"spread load forward", "spread load to the left", "spread load upward"};
    double q[RBOW_AXES];
    for (int k = 0; k < RBOW_AXES; k++) {
        q[k] = spread[k] + weight / e->c.m.length * g[k];
        if (fabs(q[k]) > 0) STEP(&e->c, steps[k], "q, and W/L under g", "# + # / # × #", q[k], e->c.spread, e->c.given, spread[k], weight, e->c.m.length, g[k]);
    }
    if (!(fabs(q[0]) > 0 || fabs(q[1]) > 0 || fabs(q[2]) > 0)) return;
    e->across.spread[0] = part_step(e, "spread load across, up", "q_up = q · up", q, e->up, e->c.spread);
    e->across.spread[1] = part_step(e, "spread load across, right", "q_right = q · r", q, e->right, e->c.spread);
    const double along = part_step(e, "spread load along", "q_along = q · e", q, e->along, e->c.spread);
    for (int end = A; end <= B; end++) e->lever[end] += along * e->c.m.length / 2;
}

static void point_steps(explained *e, const double point[RBOW_AXES], double at)
{
    const double length = e->c.m.length;
    e->c.m.point_at = at;
    if (!(fabs(point[0]) > 0 || fabs(point[1]) > 0 || fabs(point[2]) > 0)) return;
    STEP(&e->c, "place of the point load, from A", "a", "#", at, e->c.length, e->c.given, at);
    e->across.point[0] = part_step(e, "point load across, up", "F_up = F · up", point, e->up, e->c.force);
    e->across.point[1] = part_step(e, "point load across, right", "F_right = F · r", point, e->right, e->c.force);
    const double along = part_step(e, "point load along", "F_along = F · e", point, e->along, e->c.force);
    e->lever[A] += along * (1 - at / length);
    e->lever[B] += along * (at / length);
}

void frame_load_steps(explained *e, double weight)
{
    double spread[RBOW_AXES], g[RBOW_AXES], point[RBOW_AXES], at;
    on_tube(e, spread, g, point, &at);
    spread_steps(e, spread, g, weight);
    point_steps(e, point, at);
}

/* ---- a state -------------------------------------------------------------------------------------------- */

static void joint_state(const explained *e, const char *heading, const rbow_frame_motion *motion)
{
    static const char *const moves[] = {"moves forward", "moves to the left", "moves upward"};
    static const char *const turns[] = {"turns about x", "turns about y", "turns about z"};
    working_heading(e->c.w, heading, "");
    for (int k = 0; k < RBOW_AXES; k++)
        STEP(&e->c, moves[k], "from where it was drawn", "by solution", length_of(e, motion->move[k]), e->c.length, "balance of all joints", 0);
    for (int k = 0; k < RBOW_AXES; k++)
        STEP(&e->c, turns[k], "right-hand", "by solution", motion->turn[k], "rad", "balance of all joints", 0);
}

static void axial_steps(explained *e, const double a[RBOW_AXES], const double b[RBOW_AXES], double gap, double axial)
{
    const double lengthening = length_of(e, dot(b, e->along) - dot(a, e->along));
    working_heading(e->c.w, "Axial force", "");
    STEP(&e->c, "change of length", "δ = (movement of B − movement of A) · e", "(# − #) × # + (# − #) × # + (# − #) × #", lengthening, e->c.length, geometry,
         length_of(e, b[0]), length_of(e, a[0]), e->along[0], length_of(e, b[1]), length_of(e, a[1]), e->along[1], length_of(e, b[2]),
         length_of(e, a[2]), e->along[2]);
    e->axial = force_of(e, axial);
    STEP(&e->c, "axial force, push positive", "P = −E A / L (δ + gap)", "(−#) × # / # × (# + #)", e->axial, e->c.force, "Hooke's law",
         e->c.k.elastic_modulus, e->c.tube.section.area, e->c.m.length, lengthening, gap);
}

static void torque_step(explained *e, const double a[RBOW_AXES], const double b[RBOW_AXES])
{
    const double twist = dot(b, e->along) - dot(a, e->along), inertia = e->c.tube.section.inertia;
    if (!(e->c.m.end_a > 0 && e->c.m.end_b > 0)) {
        e->torque = 0;
        STEP(&e->c, "torque", "none: an end is pinned", "0", 0, e->c.moment, e->c.given, 0);
        return;
    }
    e->torque = e->c.k.shear_modulus * 2 * inertia / e->c.m.length * twist;
    STEP(&e->c, "twist", "φ = (turn of B − turn of A) · e", "(# − #) × # + (# − #) × # + (# − #) × #", twist, "rad", geometry, b[0], a[0], e->along[0],
         b[1], a[1], e->along[1], b[2], a[2], e->along[2]);
    STEP(&e->c, "torque", "T = G 2 I / L φ", "# × 2 × # / # × #", e->torque, e->c.moment, textbook, e->c.k.shear_modulus, inertia, e->c.m.length, twist);
}

typedef struct side { /* of the tube, in one plane */
    const char *heading, *move_a, *move_b;
    const double *across, *turn_axis; /* a turn about the second, times `sign`, is a slope toward the first */
    double sign;
} side;

static double move_step(const explained *e, const char *step, const double move[RBOW_AXES], const side *s)
{
    const double part = length_of(e, dot(move, s->across));
    STEP(&e->c, step, s->sign > 0 ? "v = movement · up" : "v = movement · r", "# × # + # × # + # × #", part, e->c.length, geometry,
         length_of(e, move[0]), s->across[0], length_of(e, move[1]), s->across[1], length_of(e, move[2]), s->across[2]);
    return part;
}

static double turn_step(const explained *e, const char *step, const double turn[RBOW_AXES], const side *s)
{
    const double part = s->sign * dot(turn, s->turn_axis);
    STEP(&e->c, step, s->sign > 0 ? "θ = turn · r" : "θ = −turn · up", s->sign > 0 ? "# × # + # × # + # × #" : "−(# × # + # × # + # × #)", part, "rad",
         geometry, turn[0], s->turn_axis[0], turn[1], s->turn_axis[1], turn[2], s->turn_axis[2]);
    return part;
}

/* Given: first, second  the turn and the chord, or the chord and the turn. */
static double slope_step(const explained *e, const char *step, const char *const formulas[3], double first, double second, double miss,
                         double clock, double sign)
{
    double parts[2] = {0, 0};
    const double length = e->c.m.length;
    if (miss > 0) rbow_clock_components(miss, clock, parts);
    const double slope = first - second + (sign > 0 ? parts[0] : parts[1]) / length;
    if (miss > 0)
        STEP(&e->c, step, formulas[sign > 0 ? 0 : 1], sign > 0 ? "# − # + # × cos(#°) / #" : "# − # + # × sin(#°) / #", slope, "rad", geometry, first, second,
             miss, clock * 180 / pi, length);
    else
        STEP(&e->c, step, formulas[2], "# − #", slope, "rad", geometry, first, second);
    return slope;
}

static void plane_slopes(explained *e, int plane, const side *s, const rbow_frame_motion *a, const rbow_frame_motion *b, bool forced)
{
    static const char *const at_a[] = {"s_A = θ_A − ψ + miss_a cos(clock) / L", "s_A = θ_A − ψ + miss_a sin(clock) / L", "s_A = θ_A − ψ"};
    static const char *const at_b[] = {"s_B = ψ − θ_B + miss_b cos(clock) / L", "s_B = ψ − θ_B + miss_b sin(clock) / L", "s_B = ψ − θ_B"};
    const rbow_member *m = &e->c.m;
    working_heading(e->c.w, s->heading, "");
    const double v_a = move_step(e, s->move_a, a->move, s), v_b = move_step(e, s->move_b, b->move, s), chord = (v_b - v_a) / m->length;
    STEP(&e->c, "slope of the chord", "ψ = (v_B − v_A) / L", "(# − #) / #", chord, "rad", geometry, v_b, v_a, m->length);
    const double turn_a = turn_step(e, "turn of joint A as a slope", a->turn, s), turn_b = turn_step(e, "turn of joint B as a slope", b->turn, s);
    e->chord[plane] = chord;
    e->across.slope_a[plane] = slope_step(e, "slope that joint A gives the tube", at_a, turn_a, chord, forced ? m->miss_a : 0, m->miss_a_clock, s->sign);
    e->across.slope_b[plane] = slope_step(e, "slope that joint B gives the tube", at_b, chord, turn_b, forced ? m->miss_b : 0, m->miss_b_clock, s->sign);
}

bool frame_state_steps(explained *e, double factor, int fit)
{
    const bool forced = fit == RBOW_FRAME_AS_BUILT;
    if (rbow_frame_state(e->solver, e->run, factor, fit, e->motions, e->axials) != RBOW_OK) return false;
    const rbow_frame_motion *a = &e->motions[e->tube->from], *b = &e->motions[e->tube->to];
    const side up = {"Slopes at the ends, upward", "joint A moves up", "joint B moves up", e->up, e->right, 1};
    const side right = {"Slopes at the ends, to the right", "joint A moves right", "joint B moves right", e->right, e->up, -1};
    joint_state(e, "Joint A", a);
    joint_state(e, "Joint B", b);
    axial_steps(e, a->move, b->move, forced ? e->c.m.gap : 0, e->axials[e->place]);
    torque_step(e, a->turn, b->turn);
    plane_slopes(e, 0, &up, a, b, forced);
    plane_slopes(e, 1, &right, a, b, forced);
    return true;
}

/* ---- end forces ----------------------------------------------------------------------------------------- */

static void plane_forces(const explained *e, int plane, const double moment[2])
{
    static const char *const steps[2][5] = {
        {"couple of joint A on the tube, up", "couple of joint B on the tube, up", "force of joint B on the tube, up", "force of joint A on the tube, up"},
        {"couple of joint A on the tube, right", "couple of joint B on the tube, right", "force of joint B on the tube, right", "force of joint A on the tube, right"}};
    const double length = e->c.m.length, at = e->c.m.point_at, q = e->across.spread[plane], f = e->across.point[plane];
    const double couple_a = moment[A], couple_b = -moment[B];
    const double at_b = -(couple_a + couple_b + q * length * length / 2 + f * at) / length - e->axial * e->chord[plane];
    const double at_a = -q * length - f - at_b;
    STEP(&e->c, steps[plane][0], "C_A = M_A", "#", couple_a, e->c.moment, statics, couple_a);
    STEP(&e->c, steps[plane][1], "C_B = −M_B", "−#", couple_b, e->c.moment, statics, moment[B]);
    STEP(&e->c, steps[plane][2], "Y_B = −(C_A + C_B + q L² / 2 + F a) / L − P ψ", "−(# + # + # × #² / 2 + # × #) / # − # × #", at_b, e->c.force, statics,
         couple_a, couple_b, q, length, f, at, length, e->axial, e->chord[plane]);
    STEP(&e->c, steps[plane][3], "Y_A = −q L − F − Y_B", "(−#) × # − # − #", at_a, e->c.force, statics, q, length, f, at_b);
}

void frame_end_force_steps(const explained *e, const end_moments *ends)
{
    working_heading(e->c.w, "Forces of the joints on the tube, load factor 1", "");
    STEP(&e->c, "moment at end A", "√(M_A,up² + M_A,right²)", "√(#² + #²)", hypot(ends->up[A], ends->right[A]), e->c.moment, statics, ends->up[A], ends->right[A]);
    STEP(&e->c, "moment at end B", "√(M_B,up² + M_B,right²)", "√(#² + #²)", hypot(ends->up[B], ends->right[B]), e->c.moment, statics, ends->up[B], ends->right[B]);
    plane_forces(e, 0, ends->up);
    plane_forces(e, 1, ends->right);
    STEP(&e->c, "force of joint A along the tube", "X_A = P − what acts along the tube, by the lever rule", "# − #", e->axial - e->lever[A], e->c.force, statics,
         e->axial, e->lever[A]);
    STEP(&e->c, "force of joint B along the tube", "X_B = −P − what acts along the tube, by the lever rule", "−# − #", -e->axial - e->lever[B], e->c.force,
         statics, e->axial, e->lever[B]);
}
