/* What must hold for every member, tried on seeded random ones that cover every input. */
#include "members.h"

#include <gsl/gsl_errno.h>

static const double pi = 3.14159265358979323846;

enum { MEMBERS = 2000 };

/* The contract's accuracies; deflections and stresses of a tube next to its critical load lose what that multiplies. */
static const double closed = 1e-9, factor = 1e-7;
static const double endless = INFINITY;

static bool is_free(const rbow_member *m)
{
    return m->end_b <= RBOW_FREE && m->end_b >= RBOW_FREE;
}

/* The same of members of which everything is known and kept. */
static void every_concrete_member(uint64_t seed, void (*property)(dice *, const sample *))
{
    dice d = {seed};
    for (int i = 0; i < MEMBERS; i++) {
        const sample any = random_sample(&d), s = taken_of(&any);
        property(&d, &s);
    }
}

static void every_member(uint64_t seed, void (*property)(dice *, const sample *))
{
    dice d = {seed};
    for (int i = 0; i < MEMBERS; i++) {
        const sample s = random_sample(&d);
        property(&d, &s);
    }
}

/* How much less exact a value is that grows as 1/(1 - P/P_cr). */
static double near_critical(const sample *s, const rbow_result *r)
{
    return fmin(1, fabs(1 - r->axial / buckling_load(s)));
}

static void same_margin(const sample *s, const char *what, double got, double want)
{
    sample_near(s, what, got, want, factor, factor);
}

/* Everything that is a plain number, in units of u length and v force. */
static bool is_no_less(double got, double least)
{
    return isinf(got) || got >= least - factor * (1 + fabs(least));
}

static unsigned swapped_fit(unsigned kept)
{
    return (kept & RBOW_FIT_GAP) | (kept & RBOW_FIT_MISS_A ? RBOW_FIT_MISS_B : 0u) | (kept & RBOW_FIT_MISS_B ? RBOW_FIT_MISS_A : 0u);
}

static void same_result(const sample *s, const rbow_result *got, const rbow_result *want, double u, double v)
{
    const double rel = closed / near_critical(s, want), stress = v / (u * u);
    const double bend = want->section.section_modulus * s->material.yield; /* the size of a moment that matters */
    same_margin(s, "margin", got->margin, want->margin);
    same_margin(s, "margin_as_built", got->margin_as_built, want->margin_as_built);
    same_margin(s, "margin_unforced", got->margin_unforced, want->margin_unforced);
    same_margin(s, "margin_best", got->margin_best, want->margin_best);
    sample_holds(s, "the same fit", got->fit_kept == want->fit_kept);
    same_margin(s, "yield_factor", got->yield_factor, want->yield_factor);
    same_margin(s, "column_factor", got->column_factor, want->column_factor);
    same_margin(s, "interaction_factor", got->interaction_factor, want->interaction_factor);
    sample_near(s, "area", got->section.area, want->section.area * u * u, closed, 0);
    sample_near(s, "inertia", got->section.inertia, want->section.inertia * pow(u, 4), closed, 0);
    sample_near(s, "wall_reduction", got->wall_reduction, want->wall_reduction, closed, 0);
    sample_near(s, "critical_load", got->critical_load, want->critical_load * v, closed, 0);
    sample_near(s, "effective_length", got->effective_length, want->effective_length * u, closed, 0);
    sample_near(s, "slenderness", got->slenderness, want->slenderness, closed, 0);
    sample_near(s, "column_stress", got->column_stress, want->column_stress * stress, closed, 0);
    sample_near(s, "column_load", got->column_load, want->column_load * v, closed, 0);
    sample_near(s, "fit_axial", got->fit_axial, want->fit_axial * v, closed, 0);
    sample_near(s, "fit_moment", got->fit_moment, want->fit_moment * v * u, closed, 1e-12 * bend * v * u);
    sample_near(s, "fit_stress", got->fit_stress, want->fit_stress * stress, closed, 1e-12 * s->material.yield * stress);
    sample_near(s, "axial", got->axial, want->axial * v, closed, 1e-12 * want->column_load * v);
    sample_near(s, "peak_moment", got->peak_moment, want->peak_moment * v * u, rel, 1e-12 * bend * v * u);
    sample_near(s, "peak_stress", got->peak_stress, want->peak_stress * stress, rel, 1e-12 * s->material.yield * stress);
    sample_near(s, "stress_use", got->stress_use, want->stress_use, rel, 1e-12);
    sample_near(s, "deflection", got->deflection, want->deflection * u, rel, 1e-13 * s->member.length * u);
    sample_holds(s, "the same remarks", got->remarks == want->remarks);
    sample_holds(s, "the same verdict", got->verdict == want->verdict || fabs(want->margin) < factor);
}

