/* Moments are taken about the origin with the forces at their drawn places. The joints move, and with them the ends of the axial
 * forces: in equilibrium to second order the sum of P e x (movement of B - movement of A) over the tubes makes up the difference. */
#include "working/frame_steps.h"

static const char statics[] = "statics";
enum { TERMS_MOST = 12, VALUES_MOST = 5 * (TERMS_MOST + 1) };

typedef struct sum { /* a sum being written with its numbers */
    const explained *e;
    double values[VALUES_MOST];
    size_t count, terms;
    text numbers;
    double total, hidden;
} sum;

static double force_of(const explained *e, double own) { return shown_value(&e->c, DIM_FORCE, own); }
static double length_of(const explained *e, double own) { return shown_value(&e->c, DIM_LENGTH, own); }

static void add(sum *s, const char *numbers, const double values[], size_t count, double value)
{
    if (!(fabs(value) > 0)) return;
    s->total += value;
    if (s->terms >= TERMS_MOST) {
        s->hidden += value;
        return;
    }
    text_format(&s->numbers, "%s%s", s->terms++ > 0 ? " + " : "", numbers);
    for (size_t i = 0; i < count; i++) s->values[s->count++] = values[i];
}

/* More terms than a line holds stand in it as one number. */
static double end_sum(sum *s, const char *step, const char *formula, const char *of)
{
    if (fabs(s->hidden) > 0) {
        text_put(&s->numbers, " + #");
        s->values[s->count++] = s->hidden;
    }
    if (s->terms == 0) text_char(&s->numbers, '0');
    bool failed = false;
    working_step(s->e->c.w, step, formula, text_string(&s->numbers, &failed), s->values, s->count, s->total, of, statics);
    text_free(&s->numbers);
    if (failed) s->e->c.w->rows[s->e->c.w->count - 1].numbers.failed = true;
    return s->total;
}

/* ---- loads ---------------------------------------------------------------------------------------------- */

/* The force of a load, and where it acts; of a spread load its resultant. */
typedef struct placed {
    double force[RBOW_AXES], at[RBOW_AXES];
} placed;

static void place_on_tube(const explained *e, const rbow_frame_load *l, double share, placed *p)
{
    const rbow_frame *f = &e->answers->model->frame;
    const double *a = f->joints[f->tubes[l->index].from].at, *b = f->joints[f->tubes[l->index].to].at;
    for (int k = 0; k < RBOW_AXES; k++) p->at[k] = a[k] + share * (b[k] - a[k]);
}

static double tube_length(const explained *e, size_t tube)
{
    const rbow_frame *f = &e->answers->model->frame;
    const double *a = f->joints[f->tubes[tube].from].at, *b = f->joints[f->tubes[tube].to].at;
    return hypot(hypot(b[0] - a[0], b[1] - a[1]), b[2] - a[2]);
}

/* Returned: how many forces a row of loads is; g are not among them. */
static int forces_of(const explained *e, const rbow_frame_load *l, placed out[2])
{
    if (l->acts_on == RBOW_ACTS_ON_ALL) return 0;
    const bool on_tube = l->acts_on == RBOW_ACTS_ON_TUBE;
    const double length = on_tube ? tube_length(e, l->index) : 0;
    for (int k = 0; k < RBOW_AXES; k++) {
        out[0].force[k] = l->force[k];
        out[1].force[k] = l->spread[k] * length;
        if (!on_tube) out[0].at[k] = e->answers->model->frame.joints[l->index].at[k];
    }
    if (!on_tube) return 1;
    place_on_tube(e, l, l->at <= RBOW_UNSET ? 0.5 : fmin(l->at / length, 1), &out[0]);
    place_on_tube(e, l, 0.5, &out[1]);
    return 2;
}

static double g_of(const explained *e, int axis)
{
    double g = 0;
    for (size_t i = 0; i < e->run->load_count; i++) {
        const rbow_frame_load *l = &e->run->loads[i];
        if (l->acts_on == RBOW_ACTS_ON_ALL) g += axis == RBOW_X ? l->forward_g : axis == RBOW_Y ? l->left_g : -l->vertical_g;
    }
    return g;
}

/* Weight under 1 g, in the unit shown. */
static double weight_of(const explained *e)
{
    return e->c.units == UNITS_SI ? shown_value(&e->c, DIM_MASS, e->answers->runs[0].result.mass) * 9.80665
                                  : e->answers->runs[0].result.mass;
}

static double load_sum(const explained *e, int axis)
{
    static const char *const steps[] = {"loads forward", "loads to the left", "loads upward"};
    sum s = {.e = e};
    for (size_t i = 0; i < e->run->load_count; i++) {
        placed p[2];
        const int count = forces_of(e, &e->run->loads[i], p);
        for (int n = 0; n < count; n++) {
            const double force = force_of(e, p[n].force[axis]);
            add(&s, "#", &force, 1, force);
        }
    }
    const double weight[] = {weight_of(e), g_of(e, axis)};
    add(&s, "# × #", weight, 2, weight[0] * weight[1]);
    return end_sum(&s, steps[axis], "sum of the loads, and W g of all weight", e->c.force);
}

