#include "engine/peak.h"

#include "engine/waves.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdbool.h>

/* Between loads the square of the size is smooth; its half derivative g = f . f' is watched at nodes close
 * enough that no cell holds more than one turn of g, and each change from rising to falling is refined. */
enum { LAYERS_MOST = 100 };

/* Sizes that differ by less are one tie: the mirror image of a place comes out different by rounding. */
static const double tie = 1e-11;

typedef jet (*jet_function)(const rbow_prepared *, const shares *, const spot *);

typedef struct search {
    const state *state;
    jet_function jet;
    const wave_field *field; /* that serves in place of jet, or NULL */
    double side;             /* a place inside the piece being searched */
    int piece;               /* which it is */
    double square;           /* of the best size so far; below 0 before the first */
    peak best;
} search;

typedef struct node { /* a place, what is there, and the first two derivatives of half the square */
    double xi, rise, curve;
    jet jet;
} node;

/* ---- one place --------------------------------------------------------------------------------------- */

static node node_from(double xi, jet j)
{
    return (node){.xi = xi, .rise = dot(j.f, j.d1), .curve = dot(j.d1, j.d1) + dot(j.f, j.d2), .jet = j};
}

/* As far as a glance needs it. */
static node slope_from(double xi, jet j)
{
    return (node){.xi = xi, .rise = dot(j.f, j.d1), .jet = j};
}

static node node_of(const search *s, const spot *at)
{
    return node_from(at->xi, s->jet(&s->state->prepared, &s->state->shares, at));
}

static node node_at(const search *s, double xi)
{
    const spot at = spot_at(xi, s->side);
    return s->field == NULL ? node_of(s, &at)
                            : node_from(xi, jet_of_field(s->field, half_wave_at(s->field->p, xi), &at));
}

static void offer(search *s, double xi, pair vector)
{
    const double square = dot(vector, vector);
    if (!(square > s->square * (1 + 2 * tie) || s->square < 0)) return;
    s->square = square;
    s->best = (peak){.at = xi, .vector = vector, .piece = s->piece};
}

/* The last step is small enough for Taylor's three terms. */
static void offer_beside(search *s, const node *n, double step)
{
    offer(s, n->xi + step, n->jet.f + step * (n->jet.d1 + step / 2 * n->jet.d2));
}

static peak best_of(const search *s)
{
    peak p = s->best;
    p.size = s->square < 0 ? -1 : sqrt(s->square);
    return p;
}

/* ---- between two places ------------------------------------------------------------------------------ */

/* Newton's steps on g inside a bracket: the derivative comes free with each value, so three or four evaluations
 * do where a bracketing solver takes nine. Measured: with GSL's Brent here a check took 242 us, so 144 us.
 * Where the square is curved upward Newton would go for a place of no moment. */