/* ---- units ------------------------------------------------------------------------------------------ */

/* Lengths times k, forces times k^2, stresses as they are: moments and springs k^3, spread loads k, and the weight of a
 * length, density x area, a spread load too: density 1/k. */
static sample scaled(sample s, double k)
{
    rbow_member *m = &s.member;
    s.material.density /= k;
    double *const lengths[] = {&m->od, &m->wall, &m->length, &m->eccentricity, &m->bow, &m->miss_a, &m->miss_b, &m->gap,
                               &m->weld_zone, &m->dressed};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) *lengths[i] *= k;
    if (m->point_at >= 0) m->point_at *= k;
    if (m->bow_at >= 0) m->bow_at *= k;
    if (m->end_a > 0) m->end_a *= k * k * k;
    if (m->end_b > 0) m->end_b *= k * k * k;
    m->compression *= k * k;
    m->point_load *= k * k;
    m->spread_load *= k;
    m->moment_a *= k * k * k;
    m->moment_b *= k * k * k;
    m->torque *= k * k * k;
    m->gap_stiffness *= k;
    return s;
}

static void scale_changes_nothing(dice *d, const sample *s)
{
    const double k = dice_chance(d, 0.3) ? 25.4 : dice_size(d, 1e-3, 1e3);
    const sample other = scaled(*s, k);
    const unsigned size = RBOW_REMARK_SIZE; /* alone knows what an inch is */
    rbow_result one = check_sample(s), two = check_sample(&other);
    one.remarks &= ~size;
    two.remarks &= ~size;
    same_result(s, &two, &one, k, k * k);
    sample_near(s, "weight", two.weight, one.weight * k * k, closed, 0);
}

/* Forces times k at the same lengths: moduli and strengths k as well. */
static void force_unit_changes_nothing(dice *d, const sample *s)
{
    const double k = dice_size(d, 1e-3, 1e3);
    sample other = *s;
    rbow_member *m = &other.member;
    rbow_material *t = &other.material;
    double *const forces[] = {&m->compression, &m->moment_a, &m->moment_b, &m->point_load, &m->spread_load, &m->torque,
                              &m->gap_stiffness, &t->elastic_modulus, &t->shear_modulus, &t->density, &t->yield,
                              &t->compression_yield, &t->weld_yield, &t->column_intercept};
    for (size_t i = 0; i < sizeof forces / sizeof *forces; i++) *forces[i] *= k;
    if (m->end_a > 0) m->end_a *= k;
    if (m->end_b > 0) m->end_b *= k;
    const rbow_result one = check_sample(s), two = check_sample(&other);
    same_result(s, &two, &one, 1, k);
}

/* ---- directions ------------------------------------------------------------------------------------- */

static rbow_member turned(rbow_member m, double by)
{
    double *const clocks[] = {&m.eccentricity_clock, &m.moment_clock, &m.point_clock, &m.spread_clock,
                              &m.bow_clock,          &m.miss_a_clock, &m.miss_b_clock};
    for (size_t i = 0; i < sizeof clocks / sizeof *clocks; i++) *clocks[i] += by;
    return m;
}

static void clocks_turn_together(dice *d, const sample *s)
{
    const double by = dice_between(d, -6, 6);
    sample one = *s, two;
    one.member.vertical_g = 0;
    two = one;
    two.member = turned(one.member, by);
    const rbow_result a = check_sample(&one), b = check_sample(&two);
    same_result(&one, &b, &a, 1, 1);
    if (isnan(a.deflection_clock) || a.deflection < 1e-9 * s->member.length) return;
    const double apart = remainder(b.deflection_clock - a.deflection_clock - by, 2 * pi);
    const double at = fabs(fabs(apart) - pi) < 1e-3 ? fabs(apart) - pi : apart; /* two equal movements, opposite */
    sample_near(&one, "turned deflection_clock", at, 0, 0, 1e-5);
    sample_holds(&one, "a clock of 0 to 2 pi", b.deflection_clock >= 0 && b.deflection_clock <= 2 * pi);
}