static double load_moment(const explained *e, int axis)
{
    static const char *const steps[] = {"moment of the loads about x", "moment of the loads about y", "moment of the loads about z"};
    static const char *const formulas[] = {"Σ (y F_z − z F_y) + M_x", "Σ (z F_x − x F_z) + M_y", "Σ (x F_y − y F_x) + M_z"};
    const int j = (axis + 1) % RBOW_AXES, k = (axis + 2) % RBOW_AXES;
    sum s = {.e = e};
    for (size_t i = 0; i < e->run->load_count; i++) {
        const rbow_frame_load *l = &e->run->loads[i];
        placed p[2];
        const int count = forces_of(e, l, p);
        for (int n = 0; n < count; n++) {
            const double v[] = {length_of(e, p[n].at[j]), force_of(e, p[n].force[k]), length_of(e, p[n].at[k]), force_of(e, p[n].force[j])};
            add(&s, "(# × # − # × #)", v, 4, v[0] * v[1] - v[2] * v[3]);
        }
        const double moment = shown_value(&e->c, DIM_MOMENT, l->moment[axis]);
        if (l->acts_on == RBOW_ACTS_ON_JOINT) add(&s, "#", &moment, 1, moment);
    }
    const double *centre = e->answers->runs[0].result.centre;
    const double v[] = {length_of(e, centre[j]), weight_of(e), g_of(e, k), length_of(e, centre[k]), weight_of(e)};
    const double w[] = {v[0], v[1], v[2], v[3], v[4], g_of(e, j)};
    if (fabs(w[2]) > 0) add(&s, "# × # × #", w, 3, w[0] * w[1] * w[2]);
    if (fabs(w[5]) > 0) add(&s, "(−#) × # × #", w + 3, 3, -w[3] * w[4] * w[5]);
    return end_sum(&s, steps[axis], formulas[axis], e->c.moment);
}

/* ---- reactions ------------------------------------------------------------------------------------------ */

static double reaction_sum(const explained *e, int axis)
{
    static const char *const steps[] = {"supports forward", "supports to the left", "supports upward"};
    sum s = {.e = e};
    for (size_t i = 0; i < e->answers->model->joint_count; i++) {
        const double force = force_of(e, e->answers->joints[i].result.react[axis]);
        add(&s, "#", &force, 1, force);
    }
    return end_sum(&s, steps[axis], "sum of what the supports put on the joints", e->c.force);
}

static double reaction_moment(const explained *e, int axis)
{
    static const char *const steps[] = {"moment of the supports about x", "moment of the supports about y", "moment of the supports about z"};
    static const char *const formulas[] = {"Σ (y R_z − z R_y + M_x)", "Σ (z R_x − x R_z + M_y)", "Σ (x R_y − y R_x + M_z)"};
    const int j = (axis + 1) % RBOW_AXES, k = (axis + 2) % RBOW_AXES;
    sum s = {.e = e};
    for (size_t i = 0; i < e->answers->model->joint_count; i++) {
        const double *at = e->answers->model->frame.joints[i].at, *react = e->answers->joints[i].result.react;
        const double v[] = {length_of(e, at[j]), force_of(e, react[k]), length_of(e, at[k]), force_of(e, react[j]),
                            shown_value(&e->c, DIM_MOMENT, react[RBOW_AXES + axis])};
        add(&s, "(# × # − # × # + #)", v, 5, v[0] * v[1] - v[2] * v[3] + v[4]);
    }
    return end_sum(&s, steps[axis], formulas[axis], e->c.moment);
}

/* Given: e->motions, e->axials  of load factor 1 */
static double moved_moment(const explained *e, int axis)
{
    static const char *const steps[] = {"moment of the axial forces on the moved joints about x",
                                        "moment of the axial forces on the moved joints about y",
                                        "moment of the axial forces on the moved joints about z"};
    const frame_model *m = e->answers->model;
    const int j = (axis + 1) % RBOW_AXES, k = (axis + 2) % RBOW_AXES;
    double total = 0;
    for (size_t i = 0; i < m->tube_count; i++) {
        double along[RBOW_AXES], up[RBOW_AXES], right[RBOW_AXES];
        rbow_frame_directions(&m->frame, i, along, up, right);
        const double *a = e->motions[m->frame.tubes[i].from].move, *b = e->motions[m->frame.tubes[i].to].move;
        total += e->axials[i] * (along[j] * (b[k] - a[k]) - along[k] * (b[j] - a[j]));
    }
    total = shown_value(&e->c, DIM_MOMENT, total);
    STEP(&e->c, steps[axis], "Σ P e × (movement of B − movement of A) over all tubes", "by solution", total, e->c.moment,
         "second order: the loads act on the frame as it moves", 0);
    return total;
}

void frame_sum_steps(const explained *e)
{
    static const char *const forces[] = {"what is left forward", "what is left to the left", "what is left upward"};
    static const char *const moments[] = {"what is left about x", "what is left about y", "what is left about z"};
    working_heading(e->c.w, "The run as a whole, load factor 1: forces", "");
    STEP(&e->c, "weight of tubes and joints under 1 g", "W", "#", weight_of(e), e->c.force, "tubes and joints", weight_of(e));
    for (int axis = 0; axis < RBOW_AXES; axis++) {
        const double loads = load_sum(e, axis), supports = reaction_sum(e, axis);
        STEP(&e->c, forces[axis], "loads + supports: 0 in balance", "# + #", loads + supports, e->c.force, statics, loads, supports);
    }
    working_heading(e->c.w, "The run as a whole: moments about the origin, forces at their drawn places", "");
    for (int axis = 0; axis < RBOW_AXES; axis++) {
        const double loads = load_moment(e, axis), supports = reaction_moment(e, axis), moved = moved_moment(e, axis);
        STEP(&e->c, moments[axis], "loads + supports + axial forces on the moved joints: 0 in balance", "# + # + #",
             loads + supports + moved, e->c.moment, statics, loads, supports, moved);
    }
}
