#include "detail/cycle.h"

#include "detail/net_section.h"
#include "mechanics/no_result.h"
#include "mechanics/restraint.h"

#include <gsl/gsl_math.h>

RESULT_WITH_WHOLE(rbow_life_cycle, remarks, 2);

/* The section that counts: stresses of its fibres and its shear. */
typedef enum spot { ROUND, NET, RING, ROSETTES } spot;

static spot spot_of(const detail_model *m)
{
    if (rbow_detail_has_rosettes(m)) return ROSETTES;
    if (rbow_detail_has_ring(m)) return RING;
    return m->detail.kind == RBOW_DETAIL_HOLE ? NET : ROUND;
}

static const rbow_section *round_of(const detail_model *m)
{
    return &m->metal.section;
}

/* Largest direct stress of any fibre, either sign, psi. */
static double largest_direct(const detail_model *m, const rbow_section_forces *f)
{
    const double moment = hypot(f->moment_up, f->moment_right);
    switch (spot_of(m)) {
        case NET: {
            const net_stress s = rbow_net_stress(&m->net, f, m->detail.hole_clock);
            return fmax(fabs(s.most), fabs(s.least));
        }
        case RING: return rbow_ring_direct(m, fabs(f->axial), moment);
        case ROSETTES: return 0;
        case ROUND: break;
    }
    return fabs(f->axial) / round_of(m)->area + moment / round_of(m)->section_modulus;
}

/* Shear, psi, >= 0. */
static double shear_of(const detail_model *m, const rbow_section_forces *f)
{
    switch (spot_of(m)) {
        case NET: return fabs(f->torque) * rbow_net_shear_per_torque(&m->net);
        case RING: return rbow_ring_shear(m, f->torque, hypot(f->shear_up, f->shear_right));
        case ROSETTES: return rbow_rosette_force(m, f->axial, f->torque) / rbow_rosette_area(m);
        case ROUND: break;
    }
    return fabs(f->torque) * round_of(m)->od / 2 / round_of(m)->polar_inertia;
}

static double mises_of(const detail_model *m, const rbow_section_forces *f)
{
    return hypot(largest_direct(m, f), sqrt(3.0) * shear_of(m, f));
}

static rbow_section_forces combined(const rbow_section_forces *a, const rbow_section_forces *b, double of_a, double of_b)
{
    return (rbow_section_forces){
        of_a * a->axial + of_b * b->axial, of_a * a->moment_up + of_b * b->moment_up, of_a * a->moment_right + of_b * b->moment_right,
        of_a * a->torque + of_b * b->torque, of_a * a->shear_up + of_b * b->shear_up, of_a * a->shear_right + of_b * b->shear_right,
    };
}

/* ---- fibres ------------------------------------------------------------------------------------------------ */

typedef struct swing { /* of one detail between two states: amplitude and mean */
    const detail_model *model;
    const rbow_sn_curve *curve;
    rbow_section_forces amplitude, mean;
    double shear_amplitude, shear_mean;
} swing;

typedef struct fibre { /* a point of the outline: its clock; the clock of the hole's axis */
    double clock, axis;
} fibre;

/* Of a hole the fibre beside it is its corner. */
static double stress_at(const swing *s, const rbow_section_forces *f, fibre at)
{
    const detail_model *m = s->model;
    const double along = cos(at.clock), across = sin(at.clock), moment = f->moment_up * along + f->moment_right * across;
    if (spot_of(m) == RING) return rbow_ring_direct(m, -f->axial, moment);
    if (spot_of(m) == ROUND) return -f->axial / round_of(m)->area + moment / round_of(m)->section_modulus;
    const rbow_net_section *n = &m->net;
    const double u = n->radius * cos(at.clock - at.axis), y = n->radius * sin(at.clock - at.axis);
    net_point point = {u, y};
    if (fabs(y) < n->half && (u > 0 || !rbow_net_is_one_wall(n))) point = (net_point){copysign(n->edge, u), copysign(n->half, y)};
    return rbow_net_stress_at(n, f, at.axis, point);
}

typedef struct fibre_swing { /* psi */
    double most, range, equivalent;
} fibre_swing;

static fibre_swing swing_at(const swing *s, fibre at)
{
    const double amplitude = hypot(stress_at(s, &s->amplitude, at), sqrt(3.0) * s->shear_amplitude);
    const double direct = stress_at(s, &s->mean, at), shear = sqrt(3.0) * s->shear_mean;
    const double mean = direct < 0 ? shear + direct : hypot(direct, shear), most = mean + amplitude;
    const bool harms = most > 0 && amplitude > 0;
    return (fibre_swing){most, 2 * amplitude, harms ? rbow_equivalent_stress(s->curve, most, 2 * amplitude) : 0};
}