/* Turned about by 180 degrees against the sign of every vector: the same case. */
static void signs_are_directions(dice *d, const sample *s)
{
    (void)d;
    sample other = *s;
    rbow_member *m = &other.member;
    m->moment_a = -m->moment_a;
    m->moment_b = -m->moment_b;
    m->moment_clock += pi;
    m->point_load = -m->point_load;
    m->point_clock -= pi;
    m->spread_load = -m->spread_load;
    m->spread_clock += 3 * pi;
    m->torque = -m->torque;
    m->slope = -m->slope;
    const rbow_result a = check_sample(s), b = check_sample(&other);
    same_result(s, &b, &a, 1, 1);
}

static rbow_member swapped(const rbow_member *m)
{
    rbow_member back = *m;
    back.end_a = m->end_b;
    back.end_b = m->end_a;
    back.moment_a = m->moment_b;
    back.moment_b = m->moment_a;
    back.miss_a = m->miss_b;
    back.miss_b = m->miss_a;
    back.miss_a_clock = m->miss_b_clock;
    back.miss_b_clock = m->miss_a_clock;
    if (m->point_at >= 0) back.point_at = m->length - m->point_at;
    if (m->bow_at >= 0) back.bow_at = m->length - m->bow_at;
    return back;
}

static unsigned swapped_remarks(unsigned r)
{
    const unsigned a = RBOW_REMARK_IDLE_MOMENT_A, b = RBOW_REMARK_IDLE_MOMENT_B;
    unsigned back = r & ~(a | b);
    if (r & a) back |= b;
    if (r & b) back |= a;
    return back;
}

static void ends_may_be_swapped(dice *d, const sample *s)
{
    (void)d;
    if (is_free(&s->member)) return;
    const sample other = {swapped(&s->member), s->material};
    const rbow_result a = check_sample(s);
    rbow_result b = check_sample(&other);
    b.remarks = swapped_remarks(b.remarks);
    b.fit_kept = swapped_fit(b.fit_kept);
    same_result(s, &b, &a, 1, 1);
    if (isnan(a.peak_moment) || a.peak_moment < 1e-9 * a.section.section_modulus * s->material.yield) return;
    const double l = s->member.length, mirrored = l - a.peak_moment_at;
    const bool tie = fabs(b.peak_moment_at - a.peak_moment_at) < 1e-5 * l; /* two equal peaks: nearest to A, both times */
    if (!tie) sample_near(s, "mirrored peak_moment_at", b.peak_moment_at, mirrored, 0, 1e-5 * l);
}

/* ---- load factors ----------------------------------------------------------------------------------- */

static double elastic_limit(const sample *s, const rbow_result *r)
{
    const double push = s->member.compression;
    return push > 0 ? (buckling_load(s) - r->fit_axial) / push : endless;
}

static void factors_are_in_order(dice *d, const sample *s)
{
    (void)d;
    const rbow_result r = check_sample(s);
    const rbow_member *m = &s->member;
    const double asked = m->factor_yield > 0 ? m->factor_yield : m->factor;
    const double least = fmin(r.yield_factor / asked, fmin(r.column_factor, r.interaction_factor) / m->factor);
    sample_near(s, "margin", r.margin, least - 1, 1e-12, 1e-12);
    sample_holds(s, "verdict", r.verdict == (r.margin >= 0 ? RBOW_HOLDS : RBOW_SHORT));
    sample_holds(s, "no factor below 0", r.yield_factor >= 0 && r.column_factor >= 0 && r.interaction_factor >= 0);
    sample_holds(s, "interaction within column", r.interaction_factor <= r.column_factor);
    sample_holds(s, "yield within elastic critical", r.yield_factor <= fmax(0, elastic_limit(s, &r)) * (1 + 1e-12));
    const double squash = r.wall_reduction * s->material.compression_yield * r.section.area;
    sample_holds(s, "column_load within squash", r.column_load <= squash * (1 + 1e-12));
    sample_holds(s, "column_load within critical", r.column_load <= r.critical_load * (1 + 1e-12));
    if (m->compression > 0) {
        const double by_hand = fmax(0, (r.column_load - r.fit_axial) / m->compression);
        sample_near(s, "column_factor", r.column_factor, by_hand, 1e-12, 0);
    }
    sample_near(s, "axial", r.axial, m->compression + r.fit_axial, 1e-12, 1e-12 * r.column_load);
}

