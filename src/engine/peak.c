#include "engine/peak.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdbool.h>

/* Between loads the square of the size is smooth; its half derivative g = f . f' is watched at nodes close
 * enough that no cell holds more than one turn of g, and each change from rising to falling is refined.
 * Along a wave of u radians the square turns with 2u, and u is at most 2 pi: nine cells leave at most 1.4 radians
 * of the square to a cell, a quarter of its wave. */
enum { LAYERS_MOST = 100 };

/* Sizes that differ by less are one tie: the mirror image of a place comes out different by rounding. */
static const double tie = 1e-11;

typedef void (*jet_function)(const rbow_prepared *, const rbow_solution[2], int, const spot *, jet *);

typedef struct search {
    const state *state;
    int planes;
    jet_function jet;
    double side; /* a place inside the piece being searched */
    const wave_field *field; /* that serves in place of jet, or NULL */
    peak best;
} search;

typedef struct node { /* a place, what is there, and the first two derivatives of half the square */
    double xi, rise, curve;
    jet jet;
} node;

static node node_from(double xi, const jet *j)
{
    return (node){
        .xi = xi,
        .rise = j->f[0] * j->d1[0] + j->f[1] * j->d1[1],
        .curve = j->d1[0] * j->d1[0] + j->d1[1] * j->d1[1] + j->f[0] * j->d2[0] + j->f[1] * j->d2[1],
        .jet = *j,
    };
}

static node node_of(const search *s, const spot *at)
{
    jet j;
    s->jet(&s->state->prepared, s->state->planes, s->planes, at, &j);
    return node_from(at->xi, &j);
}

static node node_at(const search *s, double xi)
{
    const spot at = spot_at(xi, s->side);
    if (s->field == NULL) return node_of(s, &at);
    jet j;
    const half_wave h = half_wave_at(s->field->p, xi);
    jet_of_field(s->field, &h, &at, &j);
    return node_from(xi, &j);
}

static void offer(search *s, double xi, double up, double right)
{
    const double size = sqrt(up * up + right * right);
    if (size > s->best.size * (1 + tie) || s->best.size < 0)
        s->best = (peak){.size = size, .at = xi, .vector = {up, right}};
}

/* The last step is small enough for Taylor's three terms. */
static void offer_beside(search *s, const node *n, double step)
{
    const jet *j = &n->jet;
    offer(s, n->xi + step, j->f[0] + step * (j->d1[0] + step / 2 * j->d2[0]),
          j->f[1] + step * (j->d1[1] + step / 2 * j->d2[1]));
}

/* Newton's steps on g inside a bracket: the derivative comes free with each value, so three or four evaluations
 * do where a bracketing solver takes nine. Measured: with GSL's Brent here a check took 242 us, so 144 us. */
static void offer_turn(search *s, const node *rising, const node *falling)
{
    double low = rising->xi, high = falling->xi;
    const bool known = rising->rise > 0 && falling->rise < 0;
    double xi = known ? low + (high - low) * rising->rise / (rising->rise - falling->rise) : (low + high) / 2;
    for (int i = 0; i < 60; i++) {
        const node n = node_at(s, xi);
        const double step = -n.rise / n.curve, next = xi + step;
        if (n.rise > 0)
            low = xi;
        else
            high = xi;
        if (fabs(step) < 1e-7 || high - low < 1e-15) {
            offer_beside(s, &n, fabs(step) < 1e-7 ? step : 0);
            return;
        }
        xi = next > low && next < high ? next : (low + high) / 2;
    }
    offer_beside(s, rising, 0);
}

/* g rises at one end of a cell and falls at the other without a change of sign: it turns inside, perhaps past
 * zero and back. Its turn is where its own derivative changes sign. */
static void look_inside(search *s, const node *left, const node *right)
{
    node low = *left, high = *right;
    for (int i = 0; i < 60 && high.xi - low.xi > 1e-12; i++) {
        const node middle = node_at(s, (low.xi + high.xi) / 2);
        if (middle.rise * left->rise < 0) {
            if (left->rise > 0)
                offer_turn(s, left, &middle);
            else
                offer_turn(s, &middle, right);
            return;
        }
        if (middle.curve * low.curve > 0)
            low = middle;
        else
            high = middle;
    }
}

