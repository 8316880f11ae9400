/* The classes of members that the library is held to the plain check with. */
#ifndef TESTS_ENGINE_CLASSES_H
#define TESTS_ENGINE_CLASSES_H

#include "structured.h"

typedef struct member_class {
    const char *name;
    sample (*make)(dice *d);
    bool costly; /* the sample itself takes long to find: fewer of them */
} member_class;

static inline sample any(dice *d)
{
    const int kind = dice_below(d, 4);
    return kind == 0 ? symmetric(d) : kind == 1 ? ordinary_opposed(d) : kind == 2 ? random_opposed(d) : random_sample(d);
}

static inline sample fractions(dice *d)
{
    sample s = any(d);
    rbow_member *m = &s.member;
    if (!(fabs(m->point_load) > 0)) m->point_load = round_share(d, bend_of(&s) / m->length);
    m->point_at = fraction(d) * m->length;
    m->weld_zone = fraction(d) * m->length;
    const double kink = fraction(d);
    if (kink > 0 && kink < 1) m->bow_at = kink * m->length;
    return s;
}

static inline sample coinciding(dice *d)
{
    sample s = any(d);
    rbow_member *m = &s.member;
    m->weld_zone = m->length * (dice_chance(d, 0.5) ? dice_between(d, 0.01, 0.5) : fraction(d));
    m->point_load = either(d, 1, -1) * round_share(d, 3 * bend_of(&s) / m->length);
    m->point_at = either(d, m->weld_zone, m->length - m->weld_zone);
    m->bow_shape = RBOW_BOW_KINK;
    m->bow = round_share(d, 0.005 * m->length);
    const double kink = ONE_OF(d, m->point_at, m->weld_zone, m->length - m->weld_zone);
    if (kink > 0 && kink < m->length) m->bow_at = kink;
    return s;
}

/* The pull straightens the bow that the load bends back. */
static inline sample pulled(dice *d)
{
    sample s = random_sample(d);
    rbow_member *m = &s.member;
    m->length = m->od * dice_size(d, 20, 120);
    m->end_a = m->end_b = ONE_OF(d, RBOW_PINNED, RBOW_SOFT_WELD, RBOW_FIXED);
    m->weld_zone = fmin(m->weld_zone, m->length);
    m->point_at = RBOW_UNSET;
    m->bow_at = RBOW_UNSET;
    m->miss_a = holds_a_moment(m->end_a) ? fmin(m->miss_a, 0.02 * m->length) : 0;
    m->miss_b = holds_a_moment(m->end_b) ? fmin(m->miss_b, 0.02 * m->length) : 0;
    m->compression = -squash_of(&s) * dice_size(d, 0.02, 1);
    m->bow = m->length * dice_size(d, 1e-4, 0.02);
    m->spread_load = dice_chance(d, 0.4) ? -8 * bend_of(&s) / m->length / m->length * dice_size(d, 0.05, 20)
                                         : 8 * m->compression * m->bow / m->length / m->length * dice_between(d, 0.5, 1.6);
    if (dice_chance(d, 0.6)) m->eccentricity = m->point_load = m->vertical_g = m->moment_a = m->moment_b = 0;
    if (dice_chance(d, 0.6)) m->miss_a = m->miss_b = m->gap = 0;
    m->spread_clock = m->bow_clock + (dice_chance(d, 0.2) ? 0.3 : 0);
    return s;
}

static inline sample weld_at_maximum(dice *d)
{
    sample s = any(d);
    rbow_member *m = &s.member;
    m->weld_zone = 0;
    const plain_tube t = plain_tube_of(m, &s.material);
    const double peak = plain_state_at(&t, 1).moment.at;
    double at = isnan(peak) ? m->length / 2 : peak;
    at += m->length * either(d, 1, -1) * ONE_OF(d, 0, 1e-12, 1e-9, 1e-6, 1e-4, 1e-3, 1e-2);
    m->weld_zone = fmin(fmax(0, either(d, at, m->length - at)), m->length);
    if (m->weld_zone < 1e-15 * m->length) m->weld_zone = 0; /* the plain check cannot tell L - weld_zone from L */
    return s;
}