/* All factors are multiples of the run loads. */
static void loads_divide_factors(dice *d, const sample *s)
{
    const double by = dice_size(d, 0.05, 20);
    const sample other = {with_loads(s->member, by), s->material};
    const rbow_result a = check_sample(s), b = check_sample(&other);
    same_margin(s, "yield_factor", b.yield_factor * by, a.yield_factor);
    same_margin(s, "column_factor", b.column_factor * by, a.column_factor);
    same_margin(s, "interaction_factor", b.interaction_factor * by, a.interaction_factor);
    sample_near(s, "fit_stress", b.fit_stress, a.fit_stress, 1e-12, 0);
    sample_near(s, "fit_moment", b.fit_moment, a.fit_moment, 1e-12, 0);
}

static double use_at(const sample *s, double times)
{
    const sample loaded = {with_loads(s->member, times), s->material};
    const rbow_result r = check_sample(&loaded);
    return isnan(r.stress_use) ? endless : r.stress_use;
}

static bool is_forever_short_of_yield(double yield_factor, double limit)
{
    return !(yield_factor < limit * (1 - 1e-7)); /* stopped by the elastic critical load, or endless */
}

static void yield_is_reached_and_not_before(dice *d, const sample *s)
{
    const rbow_result r = check_sample(s);
    if (!(r.yield_factor > 0) || isinf(r.yield_factor)) return;
    for (int i = 0; i < 8; i++) {
        const double below = i == 0 ? 0.999999 : dice_between(d, 0, 1);
        sample_holds(s, "use below 1 before", use_at(s, below * r.yield_factor) < 1);
    }
    if (is_forever_short_of_yield(r.yield_factor, elastic_limit(s, &r))) return;
    sample_near(s, "use at the yield factor", use_at(s, r.yield_factor), 1, 1e-6, 0);
}

/* Rc + sqrt(Rb^2 + Rst^2) from the answer's own moment; one zone only. */
static double interaction_at(const sample *s, double times, double *axial)
{
    const sample loaded = {with_loads(s->member, times), s->material};
    const rbow_result r = check_sample(&loaded);
    const double bending = r.peak_moment / r.section.section_modulus;
    const double shear = loaded.member.torque * s->member.od / 2 / r.section.polar_inertia;
    *axial = r.axial;
    if (isnan(bending)) return INFINITY;
    return r.axial / r.column_load
        + hypot(bending, sqrt(3.0) * shear) / (r.wall_reduction * s->material.compression_yield);
}

static void interaction_is_reached_and_not_before(dice *d, const sample *s)
{
    sample plain = *s;
    plain.member.weld_zone = 0;
    plain = taken_of(&plain);
    const rbow_result r = check_sample(&plain);
    const double last = r.interaction_factor;
    double axial;
    if (!(last > 0) || isinf(last)) return;
    for (int i = 0; i < 2; i++) {
        const double below = i == 0 ? 0.999999 : dice_between(d, 0, 1);
        const double value = interaction_at(&plain, below * last, &axial);
        if (axial > 0) sample_holds(&plain, "below 1 before", value < 1);
    }
    if (is_forever_short_of_yield(last, elastic_limit(&plain, &r)) || last > r.column_factor * (1 - 1e-7)) return;
    sample_near(&plain, "interaction at its factor", interaction_at(&plain, last, &axial), 1, 1e-6, 0);
}

static void stronger_is_no_worse(dice *d, const sample *s)
{
    sample stronger = *s;
    const double more = dice_between(d, 1, 1.3);
    stronger.material.yield *= more;
    const rbow_result a = check_sample(s), b = check_sample(&stronger);
    const bool forced = a.forced != 0; /* then another state may govern, with another yield_factor */
    sample_holds(s, "more yield", is_no_less(b.margin, a.margin));
    if (!forced) sample_holds(s, "a higher yield_factor", b.yield_factor >= a.yield_factor * (1 - factor));
    stronger.material.compression_yield *= more;
    stronger.material.weld_yield *= more;
    stronger.material.column_intercept *= more;
    if (rbow_member_faults(&stronger.member, &stronger.material, NULL, 0) > 0) return; /* the wall rule is stricter */
    const rbow_result c = check_sample(&stronger);
    sample_holds(s, "more of all yields", is_no_less(c.margin, b.margin));
    if (!forced) sample_holds(s, "with a higher yield_factor", c.yield_factor >= b.yield_factor * (1 - factor));
}

static void asking_more_leaves_less(dice *d, const sample *s)
{
    sample more = *s;
    const double by = dice_between(d, 1, 2);
    more.member.factor *= by;
    if (more.member.factor_yield > 0) more.member.factor_yield *= by;
    const rbow_result a = check_sample(s), b = check_sample(&more);
    sample_holds(s, "a larger factor", b.margin <= a.margin);
    sample_near(s, "margin", (b.margin + 1) * by, a.margin + 1, 1e-12, 0);
    sample_near(s, "yield_factor", b.yield_factor, a.yield_factor, 1e-14, 0);
}