/* What is looked for: of metal the largest S_eq, of welds the largest range. Among fibres without harm, the largest stress. */
static double rank_of(const swing *s, fibre at)
{
    const fibre_swing f = swing_at(s, at);
    if (s->curve->kind == RBOW_SN_WELD) return f.range;
    return f.equivalent > 0 ? f.equivalent : fmin(f.most, 0);
}

typedef struct ranked {
    fibre at;
    double rank;
} ranked;

static ranked ranked_at(const swing *s, double clock, double axis)
{
    const fibre at = {clock, axis};
    return (ranked){at, rank_of(s, at)};
}

static ranked better(ranked a, ranked b)
{
    return b.rank > a.rank ? b : a;
}

/* The best place near one, by golden sections. Given: turns  the hole's axis turns with the fibre */
static ranked best_near(const swing *s, ranked middle, double reach, bool turns)
{
    static const double cut = 0.61803398874989485;
    double low = -reach, high = reach;
    ranked best = middle;
    for (int i = 0; i < 30; i++) {
        const double a = high - cut * (high - low), b = low + cut * (high - low);
        const ranked at_a = ranked_at(s, middle.at.clock + a, middle.at.axis + (turns ? a : 0));
        const ranked at_b = ranked_at(s, middle.at.clock + b, middle.at.axis + (turns ? b : 0));
        best = better(best, better(at_a, at_b));
        if (at_a.rank >= at_b.rank) high = b;
        else low = a;
    }
    return best;
}

enum { AROUND = 60 };

/* The best of fibres evenly round the tube, every one that stands above its neighbours refined. Given: offset  of the fibre from the
 * clock that goes round, with the hole's axis at that clock (turns), or at `axis` */
static ranked best_around(const swing *s, double offset, double axis, bool turns)
{
    ranked at[AROUND], best = {{axis, axis}, -INFINITY};
    for (int i = 0; i < AROUND; i++) {
        const double clock = axis + 2 * M_PI * i / AROUND;
        at[i] = ranked_at(s, clock + offset, turns ? clock : axis);
        best = better(best, at[i]);
    }
    const double close = best.rank - 0.03 * fabs(best.rank);
    for (int i = 0; i < AROUND; i++) {
        const bool stands_out = at[i].rank >= at[(i + 1) % AROUND].rank && at[i].rank >= at[(i + AROUND - 1) % AROUND].rank;
        if (stands_out && at[i].rank >= close) best = better(best, best_near(s, at[i], 2 * M_PI / AROUND, turns));
    }
    return best;
}

/* All fibres; with a hole of unknown direction, its corners and the fibre opposite to it, in all directions: there the stress is
 * largest (net_section.c). */
static fibre worst_fibre(const swing *s)
{
    const detail_model *m = s->model;
    const bool is_net = spot_of(m) == NET, turns = is_net && end_is(m->detail.hole_clock, RBOW_ANY_CLOCK);
    const double axis = is_net && !turns ? m->detail.hole_clock : 0, corner = 1e-9;
    ranked worst = best_around(s, turns ? M_PI : 0, axis, turns);
    if (turns) return better(worst, better(best_around(s, corner, axis, true), best_around(s, -corner, axis, true))).at;
    for (int k = 0; k < 4 && is_net; k++)
        worst = better(worst, ranked_at(s, axis + (k < 2 ? 0 : M_PI) + (k % 2 ? corner : -corner), axis));
    return worst.at;
}

static void tell_fibre(const swing *s, rbow_life_cycle *c)
{
    const fibre_swing f = swing_at(s, worst_fibre(s));
    c->stress_max = f.most;
    if (f.most > 0) c->ratio = 1 - f.range / f.most;
    if (s->curve->kind == RBOW_SN_WELD) return;
    c->range = f.range;
    c->equivalent = f.equivalent;
}

/* Rosettes carry shear alone. */
static void tell_rosettes(const detail_model *m, const rbow_section_forces *low, const rbow_section_forces *high, rbow_life_cycle *c)
{
    c->stress_max = fmax(mises_of(m, low), mises_of(m, high));
    c->ratio = c->stress_max > 0 ? 1 - c->range / c->stress_max : (double)NAN;
}

/* ---- a cycle ----------------------------------------------------------------------------------------------- */

static double yield_of(const detail_model *m)
{
    const bool plain = m->detail.kind == RBOW_DETAIL_PLACE || m->detail.kind == RBOW_DETAIL_HOLE;
    const rbow_strength *s = plain ? &m->metal : &m->welded;
    return fmin(s->compression_yield, s->yield);
}

