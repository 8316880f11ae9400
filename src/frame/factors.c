/* States are analytic in the load factor up to the end of the path. The path is cut into panels; in each the movements are the
 * polynomial through nine states at Chebyshev's points, and the panel is halved until the polynomial through every other of them
 * meets the rest to `close_enough`, so that the error of the full one is about its square. All tubes are searched in a panel
 * before the next one is solved. Toward an end the panels are even in x, factor = end (1 - exp(-x)): what grows there like a pole
 * or turns like a root is smooth in x.
 * Source: Trefethen, Approximation Theory and Approximation Practice, 2013, ch. 5 (barycentric formula), ch. 8 (convergence). */
#include "frame/factors.h"

#include "frame/element.h"
#include "frame/state.h"
#include "mechanics/root.h"

#include <gsl/gsl_math.h>
#include <string.h>

static const double close_enough = 3e-6;
static const double narrowest = 3e-8; /* of the end: a path is searched this close to it */
static const double clearly_below = 0.95; /* an interval whose ends and curvature stay below this is not divided */

enum { SAMPLES = 9, VALUES = 6 };

/* ---- panels --------------------------------------------------------------------------------------------- */

typedef struct panel { /* in x, at the nodes and as load factor there */
    double from, to, end;
    double node[NODES], factor[NODES];
} panel;

static double factor_of(double x, double end)
{
    return isinf(end) ? x : -end * expm1(-x);
}

static double x_of(double factor, double end)
{
    return isinf(end) ? factor : -log1p(-factor / end);
}

static panel panel_of(double from, double to, double end)
{
    panel p = {.from = from, .to = to, .end = end};
    for (int k = 0; k < NODES; k++) {
        const double x = from + (to - from) * (1 - cos(M_PI * k / (NODES - 1))) / 2;
        p.node[k] = k == 0 ? from : k == NODES - 1 ? to : x;
        p.factor[k] = factor_of(p.node[k], end);
    }
    return p;
}

/* Barycentric weights at x for every `stride`-th node. Where x is a node, the weight of that node alone is 1. */
static void weights_at(const panel *p, double x, int stride, double weight[NODES])
{
    double sum = 0;
    memset(weight, 0, NODES * sizeof *weight);
    for (int k = 0, sign = 1; k < NODES; k += stride, sign = -sign) {
        const double off = x - p->node[k];
        if (!(fabs(off) > 0)) {
            memset(weight, 0, NODES * sizeof *weight);
            weight[k] = 1;
            return;
        }
        weight[k] = sign * (k == 0 || k == NODES - 1 ? 0.5 : 1) / off;
        sum += weight[k];
    }
    for (int k = 0; k < NODES; k += stride) weight[k] /= sum;
}

/* How far the nodes in between lie from the polynomial through every other one, as a share of the largest movement or turn. */
static double roughness(const rbow_frame_solver *s, const panel *p)
{
    double size[2] = {0, 0}, off[2] = {0, 0}, weight[NODES / 2][NODES];
    for (int k = 1; k < NODES; k += 2) weights_at(p, p->node[k], 2, weight[k / 2]);
    for (size_t i = 0; i < s->frame.joint_count * RBOW_MOTIONS; i++) {
        if (s->place[i] < 0) continue;
        const size_t j = (size_t)s->place[i];
        const int kind = i % RBOW_MOTIONS < RBOW_AXES ? 0 : 1;
        for (int k = 0; k < NODES; k++) size[kind] = fmax(size[kind], fabs(row_of(s, k)[j]));
        for (int k = 1; k < NODES; k += 2) {
            double sum = 0;
            for (int m = 0; m < NODES; m += 2) sum += weight[k / 2][m] * row_of(s, m)[j];
            off[kind] = fmax(off[kind], fabs(sum - row_of(s, k)[j]));
        }
    }
    double rough = 0, shortest = INFINITY;
    for (size_t i = 0; i < s->frame.tube_count; i++) shortest = fmin(shortest, s->tubes[i].length);
    size[1] = fmax(size[1], size[0] / shortest); /* a turn counts beside that of a tube's chord */
    for (int kind = 0; kind < 2; kind++)
        if (size[kind] > 0) rough = fmax(rough, off[kind] / size[kind]);
    return rough;
}

/* The states at the nodes. The first one stands in row 0 already.
 * Returned: false where the path has no state at one of them */
static bool fill_panel(frame_path *path, const panel *p)
{
    rbow_frame_solver *s = path->solver;
    for (int k = 1; k < NODES; k++) {
        if (!rbow_frame_path_go(path, p->factor[k])) return false;
        memcpy(row_of(s, k), rbow_frame_path_state(path), s->count * sizeof(double));
    }
    return true;
}