/* ---- the forced fit --------------------------------------------------------------------------------- */

static void unforced_is_the_case_without(dice *d, const sample *s)
{
    (void)d;
    sample without = *s;
    without.member.miss_a = without.member.miss_b = without.member.gap = 0;
    const rbow_result a = check_sample(s), b = check_sample(&without);
    same_margin(s, "margin_unforced", a.margin_unforced, b.margin);
    sample_near(s, "its own", b.margin_unforced, b.margin, 1e-14, 0);
    sample_near(s, "no fit", b.fit_axial, 0, 0, 0);
    sample_near(s, "column_load", a.column_load, b.column_load, 1e-14, 0);
}

static void fit_stands_alone(dice *d, const sample *s)
{
    (void)d;
    sample still = *s;
    still.member = with_loads(s->member, 0);
    const rbow_result a = check_sample(s), b = check_sample(&still);
    sample_near(s, "fit_stress", b.fit_stress, a.fit_stress, 1e-12, 0);
    sample_near(s, "fit_moment", b.fit_moment, a.fit_moment, 1e-12, 0);
    sample_near(s, "fit_axial", b.fit_axial, a.fit_axial, 1e-12, 0);
    sample_near(s, "stress as it stands", b.peak_stress, b.fit_stress, 1e-12, 0);
    sample_near(s, "moment as it stands", b.peak_moment, b.fit_moment, 1e-12, 0);
    const bool set = (b.remarks & RBOW_REMARK_SET) != 0, buckled = isnan(b.fit_stress);
    sample_holds(s, "set", set == (b.stress_use >= 1));
    sample_near(s, "yield_factor", b.yield_factor, set || buckled ? 0 : endless, 0, 0);
}

/* ---- peaks against a scan --------------------------------------------------------------------------- */

typedef struct scan {
    rbow_prepared prepared;
    rbow_solution up, right;
    double moment, moment_at, deflection, use;
} scan;

static double stiffness_of(const sample *s, double end, double bending_stiffness)
{
    double k;
    if (end <= RBOW_FREE && end >= RBOW_FREE) return RBOW_FREE;
    ck_assert_int_eq(rbow_end_stiffness(end, bending_stiffness, s->member.length, &k), RBOW_OK);
    return k;
}

static rbow_loading plane_of(const sample *s, const rbow_result *r, double shift)
{
    const rbow_member *m = &s->member;
    const bool free_b = is_free(m);
    const double offset = m->compression * m->eccentricity * cos(m->eccentricity_clock - shift);
    const double gravity = r->weight / m->length * m->vertical_g * cos(m->slope) * cos(pi - shift);
    const bool idle = m->point_at >= 0 && (m->point_at <= 0 || (m->point_at >= m->length && !free_b));
    return (rbow_loading){
        .moment_a = m->moment_a * cos(m->moment_clock - shift) + (free_b ? 0 : offset),
        .moment_b = m->moment_b * cos(m->moment_clock - shift) + offset,
        .point_load = idle ? 0 : m->point_load * cos(m->point_clock - shift),
        .spread_load = m->spread_load * cos(m->spread_clock - shift) + gravity,
        .bow = m->bow * cos(m->bow_clock - shift),
        .slope_a = m->miss_a / m->length * cos(m->miss_a_clock - shift),
        .slope_b = m->miss_b / m->length * cos(m->miss_b_clock - shift),
    };
}

static double use_of(const sample *s, const rbow_result *r, double x, double moment)
{
    const rbow_member *m = &s->member;
    const bool weld = m->weld_zone > 0 && (x < m->weld_zone || (!is_free(m) && x > m->length - m->weld_zone));
    rbow_section z = r->section;
    double q = r->wall_reduction, pressed = s->material.compression_yield, pulled = s->material.yield;
    if (weld) {
        ck_assert_int_eq(rbow_section_of(m->od - 2 * m->dressed, m->wall - m->dressed, &z), RBOW_OK);
        pressed = pulled = s->material.weld_yield;
        ck_assert_int_eq(rbow_wall_reduction(z.diameter_to_wall, s->material.elastic_modulus, pressed, &q), RBOW_OK);
    }
    const double axial = r->axial / z.area, bending = moment / z.section_modulus, tau = m->torque * z.od / 2 / z.polar_inertia;
    const double push = sqrt(pow(fmax(0, axial + bending), 2) + 3 * tau * tau) / (q * pressed);
    const double pull = sqrt(pow(fmax(0, bending - axial), 2) + 3 * tau * tau) / pulled;
    return fmax(push, pull);
}

