#include "engine/peak.h"

#include "engine/wide.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdbool.h>

/* Between loads the square of the size is smooth; its half derivative g = f . f' is watched at nodes close
 * enough that no cell holds more than one turn of g, and each change from rising to falling is refined. */
enum { LAYERS_MOST = 100 };

/* Sizes that differ by less are one tie: the mirror image of a place comes out different by rounding. */
static const double tie = 1e-11;

typedef jet (*jet_function)(const rbow_prepared *, const shares *, const spot *);

typedef jet (*field_function)(const wave_field *, half_wave, const spot *);

typedef struct lit { /* a cell, and the waves at its left end, from where they run to any place in it */
    spot from;
    half_wave here;
} lit;

typedef struct search {
    const state *state;
    jet_function jet;
    field_function of_field;
    const wave_field *field; /* that serves in place of jet, or NULL */
    lit cell;                /* being searched, where waves serve */
    double side;             /* a place inside the piece being searched */
    double bend, more;       /* no second derivative is larger than bend plus `more` of the quantity itself */
    double square, at;       /* of the best size so far; below 0 before the first */
    pair vector;             /* there, where it is a top; else not a number */
} search;

typedef struct node { /* a place, the square there, and the first two derivatives of its half */
    double xi, square, rise, curve;
} node;

/* ---- one place --------------------------------------------------------------------------------------- */

static double larger(double a, double b)
{
    return a > b ? a : b;
}

static node node_from(double xi, const jet *j)
{
    return (node){xi, dot(j->f, j->f), dot(j->f, j->d1), dot(j->d1, j->d1) + dot(j->f, j->d2)};
}

static jet jet_at(const search *s, double xi)
{
    if (s->field == NULL) {
        const spot at = spot_at(xi, s->side);
        return s->jet(&s->state->prepared, &s->state->shares, &at);
    }
    const lit *c = &s->cell;
    const spot at = spot_beside(&c->from, xi);
    const half_wave way = half_wave_over(s->field->load, xi - c->from.xi);
    return s->of_field(s->field, half_wave_on(s->field->load, c->here, way), &at);
}

static node node_at(const search *s, double xi)
{
    const jet j = jet_at(s, xi);
    return node_from(xi, &j);
}

static node node_of(const search *s, const spot *at)
{
    const jet j = s->jet(&s->state->prepared, &s->state->shares, at);
    return node_from(at->xi, &j);
}

static void offer_vector(search *s, double xi, double square, pair vector)
{
    if (!(square > s->square * (1 + 2 * tie) || s->square < 0)) return;
    s->square = square;
    s->at = xi;
    s->vector = vector;
}

static void offer(search *s, double xi, double square)
{
    offer_vector(s, xi, square, (pair){NAN, NAN});
}

static void offer_node(search *s, const node *n)
{
    offer(s, n->xi, n->square);
}

/* By Taylor's five terms. */
static pair value_beside(const jet *j, double s)
{
    return j->f + s * (j->d1 + s / 2 * (j->d2 + s / 3 * (j->d3 + s / 4 * j->d4)));
}

static node node_beside(double xi, const jet *j, double s)
{
    const pair f = value_beside(j, s);
    const pair d1 = j->d1 + s * (j->d2 + s / 2 * (j->d3 + s / 3 * j->d4)), d2 = j->d2 + s * (j->d3 + s / 2 * j->d4);
    const jet there = {f, d1, d2, j->d3, j->d4};
    return node_from(xi + s, &there);
}

static peak best_of(const search *s)
{
    return (peak){s->square < 0 ? -1 : sqrt(s->square), s->at};
}

/* ---- between two places ------------------------------------------------------------------------------ */

/* Where the cubic through g and its slopes at both ends of a cell is 0, as a share of it: from the straight line, by one
 * of Newton's steps. */
static double first_guess(const node *rising, const node *falling)
{
    const double third = (falling->xi - rising->xi) / 3, a = rising->rise, d = falling->rise;
    const double b = a + third * rising->curve, c = d - third * falling->curve;
    const double t = a / (a - d), u = 1 - t;
    const double g = u * u * (u * a + 3 * t * b) + t * t * (3 * u * c + t * d);
    const double slope = 3 * (u * u * (b - a) + 2 * u * t * (c - b) + t * t * (d - c));
    return t - g / slope;
}