/* ---- a tube along a panel ------------------------------------------------------------------------------- */

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

typedef struct tube_panel { /* a tube at the nodes: axial force, torque, and the slopes at both ends in both planes */
    const rbow_frame_solver *solver;
    const frame_tube *tube;
    const panel *panel;
    double value[NODES][VALUES];
    double resolution, from_factor;
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

static void evaluate_at(const tube_panel *p, double factor, bool places, evaluation *e)
{
    const element_ends still[PLANES] = {{{0}, {0}}, {{0}, {0}}};
    member_loads l = rbow_element_loads(p->solver, p->tube, still, factor);
    double weight[NODES], value[VALUES] = {0};
    weights_at(p->panel, x_of(factor, p->panel->end), 1, weight);
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
    double bent; /* as interaction, also where the tube is in tension */
} sample;

static sample sample_at(const tube_panel *p, double factor)
{
    evaluation e;
    sample s = {factor, {INFINITY, INFINITY, INFINITY}, INFINITY};
    evaluate_at(p, factor, false, &e);
    if (!e.stands) return s;
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

static bool is_open(const tube_panel *p, int which)
{
    return isinf(p->reached->factor[which]);
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

static rbow_status search_tube(rbow_frame_solver *s, size_t index, const panel *panel_, double asked)
{
    tube_panel p = {.solver = s, .tube = &s->tubes[index], .panel = panel_, .resolution = asked / 200, .from_factor = 1.0 / 400,
                    .reached = &s->reached[index]};
    sample at[SAMPLES];
    set_values(&p);
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

static bool all_found(const rbow_frame_solver *s)
{
    for (size_t i = 0; i < s->frame.tube_count; i++)
        for (int k = 0; k < FRAME_LIMITS; k++)
            if (isinf(s->reached[i].factor[k])) return false;
    return true;
}

static rbow_status search_all(rbow_frame_solver *s, const panel *p, double asked)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const rbow_status status = search_tube(s, i, p, asked);
        if (status != RBOW_OK) return status;
    }
    return RBOW_OK;
}

static void nothing_reached(rbow_frame_solver *s)
{
    for (size_t i = 0; i < s->frame.tube_count; i++)
        for (int k = 0; k < FRAME_LIMITS; k++) {
            s->reached[i].factor[k] = INFINITY;
            s->reached[i].at[k] = NAN;
            s->reached[i].last[k] = 0;
        }
}

/* A limit that is within rounding of being reached where the path ends is reached there: a pinned tube on Euler's curve. */
static void reach_at_end(rbow_frame_solver *s, double path_end)
{
    for (size_t i = 0; i < s->frame.tube_count; i++)
        for (int k = 0; k < FRAME_LIMITS; k++)
            if (isinf(s->reached[i].factor[k]) && s->reached[i].last[k] >= 1 - 1e-6) s->reached[i].factor[k] = path_end;
}

/* Toward an end an error in x is one in the load factor that is exp(x) times smaller. */
static double enough_at(double x, double end)
{
    return isinf(end) ? close_enough : fmin(close_enough * exp(x / 2), 1e-3);
}

rbow_status rbow_frame_factors(rbow_frame_solver *s, double path_end, double asked)
{
    const double most = isinf(path_end) ? endless_from : -log(narrowest);
    double from = 0, width = isinf(path_end) ? asked : 1;
    frame_path path;
    nothing_reached(s);
    if (!(path_end > 0)) return RBOW_OK;
    if (!rbow_frame_path_begin(&path, s)) return RBOW_NO_CONVERGENCE;
    memcpy(row_of(s, 0), s->rest, s->count * sizeof(double));
    while (from < most && !all_found(s)) {
        const panel p = panel_of(from, fmin(from + width, most), path_end);
        const bool whole = fill_panel(&path, &p);
        const double rough = whole ? roughness(s, &p) : (double)INFINITY;
        const double enough = enough_at(p.from, path_end);
        if (rough > enough && p.to - p.from > (whole ? 1e-6 : 0.02)) {
            width = (p.to - p.from) / 2;
            rbow_frame_path_from(&path, s, p.factor[0], row_of(s, 0));
            continue;
        }
        if (!whole) break;
        const rbow_status status = search_all(s, &p, asked);
        if (status != RBOW_OK) return status;
        from = p.to;
        memcpy(row_of(s, 0), row_of(s, NODES - 1), s->count * sizeof(double));
        width = rough < enough / 30 ? 2 * (p.to - p.from) : p.to - p.from;
    }
    reach_at_end(s, path_end);
    return RBOW_OK;
}