static bool prepare(const sample *s, const rbow_result *r, scan *c)
{
    const rbow_member *m = &s->member;
    const double ei = s->material.elastic_modulus * r->section.inertia;
    const rbow_beam b = {.bending_stiffness = ei,
                         .length = m->length,
                         .compression = r->axial,
                         .critical_load = buckling_load(s),
                         .stiffness_a = stiffness_of(s, m->end_a, ei),
                         .stiffness_b = stiffness_of(s, m->end_b, ei),
                         .point_at = m->point_at >= 0 ? m->point_at : m->length / 2,
                         .bow_at = m->bow_at > 0 ? m->bow_at : m->length / 2,
                         .bow_shape = (rbow_bow_shape)m->bow_shape};
    if (rbow_beam_prepare(&b, &c->prepared) != RBOW_OK) return false;
    const rbow_loading up = plane_of(s, r, 0), right = plane_of(s, r, pi / 2);
    rbow_beam_solve(&c->prepared, &up, &c->up);
    rbow_beam_solve(&c->prepared, &right, &c->right);
    return true;
}

static void look_at(const sample *s, const rbow_result *r, scan *c, double x)
{
    rbow_station up, right;
    rbow_beam_at(&c->prepared, &c->up, x, &up);
    rbow_beam_at(&c->prepared, &c->right, x, &right);
    const double moment = hypot(up.moment, right.moment);
    if (moment > c->moment) c->moment_at = x;
    c->moment = fmax(c->moment, moment);
    c->deflection = fmax(c->deflection, hypot(up.deflection, right.deflection));
    c->use = fmax(c->use, use_of(s, r, x, moment));
}

/* 400 places and every break: the answer's peaks are never below the scan's, and hardly above (a parabola's top between
 * two places 1/400 apart). */
static void peaks_are_the_largest(dice *d, const sample *s)
{
    (void)d;
    enum { PLACES = 400 };
    const rbow_member *m = &s->member;
    const rbow_result r = check_sample(s);
    scan c = {.moment = 0};
    if (!prepare(s, &r, &c)) {
        sample_holds(s, "no peaks", isnan(r.peak_moment) && isnan(r.stress_use) && isnan(r.deflection));
        return;
    }
    const double zone = m->weld_zone, inner = m->length - zone; /* both sides of a zone's border count */
    const double breaks[] = {0, m->length, c.prepared.beam.point_at, c.prepared.beam.bow_at, zone, inner,
                             zone * (1 - 1e-15), fmin(m->length, inner * (1 + 1e-15))};
    for (size_t i = 0; i < sizeof breaks / sizeof *breaks; i++) look_at(s, &r, &c, breaks[i]);
    for (int i = 1; i < PLACES; i++) look_at(s, &r, &c, m->length * i / PLACES);
    const double rel = 1e-11 / near_critical(s, &r), bend = r.section.section_modulus * s->material.yield;
    const double n = m->length * sqrt(fabs(r.axial) / (s->material.elastic_modulus * r.section.inertia)) + 4;
    const double missed = fmax(2e-3, n * n / PLACES / PLACES); /* curvature of the moment: n^2 and the loads' own */
    sample_holds(s, "peak_moment above the scan", r.peak_moment >= c.moment * (1 - rel) - 1e-12 * bend);
    sample_holds(s, "deflection above the scan", r.deflection >= c.deflection * (1 - rel) - 1e-13 * m->length);
    sample_holds(s, "stress_use above the scan", r.stress_use >= c.use * (1 - rel) - 1e-12);
    sample_near(s, "peak_moment", r.peak_moment, c.moment, missed, 1e-12 * bend);
    sample_near(s, "deflection", r.deflection, c.deflection, missed, 1e-13 * m->length);
    sample_near(s, "stress_use", r.stress_use, c.use, missed, 1e-12);
    scan there = c;
    there.moment = 0;
    look_at(s, &r, &there, r.peak_moment_at);
    sample_near(s, "moment where it is said to be", there.moment, r.peak_moment, 1e-9 / near_critical(s, &r), 1e-12 * bend);
}

/* Couples, misses and a spread load against each other: peaks anywhere, close to a joint as well, where the movement (and at
 * a pinned end the moment) starts from exactly nothing and only rounding has a sign. */
