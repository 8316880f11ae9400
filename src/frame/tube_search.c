#include "frame/tube_search.h"

#include "frame/element.h"
#include "mechanics/root.h"

#include <gsl/gsl_math.h>
#include <string.h>

static const double clearly_below = 0.95; /* an interval whose ends and curvature stay below this is not divided */

enum { SAMPLES = 9, VALUES = 6 };

static void loads_in(const rbow_frame_solver *s, const frame_tube *t, const double *unknowns, double factor, member_loads *loads)
{
    element_ends ends[PLANES];
    for (int i = 0; i < PLANES; i++) ends[i] = rbow_element_ends(s, t, unknowns, i);
    *loads = rbow_element_loads(s, t, ends, factor);
}

void rbow_frame_evaluate(const rbow_frame_solver *s, const frame_tube *t, const double *unknowns, double factor, bool places,
                         evaluation *out)
{
    member_loads loads;
    loads_in(s, t, unknowns, factor, &loads);
    rbow_evaluate_under(&t->member, rbow_element_axial(s, t, unknowns), rbow_element_torque(s, t, unknowns), &loads, places, out);
}

rbow_section_forces rbow_frame_forces_of(const frame_tube *t, const evaluation *e, double at, place_side side)
{
    return rbow_forces_of(&t->member, &e->solution, e->axial, e->torque, at, side);
}

typedef struct tube_panel { /* a tube at the nodes: axial force, torque, and the slopes at both ends in both planes */
    const rbow_frame_solver *solver;
    const frame_tube *tube;
    const panel *panel;
    double value[NODES][VALUES];
    double resolution, from_factor;
    const frame_follower *follower; /* a place of the tube in place of the tube; NULL */
    frame_reached *reached;
} tube_panel;

static void set_values(tube_panel *p)
{
    for (int k = 0; k < NODES; k++) {
        const double *u = row_of(p->solver, k);
        member_loads l;
        loads_in(p->solver, p->tube, u, p->panel->factor[k], &l);
        const double values[VALUES] = {rbow_element_axial(p->solver, p->tube, u), rbow_element_torque(p->solver, p->tube, u),
                                       l.slope_a[UP], l.slope_b[UP], l.slope_a[RIGHT], l.slope_b[RIGHT]};
        memcpy(p->value[k], values, sizeof values);
    }
}

/* ---- roughness ------------------------------------------------------------------------------------------ */

static bool is_open(const tube_panel *p, int which)
{
    return isinf(p->reached->factor[which]);
}

/* By how much utilisation rises, at most about, per unit of each value. */
static void weights_of(const tube_panel *p, double per_unit[VALUES])
{
    const prepared *m = &p->tube->member;
    double axial = 1 / m->column_load, torque = 0, slope = 0, most = 0;
    for (int k = 0; k < NODES; k++) most = fmax(most, fabs(p->value[k][0]));
    const double couple = 4 + sqrt(most * p->tube->length / m->unit);
    for (int i = 0; i < ZONES; i++) {
        const fibre_factors *f = &m->zones[i].factors;
        const double share = fmax(f->share_pressed, f->share_pulled);
        axial = fmax(axial, f->stress_per_axial * share);
        torque = fmax(torque, f->stress_per_torque * share);
        slope = fmax(slope, couple * f->stress_per_moment * share);
    }
    const double weight = p->follower != NULL ? p->follower->weight : 1;
    const bool bends = is_open(p, FRAME_YIELD) || is_open(p, FRAME_INTERACTION); /* the column asks for the axial force alone */
    for (int i = 0; i < VALUES; i++) per_unit[i] = weight * (i == 0 ? axial : !bends ? 0 : i == 1 ? torque : slope);
}

/* How far the nodes in between lie from the polynomial through every other one, in utilisation of the tube. */
static double roughness(const tube_panel *p)
{
    double weight[NODES], per_unit[VALUES], rough = 0;
    weights_of(p, per_unit);
    for (int k = 1; k < NODES; k += 2) {
        double off = 0;
        rbow_panel_weights(p->panel, p->panel->node[k], 2, weight);
        for (int i = 0; i < VALUES; i++) {
            double sum = -p->value[k][i];
            for (int m = 0; m < NODES; m += 2) sum += weight[m] * p->value[m][i];
            off += fabs(sum) * per_unit[i];
        }
        rough = fmax(rough, off);
    }
    return rough;
}