/* The top uphill from a place by Newton's steps, which cost little on its Taylor terms. It is as right as they are while
 * it is near: within 0.003 radians of the shortest wave they leave 1e-14, and the slope 1e-12.
 * Returned: whether it is; else top is where they lead, perhaps nowhere */
static bool top_beside(const search *s, double xi, const jet *j, node *top)
{
    const double reach = 3e-3 / fmax(s->state->prepared.wave, M_PI);
    double step = 0;
    *top = node_from(xi, j);
    for (int i = 0; i < 4; i++) {
        const double more = top->curve < 0 ? -top->rise / top->curve : (double)INFINITY;
        step += more;
        if (!(fabs(step) <= reach)) break;
        *top = node_beside(xi, j, step);
        if (fabs(more) < 1e-3 * reach) return true;
    }
    top->xi = xi + step;
    return false;
}

/* Where the square is curved upward Newton would go for a place of no moment. */
static void offer_turn(search *s, const node *rising, const node *falling)
{
    double low = rising->xi, high = falling->xi;
    const bool known = rising->rise > 0 && falling->rise < 0 && rising->curve < 0 && falling->curve < 0;
    const double guess = known ? first_guess(rising, falling) : 0.5;
    double xi = low + (high - low) * (guess > 0 && guess < 1 ? guess : 0.5);
    for (int i = 0; i < 60; i++) {
        const jet j = jet_at(s, xi);
        const node here = node_from(xi, &j);
        node top;
        if (top_beside(s, xi, &j, &top) || high - low < 1e-15) {
            const node *best = top.xi > low && top.xi < high ? &top : &here;
            offer_vector(s, best->xi, best->square, value_beside(&j, best->xi - xi));
            return;
        }
        if (here.rise > 0)
            low = xi;
        else
            high = xi;
        xi = top.xi > low && top.xi < high ? top.xi : (low + high) / 2;
    }
    offer_node(s, rising);
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

/* Where the cubic through g and its slopes at both ends of a cell turns. Without an axial load g is that cubic. */
typedef struct turns {
    bool leaves, comes; /* it may change its sign next to the left, to the right end: by its points of control */
    double at[2];       /* shares of the cell, in order where the cubic begins downward; NaN where it does not turn */
} turns;

static turns turns_of(const node *left, const node *right)
{
    const double h = right->xi - left->xi;
    const double near_left = left->rise + h / 3 * left->curve, near_right = right->rise - h / 3 * right->curve;
    turns t = {near_left * left->rise < 0, near_right * right->rise < 0, {NAN, NAN}};
    if (!t.leaves && !t.comes) return t;
    const double c = near_left - left->rise, b = near_right - near_left - c, a = right->rise - near_right - c - 2 * b;
    const double q = -(b + copysign(sqrt(b * b - a * c), b)), one = q / a, other = c / q;
    t.at[0] = fmin(one, other);
    t.at[1] = fmax(one, other);
    return t;
}

/* g has one sign at both ends: it may have the other between. */
static void look_for_two_changes(search *s, const node *left, const node *right)
{
    const turns t = turns_of(left, right);
    for (int i = 0; i < 2; i++) {
        if (!(t.at[i] > 0 && t.at[i] < 1)) continue;
        const node middle = node_at(s, left->xi + t.at[i] * (right->xi - left->xi));
        if (!(middle.rise * left->rise < 0)) continue;
        if (left->rise > 0)
            offer_turn(s, left, &middle);
        else
            offer_turn(s, &middle, right);
        return;
    }
}

/* g falls from above 0 to below: once, or with a second top behind the first. */
static void look_for_change(search *s, const node *left, const node *right)
{
    const turns t = turns_of(left, right);
    if (t.leaves && t.comes && t.at[0] > 0 && t.at[1] < 1) {
        const double span = right->xi - left->xi;
        const node low = node_at(s, left->xi + t.at[0] * span), high = node_at(s, left->xi + t.at[1] * span);
        if (low.rise < 0 && high.rise > 0) {
            offer_turn(s, left, &low);
            offer_turn(s, &high, right);
            return;
        }
    }
    offer_turn(s, left, right);
}

/* At the bottom of a valley, which a symmetric tube has at mid-length, g is 0 but for rounding: the size rises to both
 * sides. */
static bool is_bottom(const node *n)
{
    return fabs(n->rise) <= 1e-12 * n->square && n->curve > 0;
}

/* Next to a held or pinned end the size is 0 but for rounding, and so is its rise, whose sign then means nothing:
 * the size rises away from such an end. */
static void look_between(search *s, const node *left, const node *right)
{
    const bool starts = left->square < 1e-18 * right->square, ends = right->square < 1e-18 * left->square;
    const bool rises = starts || left->rise > 0 || is_bottom(left), falls = ends || right->rise < 0 || is_bottom(right);
    if (rises && falls && (starts || ends))
        offer_turn(s, left, right);
    else if (rises && falls)
        look_for_change(s, left, right);
    else if (starts || ends || !(left->rise * right->rise > 0))
        return;
    else if (left->rise * left->curve < 0 && right->rise * right->curve > 0)
        look_inside(s, left, right);
    else
        look_for_two_changes(s, left, right);
}

/* ---- one piece --------------------------------------------------------------------------------------- */

static void look_on(search *s, node *left, const node *right)
{
    look_between(s, left, right);
    offer_node(s, right);
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

/* Far from its ends a pulled tube moves by almost the same over several cells: what little dies away there turns the size
 * more than once within a cell of the moments, so the movement's are cut to 0.7 radians. */
static int parts_of(const search *s, double cell)
{
    enum { PARTS_MOST = 16 };
    const bool cut = s->jet == jet_of_movement && s->state->prepared.tension;
    return cut ? (int)fmin(fmax(ceil(cell * s->state->prepared.wave / 0.7), 1), PARTS_MOST) : 1;
}

static void search_jets(search *s, const frame *f, const piece *p)
{
    const bool layers = s->state->prepared.tension != 0;
    const double span = p->to - p->from;
    const int parts = parts_of(s, p->cell), cells = (p->count - 1) * parts;
    const double most = cells > 1 ? span / cells : span / 2;
    const spot first = frame_spot(f, p, 0);
    node left = node_of(s, &first);
    offer_node(s, &left);
    for (int i = 1; i <= cells; i++) {
        if (layers && i == 1) look_through_layers(s, &left, p->from, most, true);
        if (layers && i == cells) look_through_layers(s, &left, p->to, most, false);
        const spot at = i % parts == 0 ? frame_spot(f, p, i / parts) : spot_at(p->from + span * i / cells, s->side);
        const node right = node_of(s, &at);
        look_on(s, &left, &right);
    }
}

/* A quantity leaves the straight line through the ends of a cell of width h by h^2/8 of its second derivative at most,
 * so it is nowhere in the cell larger than (size + h^2/8 bend)/(1 - h^2/8 more). */
static bool may_be_best(const search *s, const piece *p, double square)
{
    const double eighth = p->cell * p->cell / 8, most = sqrt(square) + eighth * s->bend;
    return !(most * most <= s->square * (1 - eighth * s->more) * (1 - eighth * s->more));
}

static node node_in(const nodes *n, const frame *f, int i)
{
    return (node){f->places.xi[i], n->square[i], n->rise[i], n->curve[i]};
}

typedef struct stretch { /* pieces without a load between: one field holds, a sum of waves */
    const wave_field *field;
    const half_waves *waves;
    nodes nodes;
} stretch;

/* A bit for each of a piece's cells that may hold a top. */
static unsigned turns_on(const stretch *t, const piece *p)
{
    return t->nodes.turns >> p->first & ((1u << (p->count - 1)) - 1);
}

static int first_bit(unsigned bits)
{
    return __builtin_ctz(bits);
}

/* The highest of a piece's places is one of its ends, or beside a top. */
static void offer_places(search *s, const frame *f, const stretch *t, const piece *p)
{
    const double *square = t->nodes.square, *xi = f->places.xi;
    const int last = p->first + p->count - 1;
    offer(s, xi[p->first], square[p->first]);
    for (unsigned bits = turns_on(t, p); bits != 0; bits &= bits - 1) {
        const int left = p->first + first_bit(bits), at = square[left + 1] > square[left] ? left + 1 : left;
        offer(s, xi[at], square[at]);
    }
    offer(s, xi[last], square[last]);
}

static void search_cells(search *s, const frame *f, const stretch *t, const piece *p)
{
    const nodes *n = &t->nodes;
    s->field = t->field;
    for (unsigned bits = turns_on(t, p); bits != 0; bits &= bits - 1) {
        const int cell = first_bit(bits), at = p->first + cell;
        if (!may_be_best(s, p, larger(n->square[at], n->square[at + 1]))) continue;
        const node left = node_in(n, f, at), right = node_in(n, f, at + 1);
        s->cell = (lit){frame_spot(f, p, cell), {t->waves->sine[at], t->waves->cosine[at]}};
        look_between(s, &left, &right);
    }
}

/* Given: look        the search of each zone's pieces; the same for both, or two
 *        first, end  pieces on which the field holds */
static void search_stretch(search *const look[2], const frame *f, const wave_field *field, const half_waves *waves,
                           const piece *first, const piece *end)
{
    const piece *last = end - 1;
    stretch t;
    t.field = field;
    t.waves = waves;
    nodes_at(field, &f->places, waves, first->first, last->first + last->count,
             look[ZONE_TUBE]->of_field == jet_of_field_movement, &t.nodes);
    for (const piece *p = first; p < end; p++) offer_places(look[p->zone], f, &t, p);
    for (const piece *p = first; p < end; p++) search_cells(look[p->zone], f, &t, p);
}

/* ---- the whole tube ---------------------------------------------------------------------------------- */

static double size_of(pair a)
{
    return sqrt(dot(a, a));
}

static search search_for_moment(const state *s)
{
    const rbow_prepared *p = &s->prepared;
    const pair bow = s->shares.of[SHAPE_SINE] * (p->load * (M_PI * M_PI));
    return (search){.state = s, .jet = jet_of_moment, .of_field = jet_of_field, .square = -1,
                    .bend = size_of(s->shares.of[SHAPE_SPREAD]) + size_of(bow), .more = fabs(p->load)};
}

static search search_for_movement(const state *s, double moment)
{
    return (search){.state = s, .jet = jet_of_movement, .of_field = jet_of_field_movement, .square = -1, .bend = moment};
}

/* Stretch by stretch: what acts where one begins joins the waves. */
static void search_on_waves(search *const look[2], const frame *f, const state *s)
{
    const piece *first = f->pieces, *end = first + f->piece_count;
    wave_field field = field_from_a(&s->prepared, &s->shares);
    half_waves waves;
    half_waves_at(s->prepared.load, &f->places, end[-1].first + end[-1].count, &waves);
    for (const piece *p = first; p < end; p++) {
        if (!p->point && !p->kink) continue;
        if (p > first) search_stretch(look, f, &field, &waves, first, p);
        const half_wave there = {waves.sine[p->first], waves.cosine[p->first]};
        if (p->point) take_in(&field, there, p->from, s->shares.of[SHAPE_POINT]);
        if (p->kink) take_in(&field, there, p->from, s->shares.of[SHAPE_KINK]);
        first = p;
    }
    search_stretch(look, f, &field, &waves, first, end);
}

static void search_tube(search *const look[2], const frame *f, const state *s, bool serve)
{
    if (serve) {
        search_on_waves(look, f, s);
        return;
    }
    for (int i = 0; i < f->piece_count; i++) {
        const piece *p = &f->pieces[i];
        look[p->zone]->side = (p->from + p->to) / 2;
        search_jets(look[p->zone], f, p);
    }
}

void peak_moments(const frame *f, const state *s, peak peaks[2])
{
    search tube = search_for_moment(s), weld = tube;
    search_tube((search *[2]){[ZONE_TUBE] = &tube, [ZONE_WELD] = &weld}, f, s, field_serves(&s->prepared));
    peaks[ZONE_TUBE] = best_of(&tube);
    peaks[ZONE_WELD] = best_of(&weld);
}

/* The movement is what is left of the moment, over z: under a slight load the shapes have it more exactly. */
peak peak_movement(const frame *f, const state *s, double moment, pair *movement)
{
    search look = search_for_movement(s, moment);
    const bool serve = field_serves(&s->prepared) && fabs(s->prepared.load) > 0.5;
    search_tube((search *[2]){&look, &look}, f, s, serve);
    *movement = look.vector;
    if (isnan(look.vector[UP])) {
        const spot at = spot_at(look.at, look.at);
        *movement = jet_of_movement(&s->prepared, &s->shares, &at).f;
    }
    return best_of(&look);
}