/* Of the weld, or of a place or hole. */
static rbow_life_cycle own_cycle(const detail_model *m, const rbow_sn_curve *curve, const rbow_section_forces *low,
                                 const rbow_section_forces *high, bool fibres)
{
    const rbow_section_forces change = combined(high, low, 1, -1);
    swing s = {.model = m, .curve = curve, .amplitude = combined(high, low, 0.5, -0.5), .mean = combined(high, low, 0.5, 0.5)};
    s.shear_amplitude = shear_of(m, &s.amplitude);
    s.shear_mean = shear_of(m, &s.mean);
    const double range = mises_of(m, &change), yield = yield_of(m);
    rbow_life_cycle c = {.range = range, .stress_max = NAN, .ratio = NAN, .equivalent = range, .cycles = NAN};
    if (spot_of(m) == ROSETTES) tell_rosettes(m, low, high, &c);
    else if (fibres || curve->kind == RBOW_SN_METAL) tell_fibre(&s, &c);
    if (fmax(mises_of(m, low), mises_of(m, high)) > yield) c.remarks |= RBOW_LIFE_BEYOND_YIELD;
    if (curve->kind == RBOW_SN_METAL && isnan(curve->deviation)) c.remarks |= RBOW_LIFE_MEAN_CURVE;
    if (range > yield || c.range > yield) c.remarks = (c.remarks & ~(unsigned)RBOW_LIFE_BEYOND_YIELD) | RBOW_LIFE_LOW_CYCLE;
    else c.cycles = rbow_cycles_at(curve, c.range, c.equivalent);
    return c;
}

static bool lasts_less(const rbow_life_cycle *a, const rbow_life_cycle *b)
{
    const bool none_a = isnan(a->cycles), none_b = isnan(b->cycles);
    if (none_a != none_b) return none_a;
    if (a->cycles < b->cycles || a->cycles > b->cycles) return a->cycles < b->cycles;
    return a->equivalent > b->equivalent;
}

rbow_life_cycle rbow_worse_cycle(const rbow_life_cycle *a, const rbow_life_cycle *b)
{
    return lasts_less(a, b) ? *a : *b;
}

/* The tube, stub or sleeve at the edge of a weld. */
static detail_model beside_weld(const detail_model *m, const rbow_strength *metal)
{
    detail_model place = *m;
    place.detail.kind = RBOW_DETAIL_PLACE;
    place.metal = *metal;
    return place;
}

/* A weld thicker or wider than the wall hands its load on to the wall, and rosettes carry no moment, which the sleeve does. */
rbow_life_cycle rbow_cycle_between(const detail_model *m, const rbow_sn_curve *curve, const rbow_section_forces *low,
                                   const rbow_section_forces *high, bool fibres)
{
    const bool joins = m->detail.kind == RBOW_DETAIL_SOCKET || rbow_detail_has_rosettes(m);
    const rbow_strength *const metals[] = {rbow_detail_has_ring(m) ? &m->welded : NULL, joins ? &m->other : NULL};
    rbow_life_cycle worst = own_cycle(m, curve, low, high, fibres);
    for (size_t i = 0; i < sizeof metals / sizeof *metals; i++) {
        if (metals[i] == NULL) continue;
        const detail_model place = beside_weld(m, metals[i]);
        const rbow_life_cycle beside = own_cycle(&place, curve, low, high, fibres);
        const unsigned yields = (worst.remarks | beside.remarks) & RBOW_LIFE_BEYOND_YIELD;
        worst = rbow_worse_cycle(&beside, &worst);
        if (!(worst.remarks & RBOW_LIFE_LOW_CYCLE)) worst.remarks |= yields;
    }
    return worst;
}

rbow_status rbow_life_between(const rbow_detail *detail, const rbow_member *member, const rbow_material *material,
                              const rbow_sn_curve *curve, const rbow_section_forces *low, const rbow_section_forces *high,
                              rbow_life_cycle *cycle)
{
    prepared p;
    detail_model m;
    double use[RBOW_DETAIL_MODES];
    NO_RESULT_BEFORE(rbow_life_cycle, cycle, remarks);
    rbow_status status = rbow_detail_use(detail, member, material, low, use);
    if (status == RBOW_OK) status = rbow_detail_use(detail, member, material, high, use);
    if (status == RBOW_OK) status = rbow_detail_prepare(member, material, &p);
    if (status == RBOW_OK) status = rbow_detail_model_of(detail, &p, material, &m);
    if (status == RBOW_OK) status = rbow_sn_fault(curve, &m);
    if (status == RBOW_OK) *cycle = rbow_cycle_between(&m, curve, low, high, true);
    return status;
}
