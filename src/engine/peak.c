#include "engine/peak.h"

#include "engine/root.h"

#include <math.h>

/* Between loads the square of the size is smooth; its half derivative g = f . f' is watched at nodes close
 * enough that no cell holds more than one turn of g, and each change from rising to falling is refined.
 * The quickest wave in the square has half-wave 1/4 of the length (P = 4 P_E): 32 cells are eight to one. */
enum { CELLS = 32, NODES_MOST = CELLS + 160 };

/* Sizes that differ by less are one tie: the mirror image of a place comes out different by rounding. */
static const double tie = 1e-11;

typedef void (*jet_function)(const rbow_prepared *, const rbow_solution[2], double, double, jet *);

typedef struct search {
    const state *state;
    jet_function jet;
    double side; /* a place inside the piece being searched */
    peak best;
} search;

static double slope_of_square(const jet *j)
{
    return j->f[0] * j->d1[0] + j->f[1] * j->d1[1];
}

static double curve_of_square(const jet *j)
{
    return j->d1[0] * j->d1[0] + j->d1[1] * j->d1[1] + j->f[0] * j->d2[0] + j->f[1] * j->d2[1];
}

static double slope_at(double xi, void *context)
{
    const search *s = context;
    jet j;
    s->jet(&s->state->prepared, s->state->planes, xi, s->side, &j);
    return slope_of_square(&j);
}

static double curve_at(double xi, void *context)
{
    const search *s = context;
    jet j;
    s->jet(&s->state->prepared, s->state->planes, xi, s->side, &j);
    return curve_of_square(&j);
}

static void offer(search *s, double xi, const jet *j)
{
    const double size = hypot(j->f[0], j->f[1]);
    if (size > s->best.size * (1 + tie) || s->best.size < 0)
        s->best = (peak){.size = size, .at = xi, .vector = {j->f[0], j->f[1]}};
}

static void offer_at(search *s, double xi)
{
    jet j;
    s->jet(&s->state->prepared, s->state->planes, xi, s->side, &j);
    offer(s, xi, &j);
}

static void offer_turn(search *s, double low, double high)
{
    double xi;
    if (root_between(slope_at, s, low, high, 0, &xi) == RBOW_OK) offer_at(s, xi);
}

/* Rising at both ends of a cell, yet falling inside (or the reverse): g turns there, perhaps past zero. */
static void look_inside(search *s, double low, double high, double rising)
{
    double turn;
    if (root_between(curve_at, s, low, high, 0, &turn) != RBOW_OK) return;
    if (!(slope_at(turn, s) * rising < 0)) return;
    if (rising > 0)
        offer_turn(s, low, turn);
    else
        offer_turn(s, turn, high);
}

static int nodes_of(const state *s, const piece *p, double nodes[NODES_MOST])
{
    const double span = p->to - p->from, cell = 1.0 / CELLS;
    const int cells = (int)fmax(2, ceil(span / cell));
    double near[64];
    int layers = 0, count = 0;
    /* waves that die away from a load or an end within less than a cell */
    if (s->prepared.tension)
        for (double d = 0.25 / s->prepared.wave; d < span / cells && layers < 64; d *= 1.5) near[layers++] = d;

    nodes[count++] = p->from;
    for (int i = 0; i < layers; i++) nodes[count++] = p->from + near[i];
    for (int i = 1; i < cells; i++) nodes[count++] = p->from + span * i / cells;
    for (int i = layers - 1; i >= 0; i--) nodes[count++] = p->to - near[i];
    nodes[count++] = p->to;
    return count;
}

static void search_piece(search *s, const piece *p)
{
    double nodes[NODES_MOST];
    const int count = nodes_of(s->state, p, nodes);
    s->side = (p->from + p->to) / 2;

    jet left, right;
    s->jet(&s->state->prepared, s->state->planes, nodes[0], s->side, &left);
    offer(s, nodes[0], &left);
    for (int i = 1; i < count; i++, left = right) {
        s->jet(&s->state->prepared, s->state->planes, nodes[i], s->side, &right);
        const double g0 = slope_of_square(&left), g1 = slope_of_square(&right);
        if (g0 > 0 && g1 < 0)
            offer_turn(s, nodes[i - 1], nodes[i]);
        else if (g0 * g1 > 0 && g0 * curve_of_square(&left) < 0 && g1 * curve_of_square(&right) > 0)
            look_inside(s, nodes[i - 1], nodes[i], g0);
        offer(s, nodes[i], &right);
    }
}

peak peak_moment(const frame *f, const state *s, int which)
{
    search look = {.state = s, .jet = jet_of_moment, .best = {.size = -1}};
    for (int i = 0; i < f->piece_count; i++)
        if (f->pieces[i].zone == which) search_piece(&look, &f->pieces[i]);
    return look.best;
}

peak peak_movement(const frame *f, const state *s)
{
    search look = {.state = s, .jet = jet_of_movement, .best = {.size = -1}};
    for (int i = 0; i < f->piece_count; i++) search_piece(&look, &f->pieces[i]);
    return look.best;
}

peak peak_higher(peak a, peak b)
{
    const double difference = a.size - b.size;
    if (fabs(difference) <= tie * fmax(a.size, b.size)) return a.at <= b.at ? a : b;
    return difference > 0 ? a : b;
}