/* ---- samples -------------------------------------------------------------------------------------------- */

static void evaluate_at(const tube_panel *p, double factor, bool places, evaluation *e)
{
    const element_ends still[PLANES] = {{{0}, {0}}, {{0}, {0}}};
    member_loads l = rbow_element_loads(p->solver, p->tube, still, factor);
    double weight[NODES], value[VALUES] = {0};
    rbow_panel_weights(p->panel, rbow_panel_x(factor, p->panel->end), 1, weight);
    for (int k = 0; k < NODES; k++)
        for (int i = 0; i < VALUES; i++) value[i] += weight[k] * p->value[k][i];
    l.slope_a[UP] = value[2];
    l.slope_b[UP] = value[3];
    l.slope_a[RIGHT] = value[4];
    l.slope_b[RIGHT] = value[5];
    rbow_evaluate_under(&p->tube->member, value[0], value[1], &l, places, e);
}

typedef struct sample {
    double factor;
    double level[FRAME_LIMITS];
    double axial; /* lbf, compression positive */
    double bent;  /* as interaction, also where the tube is in tension */
} sample;

static void follow(const tube_panel *p, const evaluation *e, sample *s)
{
    const frame_follower *f = p->follower;
    const rbow_section_forces forces = rbow_frame_forces_of(p->tube, e, f->at, SIDE_OF_MORE);
    f->levels(f->of, &forces, s->level);
    s->axial = e->axial;
    s->bent = s->level[FRAME_INTERACTION];
    s->level[FRAME_COLUMN] = 0;
}

static sample sample_at(const tube_panel *p, double factor)
{
    evaluation e;
    sample s = {factor, {INFINITY, INFINITY, INFINITY}, INFINITY, INFINITY};
    evaluate_at(p, factor, false, &e);
    if (!e.stands) return s;
    if (p->follower != NULL) {
        follow(p, &e, &s);
        return s;
    }
    s.axial = e.axial;
    s.bent = e.limits[LIMIT_INTERACTION].utilisation;
    s.level[FRAME_YIELD] = e.limits[LIMIT_YIELD].utilisation;
    s.level[FRAME_INTERACTION] = e.axial > 0 ? s.bent : 0;
    s.level[FRAME_COLUMN] = e.axial / p->tube->member.column_load;
    return s;
}

/* ---- crossings ------------------------------------------------------------------------------------------ */

typedef struct crossing {
    const tube_panel *panel;
    int which;
} crossing;

static double above_limit(double factor, void *context)
{
    const crossing *c = context;
    const double level = sample_at(c->panel, factor).level[c->which];
    return isinf(level) ? 1 : fmin(level - 1, 1);
}

static void set_crossing(tube_panel *p, int which, const sample *low, const sample *high)
{
    crossing c = {p, which};
    const double above = high->level[which] - 1;
    const bracket b = {low->factor, low->level[which] - 1, high->factor, isinf(above) ? 1 : fmin(above, 1)};
    double factor = high->factor;
    evaluation e;
    if (b.at_high > 0 && rbow_root_between(above_limit, &c, &b, 1e-12, &factor) != RBOW_OK) factor = high->factor;
    p->reached->factor[which] = factor;
    p->reached->at[which] = NAN;
    if (which == FRAME_COLUMN) return;
    evaluate_at(p, factor, true, &e);
    if (e.stands) p->reached->at[which] = (e.limits[which].at + 0.5) * p->tube->length;
}

static double bent_above(double factor, void *context)
{
    return fmin(sample_at(context, factor).bent - 1, 1);
}

/* Interaction is reached, and left again as the tube goes from compression to tension, between two samples.
 * Returned: whether; high  a sample where it is reached */
static bool is_reached_between(tube_panel *p, const sample *low, sample *high)
{
    const bracket b = {low->factor, low->bent - 1, high->factor, fmin(high->bent - 1, 1)};
    double factor;
    if (!(low->axial > 0 && low->bent < 1 && high->bent > 1 && high->level[FRAME_INTERACTION] < 1)) return false;
    if (rbow_root_between(bent_above, p, &b, 1e-12, &factor) != RBOW_OK) return false;
    *high = sample_at(p, factor * (1 + 1e-10));
    return high->level[FRAME_INTERACTION] >= 1;
}