static inline sample soft_springs(dice *d)
{
    sample s = random_sample(d);
    rbow_member *m = &s.member;
    const double unit = rigidity_of(&s) / m->length;
    m->end_a = unit * dice_size(d, 1e-7, 0.5);
    m->end_b = dice_chance(d, 0.8) ? unit * dice_size(d, 1e-7, 0.5) : m->end_b;
    if (dice_chance(d, 0.3)) m->moment_a = round_share(d, either(d, 1, -1) * bend_of(&s));
    if (dice_chance(d, 0.3)) m->moment_b = round_share(d, either(d, 1, -1) * bend_of(&s));
    if (dice_chance(d, 0.6)) oppose(d, &s);
    return s;
}

static inline sample twisted(dice *d)
{
    sample s = any(d);
    s.member.torque = bend_of(&s) * dice_size(d, 0.01, 3) * either(d, 1, -1);
    return s;
}

static inline sample perpendicular(dice *d)
{
    sample s = any(d);
    rbow_member *m = &s.member;
    double *const clocks[] = {&m->eccentricity_clock, &m->moment_clock, &m->point_clock, &m->spread_clock, &m->bow_clock,
                              &m->miss_a_clock, &m->miss_b_clock};
    for (size_t i = 0; i < sizeof clocks / sizeof *clocks; i++) *clocks[i] = quarter_clock(d);
    return s;
}

static inline double use_at(const sample *s, double factor)
{
    const plain_tube t = plain_tube_of(&s->member, &s->material);
    return plain_state_at(&t, factor).use;
}

/* The use at the asked factor becomes `top`, if the strengths let it. */
static inline void tune(sample *s, double factor, double top)
{
    for (int i = 0; i < 4; i++) {
        const double use = use_at(s, factor);
        if (!(use > 1e-3 && use < 1e3)) return;
        scale_yields(&s->material, use / top);
    }
}

static inline sample at_the_limit(dice *d)
{
    sample s = dice_chance(d, 0.2) ? pulled(d) : any(d);
    rbow_member *m = &s.member;
    const plain_tube t = plain_tube_of(m, &s.material);
    const double asked = m->factor_yield > 0 ? m->factor_yield : m->factor;
    if (asked * m->compression - t.tension < 0.99 * t.buckling_load && -t.tension < t.buckling_load) tune(&s, asked, 1);
    return s;
}

/* Most of the use is built in, and the run loads carry it over the limit slowly. */
static inline sample flat_at_the_limit(dice *d)
{
    sample s = any(d);
    rbow_member *m = &s.member;
    const double by = dice_size(d, 1e-5, 0.1), asked = m->factor_yield > 0 ? m->factor_yield : m->factor;
    s.member = with_loads(*m, by);
    m->bow = fmax(m->bow, m->length * dice_size(d, 1e-3, 2e-2));
    if (m->end_a > 0) m->miss_a = fmax(m->miss_a, m->length * dice_size(d, 1e-4, 1e-2));
    const plain_tube t = plain_tube_of(m, &s.material);
    if (asked * m->compression - t.tension < 0.99 * t.buckling_load && -t.tension < t.buckling_load) tune(&s, asked, 1);
    return s;
}

static inline sample yield_asked_above(dice *d)
{
    sample s = any(d);
    s.member.factor = 1;
    s.member.factor_yield = dice_between(d, 1.2, 5);
    return s;
}

/* The first top of the use over the load factor that nothing before it reaches; 0 if there is none. */
static inline double first_top(const sample *s, double most)
{
    enum { STEPS = 40 };
    double at[STEPS], use[STEPS];
    for (int i = 0; i < STEPS; i++) at[i] = most * i / (STEPS - 1) * i / (STEPS - 1);
    const plain_tube t = plain_tube_of(&s->member, &s->material);
    plain_stations = 24;
    for (int i = 0; i < STEPS; i++) use[i] = plain_state_at(&t, at[i]).use;
    plain_stations = 144;
    double highest = use[0];
    for (int i = 1; i < STEPS - 1; i++) {
        if (use[i] > highest && use[i] > use[i + 1]) return at[i];
        highest = fmax(highest, use[i]);
    }
    return 0;
}

/* A slender tube whose ends are bent and pulled: the moment beyond strong weld zones grows with the load, then the pull
 * straightens the tube there. */