static void peaks_close_to_a_joint(dice *d, const sample *any)
{
    sample s = *any;
    rbow_member *m = &s.member;
    const double ei = s.material.elastic_modulus * check_sample(any).section.inertia, bend = 0.01 * ei / m->length;
    const double couples = dice_chance(d, 0.5) ? bend : 0;
    m->compression = m->gap = m->torque = m->vertical_g = m->point_load = m->bow = m->weld_zone = 0;
    if (dice_chance(d, 0.5)) m->compression = dice_between(d, -5, 1) * ei / (m->length * m->length);
    if (is_free(m)) m->end_b = RBOW_PINNED;
    m->moment_a = dice_between(d, -1, 1) * couples;
    m->moment_b = dice_between(d, -1, 1) * couples;
    m->spread_load = dice_between(d, -8, 8) * bend / (m->length * m->length);
    m->miss_a = holds_a_moment(m->end_a) ? dice_between(d, 0, 0.01) * m->length : 0;
    m->miss_b = holds_a_moment(m->end_b) ? dice_between(d, 0, 0.01) * m->length : 0;
    m->eccentricity_clock = m->moment_clock = m->spread_clock = 0;
    m->miss_a_clock = dice_below(d, 2) * pi;
    m->miss_b_clock = dice_below(d, 2) * pi;
    s = taken_of(&s);
    peaks_are_the_largest(d, &s);
}

/* ---- switches --------------------------------------------------------------------------------------- */

/* A value of one input at which the engine changes its way of working, and the input. */
static double *at_a_switch(dice *d, sample *s)
{
    rbow_member *m = &s->member;
    const rbow_result r = check_sample(s);
    const double unit = s->material.elastic_modulus * r.section.inertia / (m->length * m->length);
    const double z[] = {0, 2, -2, pi * pi / 2, pi * pi, -pi * pi, -1e3}; /* P L^2/EI */
    m->miss_a = m->miss_b = m->gap = 0; /* so that the axial load is the push */
    m->point_load += 1;
    switch (dice_below(d, 6)) {
        case 0: m->point_at = dice_below(d, 2) * m->length; return &m->point_at;
        case 1: m->weld_zone = m->length / 2; return &m->weld_zone;
        case 2:
            m->bow_shape = RBOW_BOW_KINK;
            m->bow_at = m->point_at = m->length * dice_between(d, 0.1, 0.9);
            return &m->bow_at;
        default: m->compression = z[dice_below(d, sizeof z / sizeof *z)] * unit; return &m->compression;
    }
}

/* Both sides of a switch, a billionth apart, give the same state but for what that step itself moves. */
static void no_jump_at_a_switch(dice *d, const sample *any)
{
    sample s = *any;
    double *const input = at_a_switch(d, &s);
    const double at = *input, unit = s.material.elastic_modulus * check_sample(&s).section.inertia / pow(s.member.length, 2);
    const double step = 1e-9 * (input == &s.member.compression ? fmax(fabs(at), unit) : s.member.length);
    const bool zone = input == &s.member.weld_zone; /* beyond the middle there is weld zone only */
    rbow_result side[2];
    for (int i = 0; i < 2; i++) {
        *input = at + (i == 0 ? -step : step);
        if (input == &s.member.point_at) *input = fmin(fmax(*input, 0), s.member.length);
        side[i] = check_sample(&s);
    }
    *input = at;
    const double near = near_critical(&s, &side[0]), rel = 1e-6 / (near * near);
    const double bend = side[0].section.section_modulus * s.material.yield;
    if (near < 1e-3 || isnan(side[0].peak_moment) || isnan(side[1].peak_moment)) return;
    sample_near(&s, "peak_moment across a switch", side[1].peak_moment, side[0].peak_moment, rel, 1e-7 * bend);
    sample_near(&s, "deflection across a switch", side[1].deflection, side[0].deflection, rel, 1e-9 * s.member.length);
    if (!zone) sample_near(&s, "stress_use across a switch", side[1].stress_use, side[0].stress_use, rel, 1e-7);
}

static bool is_aisc(const sample *s)
{
    const int own = s->member.column_curve;
    return (own == RBOW_CURVE_OF_MATERIAL ? (int)s->material.column_curve : own) == RBOW_CURVE_AISC;
}