static bool may_cross(const tube_panel *p, const sample *a, const sample *b, double slack)
{
    const double yield = fmax(a->level[FRAME_YIELD], b->level[FRAME_YIELD]), bent = fmax(a->bent, b->bent);
    const double column = fmax(a->level[FRAME_COLUMN], b->level[FRAME_COLUMN]);
    return (is_open(p, FRAME_YIELD) && !(yield + slack < clearly_below))
        || (is_open(p, FRAME_INTERACTION) && !(bent + slack < clearly_below))
        || (is_open(p, FRAME_COLUMN) && !(column + slack < clearly_below));
}

/* From a to b, dividing where a limit may be crossed, down to the resolution. */
static void search(tube_panel *p, const sample *a, const sample *b, double slack)
{
    if (!may_cross(p, a, b, slack)) return;
    if (b->factor - a->factor > fmax(p->resolution, p->from_factor * b->factor)) {
        const sample middle = sample_at(p, a->factor + (b->factor - a->factor) / 2);
        search(p, a, &middle, slack / 4);
        search(p, &middle, b, slack / 4);
        return;
    }
    for (int i = 0; i < FRAME_LIMITS; i++)
        if (is_open(p, i) && !(b->level[i] < 1)) set_crossing(p, i, a, b);
    sample between = *b;
    if (is_open(p, FRAME_INTERACTION) && is_reached_between(p, a, &between)) set_crossing(p, FRAME_INTERACTION, a, &between);
}

/* Four times the largest second difference of the samples, more than any utilisation rises between two of them where they show its
 * curvature. */
static double slack_of(const sample s[SAMPLES])
{
    double most = 0;
    for (int i = 1; i + 1 < SAMPLES; i++) {
        for (int k = 0; k < FRAME_LIMITS; k++)
            most = fmax(most, fabs(s[i - 1].level[k] - 2 * s[i].level[k] + s[i + 1].level[k]));
        most = fmax(most, fabs(s[i - 1].bent - 2 * s[i].bent + s[i + 1].bent));
    }
    return 4 * most;
}

static tube_panel tube_panel_of(rbow_frame_solver *s, size_t index, const panel *panel_, double asked)
{
    frame_follower *follower = index < s->frame.tube_count ? NULL : &s->followers[index - s->frame.tube_count];
    tube_panel p = {.solver = s, .tube = &s->tubes[follower != NULL ? follower->tube : index], .panel = panel_, .resolution = asked / 200,
                    .from_factor = 1.0 / 400, .follower = follower,
                    .reached = follower != NULL ? &follower->reached : &s->reached[index]};
    set_values(&p);
    return p;
}

rbow_status rbow_frame_search_tube(rbow_frame_solver *s, size_t index, const panel *panel_, double asked)
{
    tube_panel p = tube_panel_of(s, index, panel_, asked);
    sample at[SAMPLES];
    for (int i = 0; i < SAMPLES; i++) {
        at[i] = sample_at(&p, panel_->factor[0] + (panel_->factor[NODES - 1] - panel_->factor[0]) * i / (SAMPLES - 1));
        if (isnan(at[i].level[FRAME_YIELD]) || isnan(at[i].bent)) return RBOW_STRESS_OVERFLOW;
    }
    if (!(panel_->from > 0))
        for (int i = 0; i < FRAME_LIMITS; i++)
            if (!(at[0].level[i] < 1)) set_crossing(&p, i, &at[0], &at[0]);
    memcpy(p.reached->last, at[SAMPLES - 1].level, sizeof p.reached->last);
    const double slack = slack_of(at);
    for (int i = 0; i + 1 < SAMPLES; i++) search(&p, &at[i], &at[i + 1], slack);
    return RBOW_OK;
}

double rbow_frame_roughness(rbow_frame_solver *s, size_t index, const panel *panel_)
{
    const tube_panel p = tube_panel_of(s, index, panel_, 0);
    return roughness(&p);
}