static double square_at(const node *n)
{
    return n->jet.f[0] * n->jet.f[0] + n->jet.f[1] * n->jet.f[1];
}

/* Next to a held or pinned end the size is 0 but for rounding, and so is its rise, whose sign then means nothing:
 * the size rises away from such an end. */
static void look_between(search *s, const node *left, const node *right)
{
    const bool starts = square_at(left) < 1e-18 * square_at(right), ends = square_at(right) < 1e-18 * square_at(left);
    const bool rises = starts || left->rise > 0, falls = ends || right->rise < 0;
    if (rises && falls)
        offer_turn(s, left, right);
    else if (!starts && !ends && left->rise * right->rise > 0 && left->rise * left->curve < 0
             && right->rise * right->curve > 0)
        look_inside(s, left, right);
}

static void look_on(search *s, node *left, const node *right)
{
    look_between(s, left, right);
    offer_beside(s, right, 0);
    *left = *right;
}

/* Under tension waves die away from a load or an end, perhaps within less than a cell: the first and the last cell
 * are cut finer toward the piece's end. */
static void look_through_layers(search *s, node *left, double end, double span, bool inward)
{
    double near[LAYERS_MOST];
    int layers = 0;
    for (double d = 0.25 / s->state->prepared.wave; d < span && layers < LAYERS_MOST; d *= 1.5) near[layers++] = d;
    for (int i = 0; i < layers; i++) {
        const node right = node_at(s, inward ? end + near[i] : end - near[layers - 1 - i]);
        look_on(s, left, &right);
    }
}

static void search_jets(search *s, const piece *p)
{
    const bool layers = s->state->prepared.tension != 0;
    const double cell = (p->to - p->from) / (p->count - 1), most = p->count > 2 ? cell : cell / 2;
    node left = node_of(s, &p->spots[0]);
    offer_beside(s, &left, 0);
    for (int i = 1; i < p->count; i++) {
        if (layers && i == 1) look_through_layers(s, &left, p->from, most, true);
        if (layers && i + 1 == p->count) look_through_layers(s, &left, p->to, most, false);
        const node right = node_of(s, &p->spots[i]);
        look_on(s, &left, &right);
    }
}

/* The places of a piece are evenly spaced: one sine and cosine for the first and one for the step serve them all. */
static void search_waves(search *s, const piece *p)
{
    const rbow_prepared *b = &s->state->prepared;
    const wave_field field = field_of(b, s->state->planes, s->planes, s->side);
    const half_wave step = half_wave_at(b, (p->to - p->from) / (p->count - 1));
    half_wave here = half_wave_at(b, p->from);
    node left;
    jet j;
    s->field = &field;
    for (int i = 0; i < p->count; i++, here = half_wave_on(b, here, step)) {
        jet_of_field(&field, &here, &p->spots[i], &j);
        const node right = node_from(p->spots[i].xi, &j);
        if (i > 0)
            look_on(s, &left, &right);
        else
            offer_beside(s, &right, 0);
        left = right;
    }
    s->field = NULL;
}

static void search_piece(search *s, const piece *p)
{
    s->side = (p->from + p->to) / 2;
    if (s->jet == jet_of_moment && field_serves(&s->state->prepared))
        search_waves(s, p);
    else
        search_jets(s, p);
}

void peak_moments(const frame *f, const state *s, peak peaks[2])
{
    for (int which = ZONE_TUBE; which <= ZONE_WELD; which++) {
        search look = {.state = s, .planes = f->planes, .jet = jet_of_moment, .best = {.size = -1}};
        for (int i = 0; i < f->piece_count; i++)
            if (f->pieces[i].zone == which) search_piece(&look, &f->pieces[i]);
        peaks[which] = look.best;
    }
}

peak peak_movement(const frame *f, const state *s)
{
    search look = {.state = s, .planes = f->planes, .jet = jet_of_movement, .best = {.size = -1}};
    for (int i = 0; i < f->piece_count; i++) search_piece(&look, &f->pieces[i]);
    return look.best;
}