static void offer_turn(search *s, const node *rising, const node *falling)
{
    double low = rising->xi, high = falling->xi;
    const bool known = rising->rise > 0 && falling->rise < 0 && rising->curve < 0 && falling->curve < 0;
    double xi = known ? low + (high - low) * rising->rise / (rising->rise - falling->rise) : (low + high) / 2;
    for (int i = 0; i < 60; i++) {
        const node n = node_at(s, xi);
        const double step = n.curve < 0 ? -n.rise / n.curve : (double)INFINITY, next = xi + step;
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
    return dot(n->jet.f, n->jet.f);
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

/* ---- one piece --------------------------------------------------------------------------------------- */

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
    const wave_field *field = s->field;
    const half_wave step = half_wave_at(field->p, (p->to - p->from) / (p->count - 1));
    half_wave here = half_wave_at(field->p, p->from);
    node two[2];
    for (int i = 0; i < p->count; i++, here = half_wave_on(field, here, step)) {
        node *right = &two[i % 2];
        *right = node_from(p->spots[i].xi, jet_of_field(field, here, &p->spots[i]));
        if (i > 0) look_between(s, &two[1 - i % 2], right);
        offer(s, right->xi, right->jet.f);
    }
}

/* The cubic through the squares and their slopes at both ends of a cell, at the place where the straight line through
 * the slopes turns: within a hundredth of the top between. */
static void offer_top_of_cubic(search *s, const node *left, const node *right)
{
    const double h = right->xi - left->xi, t = left->rise / (left->rise - right->rise), u = 1 - t;
    const double square = u * u * ((1 + 2 * t) * square_at(left) + 2 * t * h * left->rise)
        + t * t * ((1 + 2 * u) * square_at(right) - 2 * u * h * right->rise);
    if (!(square > s->square)) return;
    s->square = square;
    s->best = (peak){.at = left->xi + t * h, .piece = s->piece};
}

static void glance_at_waves(search *s, const piece *p)
{
    const wave_field *field = s->field;
    const half_wave step = half_wave_at(field->p, (p->to - p->from) / (p->count - 1));
    half_wave here = half_wave_at(field->p, p->from);
    node two[2];
    for (int i = 0; i < p->count; i++, here = half_wave_on(field, here, step)) {
        node *right = &two[i % 2], *left = &two[1 - i % 2];
        *right = slope_from(p->spots[i].xi, jet_of_field(field, here, &p->spots[i]));
        offer(s, right->xi, right->jet.f);
        if (i > 0 && left->rise > 0 && right->rise < 0) offer_top_of_cubic(s, left, right);
    }
}

/* ---- the whole tube ---------------------------------------------------------------------------------- */

static search search_of(const state *s, jet_function of)
{
    return (search){.state = s, .jet = of, .square = -1};
}

static void enter(search *s, const frame *f, int which)
{
    s->piece = which;
    s->side = (f->pieces[which].from + f->pieces[which].to) / 2;
}

/* The largest moments, each piece searched by `waves` where waves serve. */
static void search_moments(const frame *f, const state *s, void (*waves)(search *, const piece *), peak peaks[2])
{
    search look[2] = {search_of(s, jet_of_moment), search_of(s, jet_of_moment)};
    for (int i = 0; i < f->piece_count; i++) {
        search *in = &look[f->pieces[i].zone];
        enter(in, f, i);
        if (field_serves(&s->prepared)) {
            const wave_field field = field_of(&s->prepared, &s->shares, in->side);
            in->field = &field;
            waves(in, &f->pieces[i]);
            in->field = NULL;
        } else {
            search_jets(in, &f->pieces[i]);
        }
    }
    peaks[ZONE_TUBE] = best_of(&look[ZONE_TUBE]);
    peaks[ZONE_WELD] = best_of(&look[ZONE_WELD]);
}

void peak_moments(const frame *f, const state *s, peak peaks[2])
{
    search_moments(f, s, search_waves, peaks);
}

void peak_glance(const frame *f, const state *s, peak peaks[2])
{
    search_moments(f, s, glance_at_waves, peaks);
}

/* Newton's steps, or half way to the end uphill where the square is not yet curved downward. */
static void follow(search *s, const piece *p, double xi)
{
    enum { STEPS_MOST = 20 };
    for (int i = 0; i < STEPS_MOST; i++) {
        const node n = node_at(s, xi);
        const double end = n.rise > 0 ? p->to : p->from;
        const double top = n.curve < 0 ? xi - n.rise / n.curve : (xi + end) / 2;
        const double next = fmin(fmax(top, p->from), p->to);
        const bool near = fabs(next - xi) < 1e-5;
        if (near || i + 1 == STEPS_MOST) {
            offer_beside(s, &n, near ? next - xi : 0);
            return;
        }
        xi = next;
    }
}

void peak_follow(const frame *f, const state *s, peak *p)
{
    search look = search_of(s, jet_of_moment);
    enter(&look, f, p->piece);
    const wave_field field = field_of(&s->prepared, &s->shares, look.side);
    if (field_serves(&s->prepared)) look.field = &field;
    follow(&look, &f->pieces[p->piece], p->at);
    *p = best_of(&look);
}

peak peak_movement(const frame *f, const state *s)
{
    search look = search_of(s, jet_of_movement);
    for (int i = 0; i < f->piece_count; i++) {
        enter(&look, f, i);
        search_jets(&look, &f->pieces[i]);
    }
    return best_of(&look);
}