static inline sample bent_and_pulled(dice *d)
{
    sample s = ordinary(d);
    rbow_member *m = &s.member;
    s.material.yield = s.material.compression_yield = dice_between(d, 3e3, 8e3);
    s.material.weld_yield = 160e3;
    const double bend = bend_of(&s);
    m->length = m->od * dice_size(d, 60, 120);
    m->end_b = m->end_a = dice_chance(d, 0.6) ? RBOW_PINNED : rigidity_of(&s) / m->length * dice_size(d, 1e-3, 1);
    m->compression = -rigidity_of(&s) / m->length / m->length * dice_size(d, 1, 30);
    m->weld_zone = m->length * dice_between(d, 0.15, 0.48);
    m->moment_a = bend * dice_size(d, 1, 30) * either(d, 1, -1);
    if (dice_chance(d, 0.7)) m->moment_b = m->moment_a * (dice_chance(d, 0.5) ? 1 : dice_between(d, -1, 1));
    if (dice_chance(d, 0.3)) m->spread_load = -8 * m->moment_a / m->length / m->length * dice_size(d, 0.01, 1);
    if (dice_chance(d, 0.3)) m->bow = m->length * dice_size(d, 1e-4, 1e-2);
    if (dice_chance(d, 0.2)) m->moment_clock = random_clock(d);
    if (dice_chance(d, 0.2)) m->torque = bend * dice_between(d, 0, 0.3);
    m->bow_shape = dice_below(d, 3);
    return s;
}

static inline void bend_by(rbow_member *m, double by)
{
    double *const sizes[] = {&m->moment_a, &m->moment_b, &m->point_load, &m->spread_load, &m->bow, &m->miss_a, &m->miss_b,
                             &m->eccentricity, &m->torque, &m->vertical_g};
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) *sizes[i] *= by;
}

/* A member whose use rises to a top over the load factor, falls, and rises again; the top a little over 1. */
static inline sample hump(dice *d)
{
    for (int tries = 0;; tries++) {
        sample s = dice_chance(d, 0.8) ? bent_and_pulled(d) : dice_chance(d, 0.5) ? pulled(d) : random_opposed(d);
        const plain_tube t = plain_tube_of(&s.member, &s.material);
        const double critical = t.buckling_load, tension = t.tension, c = s.member.compression;
        const double most = c > 0 ? 0.999 * (critical + tension) / c : fabs(c) > 0 ? critical / -c * dice_size(d, 3, 30) : 0;
        double top = -tension > 0.9 * critical ? 0 : first_top(&s, most);
        if (top > 0) {
            bend_by(&s.member, 1 / use_at(&s, top)); /* rather than strengths that the wall rule refuses */
            top = first_top(&s, most);
        }
        rbow_status fault;
        if (top > 0) tune(&s, top, ONE_OF(d, 1.001, 1.003, 1.01, 1.05));
        if (tries > 40 || (top > 0 && rbow_member_faults(&s.member, &s.material, &fault, 1) == 0)) return s;
    }
}

static inline sample near_critical_sample(dice *d)
{
    sample s = any(d);
    rbow_member *m = &s.member;
    const plain_tube t = plain_tube_of(m, &s.material);
    m->compression = t.buckling_load * (1 - dice_size(d, 1e-6, 0.1)) + t.tension;
    if (dice_chance(d, 0.3)) scale_yields(&s.material, 1.5);
    return s;
}

static inline sample solid_or_thin(dice *d)
{
    sample s = random_sample(d);
    rbow_member *m = &s.member;
    const double strongest = fmax(s.material.compression_yield, s.material.weld_yield);
    m->wall = dice_chance(d, 0.4) ? m->od / 2 : m->od / (s.material.elastic_modulus / strongest * dice_between(d, 0.1, 0.4499));
    m->wall = fmin(m->wall, m->od / 2);
    m->dressed = 0;
    random_loads(d, &s);
    m->gap = 0;
    return s;
}

static inline sample free_at_b(dice *d)
{
    sample s = {tube_of(NAN, NAN, NAN), random_material(d)};
    random_tube(d, &s);
    rbow_member *m = &s.member;
    m->end_a = ONE_OF(d, RBOW_FIXED, RBOW_FIXED, rigidity_of(&s) / m->length * dice_size(d, 0.01, 100));
    m->end_b = RBOW_FREE;
    random_loads(d, &s);
    random_fit(d, &s);
    if (dice_chance(d, 0.3)) m->point_at = m->length * fraction(d);
    if (dice_chance(d, 0.2)) m->compression *= -5;
    return s;
}

static inline sample nothing_runs(dice *d)
{
    sample s = random_sample(d);
    rbow_member *m = &s.member;
    m->compression = m->moment_a = m->moment_b = m->point_load = m->spread_load = m->vertical_g = m->torque = 0;
    m->miss_a *= 3;
    return s;
}