/* Column curves and the wall rule have a value, not a step, where their branches meet; a slender column no jump either. */
static void curves_have_no_step(dice *d, const sample *any)
{
    sample s = *any;
    rbow_member *m = &s.member;
    rbow_result r = check_sample(&s);
    const double fc = r.wall_reduction * s.material.compression_yield, fe = pi * pi * s.material.elastic_modulus;
    const double co = r.wall_reduction * s.material.column_intercept;
    const double slenderness[] = {sqrt(2 * fe / fc), sqrt(7 * fe / (3 * co)), sqrt(2.25 * fe / fc), 0.2 * sqrt(fe / fc), 150,
                                  sqrt(fe / fc)};
    m->length *= slenderness[dice_below(d, 6)] / r.slenderness;
    if (m->end_a > 0 || m->end_b > 0) return; /* a stiffness: its effective length is no fixed share */
    const double l = m->length;
    m->point_at = m->bow_at = RBOW_UNSET;
    m->miss_a = m->miss_b = m->bow = m->gap = m->weld_zone = m->dressed = 0;
    double load[2];
    for (int i = 0; i < 2; i++) {
        m->length = l * (i == 0 ? 1 - 1e-10 : 1 + 1e-10);
        load[i] = check_sample(&s).column_load;
    }
    /* 0.658^2.25 is 0.38996, 0.877/2.25 is 0.38978: the published text's own step */
    sample_near(&s, "column_load across a switch", load[1], load[0], 5e-4, 0);
    if (fabs(load[1] / load[0] - 1) > 1e-8) sample_holds(&s, "a step of AISC's only", is_aisc(&s));
    const double relative = 0.11 * s.material.elastic_modulus / s.material.compression_yield;
    if (relative <= 2.1) return;
    double kept[2];
    for (int i = 0; i < 2; i++) {
        m->wall = m->od / (relative * (i == 0 ? 1 - 1e-10 : 1 + 1e-10));
        kept[i] = check_sample(&s).wall_reduction;
    }
    sample_near(&s, "wall_reduction across its switch", kept[1], kept[0], 0, 1e-8);
}

/* ---- */

#define PROPERTY(name, members, seed)                                                                                   \
    START_TEST(test_##name)                                                                                    \
    {                                                                                                          \
        members(seed, name);                                                                                   \
    }                                                                                                          \
    END_TEST

PROPERTY(scale_changes_nothing, every_member, 101)
PROPERTY(force_unit_changes_nothing, every_member, 102)
PROPERTY(clocks_turn_together, every_member, 103)
PROPERTY(signs_are_directions, every_member, 104)
PROPERTY(ends_may_be_swapped, every_member, 105)
PROPERTY(factors_are_in_order, every_concrete_member, 106)
PROPERTY(loads_divide_factors, every_concrete_member, 107)
PROPERTY(yield_is_reached_and_not_before, every_concrete_member, 108)
PROPERTY(interaction_is_reached_and_not_before, every_concrete_member, 109)
PROPERTY(stronger_is_no_worse, every_member, 110)
PROPERTY(asking_more_leaves_less, every_member, 111)
PROPERTY(unforced_is_the_case_without, every_member, 112)
PROPERTY(fit_stands_alone, every_concrete_member, 113)
PROPERTY(peaks_are_the_largest, every_concrete_member, 114)
PROPERTY(peaks_close_to_a_joint, every_member, 115)
PROPERTY(no_jump_at_a_switch, every_concrete_member, 116)
PROPERTY(curves_have_no_step, every_member, 117)

static void fill(TCase *cases)
{
    tcase_add_test(cases, test_scale_changes_nothing);
    tcase_add_test(cases, test_force_unit_changes_nothing);
    tcase_add_test(cases, test_clocks_turn_together);
    tcase_add_test(cases, test_signs_are_directions);
    tcase_add_test(cases, test_ends_may_be_swapped);
    tcase_add_test(cases, test_factors_are_in_order);
    tcase_add_test(cases, test_loads_divide_factors);
    tcase_add_test(cases, test_yield_is_reached_and_not_before);
    tcase_add_test(cases, test_interaction_is_reached_and_not_before);
    tcase_add_test(cases, test_stronger_is_no_worse);
    tcase_add_test(cases, test_asking_more_leaves_less);
    tcase_add_test(cases, test_unforced_is_the_case_without);
    tcase_add_test(cases, test_fit_stands_alone);
    tcase_add_test(cases, test_peaks_are_the_largest);
    tcase_add_test(cases, test_peaks_close_to_a_joint);
    tcase_add_test(cases, test_no_jump_at_a_switch);
    tcase_add_test(cases, test_curves_have_no_step);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/properties", fill);
}