static inline sample no_compression(dice *d)
{
    sample s = any(d);
    s.member.compression = 0;
    if (dice_chance(d, 0.2)) s.member.compression = either(d, 1, -1) * dice_size(d, 1e-12, 1);
    return s;
}

/* P = pi^2 EI/L^2, where a half-wave bow would resonate in a pinned tube. */
static inline sample resonant(dice *d)
{
    sample s = any(d);
    rbow_member *m = &s.member;
    m->end_a = RBOW_FIXED;
    m->end_b = ONE_OF(d, RBOW_FIXED, RBOW_FIXED, RBOW_SOFT_WELD);
    m->bow_shape = RBOW_BOW_SINE;
    m->bow = round_share(d, 0.004 * m->length);
    m->gap = 0;
    m->compression = structured_pi * structured_pi * rigidity_of(&s) / m->length / m->length;
    if (dice_chance(d, 0.4)) m->compression *= 1 + either(d, 1, -1) * dice_size(d, 1e-15, 1e-3);
    return s;
}

/* Members whose largest moment, movement or use an earlier search along the tube passed over, and others near them. */
enum { PASSED_OVER = 3 };
static inline sample passed_over(int which)
{
    sample s = {tube_of(0.5, 0.25, 15), steel};
    rbow_member *m = &s.member;
    if (which == 0) {
        s.material.yield = s.material.compression_yield = 22500;
        s.material.weld_yield = 13500;
        m->compression = -2550;
        m->spread_load = -22.5;
        m->bow = 0.3;
        m->bow_clock = structured_pi;
        m->weld_zone = 2;
        m->factor = 1;
        return s;
    }
    *m = which == 1 ? tube_of(1.25, 0.058, 48) : tube_of(1.5, 0.065, 30);
    m->compression = which == 1 ? 670 : 400;
    m->moment_a = m->moment_b = which == 1 ? -924 : -373;
    m->spread_load = 4;
    m->weld_zone = which == 1 ? 13.4 : 8.57;
    if (which == 2) s.material.yield = s.material.compression_yield = 36000;
    if (which == 2) s.material.weld_yield = 150000;
    return s;
}

static inline sample near_passed_over(dice *d)
{
    sample s = passed_over(dice_below(d, PASSED_OVER));
    rbow_member *m = &s.member;
    double *const sizes[] = {&m->compression, &m->spread_load, &m->weld_zone, &m->bow, &m->moment_a, &m->length, &m->od};
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++)
        if (dice_chance(d, 0.35)) *sizes[i] *= 1 + either(d, 1, -1) * dice_size(d, 1e-4, 0.2);
    if (m->wall > m->od / 2 || m->bow > 0) m->wall = m->od / 2;
    m->moment_b = m->moment_a;
    if (dice_chance(d, 0.2)) m->weld_zone = m->length * dice_between(d, 0, 0.5);
    if (dice_chance(d, 0.1)) m->end_a = m->end_b = rigidity_of(&s) / m->length * dice_size(d, 1e-6, 1e-1);
    if (dice_chance(d, 0.1)) m->moment_b *= nearly_one(d);
    if (dice_chance(d, 0.5)) compete(d, &s, 3);
    return s;
}

static const member_class member_classes[] = {
    {"near those passed over", near_passed_over, false},
    {"random", random_sample, false},
    {"opposed", random_opposed, false},
    {"ordinary opposed", ordinary_opposed, false},
    {"equal halves", equal_halves, false},
    {"symmetric", symmetric, false},
    {"antisymmetric", antisymmetric, false},
    {"fractions", fractions, false},
    {"coinciding", coinciding, false},
    {"pulled", pulled, false},
    {"weld at a maximum", weld_at_maximum, false},
    {"soft springs", soft_springs, false},
    {"twisted", twisted, false},
    {"perpendicular", perpendicular, false},
    {"at the limit", at_the_limit, false},
    {"flat at the limit", flat_at_the_limit, false},
    {"yield asked above", yield_asked_above, false},
    {"hump", hump, true},
    {"near critical", near_critical_sample, false},
    {"solid or thin", solid_or_thin, false},
    {"free at B", free_at_b, false},
    {"nothing runs", nothing_runs, false},
    {"no compression", no_compression, false},
    {"resonant", resonant, false},
};
enum { CLASSES = sizeof member_classes / sizeof *member_classes };

#endif
