/* Members with structure: round numbers, equal halves, and loads that nearly cancel. Random numbers alone meet none. */
#ifndef TESTS_ENGINE_STRUCTURED_H
#define TESTS_ENGINE_STRUCTURED_H

#include "members.h"
#include "reference/plain_margin.h"

static const double structured_pi = 3.14159265358979323846;

static inline double one_of(dice *d, const double *list, size_t count)
{
    return list[dice_below(d, (int)count)];
}
#define ONE_OF(d, ...) one_of((d), (const double[]){__VA_ARGS__}, sizeof((double[]){__VA_ARGS__}) / sizeof(double))

static inline double either(dice *d, double one, double other)
{
    return dice_chance(d, 0.5) ? one : other;
}

static inline double fraction(dice *d)
{
    return ONE_OF(d, 1.0 / 2, 1.0 / 3, 2.0 / 3, 1.0 / 4, 3.0 / 4, 1.0 / 6, 5.0 / 6, 1.0 / 9, 2.0 / 9, 8.0 / 9, 1.0 / 8, 7.0 / 8,
                  1.0 / 5, 0.1, 0.0, 1.0);
}

static inline double rigidity_of(const sample *s)
{
    rbow_section section;
    rbow_section_of(s->member.od, s->member.wall, &section);
    return s->material.elastic_modulus * section.inertia;
}

static inline double bend_of(const sample *s)
{
    rbow_section section;
    rbow_section_of(s->member.od, s->member.wall, &section);
    return section.section_modulus * s->material.yield;
}

static inline double squash_of(const sample *s)
{
    rbow_section section;
    rbow_section_of(s->member.od, s->member.wall, &section);
    return section.area * s->material.yield;
}

static inline double critical_of(const sample *s)
{
    return plain_tube_of(&s->member, &s->material).buckling_load;
}

static inline void scale_yields(rbow_material *k, double by)
{
    k->yield *= by;
    k->compression_yield *= by;
    k->weld_yield *= by;
    k->column_intercept *= by;
}

static inline double quarter_clock(dice *d)
{
    return dice_below(d, 4) * structured_pi / 2;
}

/* Round numbers, as a drawing has them; held ends; no load yet. */
static inline sample ordinary(dice *d)
{
    sample s = {tube_of(NAN, NAN, NAN), steel};
    rbow_member *m = &s.member;
    m->od = ONE_OF(d, 0.5, 0.75, 1, 1.25, 1.5, 2);
    m->wall = dice_chance(d, 0.05) ? m->od / 2 : ONE_OF(d, 0.035, 0.049, 0.058, 0.065, 0.083, 0.095, 0.12);
    m->length = ONE_OF(d, 12, 15, 18, 24, 30, 36, 40, 48, 60);
    m->end_a = m->end_b = ONE_OF(d, RBOW_PINNED, RBOW_PINNED, RBOW_SOFT_WELD, RBOW_FIXED, 1000, 20000);
    m->factor = ONE_OF(d, 1, 1.5, 2);
    m->weld_zone = dice_chance(d, 0.5) ? m->length * dice_between(d, 0, 0.4) : ONE_OF(d, 0, 0.5, 1, 2);
    if (dice_chance(d, 0.6)) s.material.weld_yield = ONE_OF(d, 30e3, 45e3, 75e3, 150e3);
    if (dice_chance(d, 0.2)) s.material.yield = s.material.compression_yield = ONE_OF(d, 36e3, 22.5e3, 100e3);
    return s;
}

static inline double round_share(dice *d, double most) /* two digits of at most this */
{
    const double value = dice_between(d, 0.02, 1) * most, digit = pow(10, floor(log10(fabs(value))) - 1);
    return round(value / digit) * digit;
}

static inline void ordinary_push(dice *d, sample *s)
{
    s->member.compression = round_share(d, either(d, 1, -1) * 0.6 * fmin(critical_of(s), squash_of(s)));
    if (dice_chance(d, 0.15)) s->member.compression = 0;
}

/* ---- loads against each other ----------------------------------------------------------------------- */

enum { LATERALS = 8 };

static inline void one_lateral(rbow_member *m, int which, double size, double clock)
{
    double *const sizes[] = {&m->moment_a, &m->moment_b, &m->point_load, &m->spread_load, &m->bow, &m->miss_a, &m->miss_b,
                             &m->eccentricity};
    double *const clocks[] = {&m->moment_clock, &m->moment_clock, &m->point_clock, &m->spread_clock, &m->bow_clock,
                              &m->miss_a_clock, &m->miss_b_clock, &m->eccentricity_clock};
    const bool turned = size < 0 && which >= 4; /* built-in sizes are not negative */
    *sizes[which] = turned ? -size : size;
    *clocks[which] = turned ? clock + structured_pi : clock;
}

typedef struct balance { /* what the loads nearly cancel: the moment or the movement at one place, in */
    bool of_movement;
    double place;
} balance;

static inline double share_of(const sample *s, balance b, const rbow_member *alone)
{
    double moment, moved;
    const plain_tube t = plain_tube_of(alone, &s->material);
    plain_place(&t, 1, b.place, &moment, &moved);
    return b.of_movement ? moved * rigidity_of(s) / s->member.length / s->member.length : moment;
}

/* A lateral load that gives the balance `moment` (a movement counts as moment L^2/EI). */
static inline void add_lateral(sample *s, int which, balance b, double moment, double clock)
{
    rbow_member *m = &s->member, alone = *m;
    for (int i = 0; i < LATERALS; i++) one_lateral(&alone, i, 0, 0);
    alone.vertical_g = 0;
    one_lateral(&alone, which, 1e-3, 0);
    const double unit = share_of(s, b, &alone) * 1e3;
    const double l = m->length, sizes[LATERALS] = {DBL_MAX, DBL_MAX, DBL_MAX, DBL_MAX, 0.03 * l, 0.1 * l, 0.1 * l, 0.5 * m->od};
    const double most = sizes[which];
    if (!(unit > 1e-6 * rigidity_of(s) / m->length / m->length) || isinf(unit)) return;
    one_lateral(m, which, fmin(most, fmax(-most, moment / unit)), clock);
}

static inline double nearly_one(dice *d)
{
    return 1 + either(d, 1, -1) * dice_size(d, 1e-4, 0.9);
}

static inline balance some_balance(dice *d, const sample *s, bool middle)
{
    const double place = middle || dice_chance(d, 0.3) ? 0.5 : dice_between(d, 0.03, 0.97);
    return (balance){dice_chance(d, 0.4), place * s->member.length};
}

/* Of some sizes for one load the one whose two largest maxima along the tube come closest to a tie: the one that a
 * search passes over is then the largest about as often as not. */
static inline void compete(dice *d, sample *s, int which)
{
    rbow_member *m = &s->member, best = *m;
    const bool of_movement = dice_chance(d, 0.5), both = which <= 1 && fabs(m->moment_a - m->moment_b) <= 0;
    double closest = 0, spread = 2;
    plain_stations = 48;
    for (int i = 0; i < 12; i++, spread = i < 6 ? 2 : 1 + 0.5 * (spread - 1)) {
        rbow_member tried = best;
        double *const sizes[] = {&tried.moment_a, &tried.moment_b, &tried.point_load, &tried.spread_load,
                                 &tried.bow,      &tried.miss_a,   &tried.miss_b,     &tried.eccentricity};
        *sizes[which] *= dice_size(d, 1 / spread, spread);
        if (both) tried.moment_a = tried.moment_b = *sizes[which];
        const plain_tube t = plain_tube_of(&tried, &s->material);
        const plain_peak top = of_movement ? plain_moved(&t, 1) : plain_state_at(&t, 1).moment;
        const double ratio = top.next / top.size;
        if (ratio > closest && ratio < 0.98) closest = ratio, best = tried;
    }
    plain_stations = 144;
    *m = best;
}

/* Two or three loads that nearly cancel in one place. */
static inline void oppose(dice *d, sample *s)
{
    rbow_member *m = &s->member;
    const plain_tube t = plain_tube_of(m, &s->material);
    if (!(m->compression - t.tension < 0.98 * t.buckling_load)) m->compression = 0.5 * t.buckling_load;
    for (int i = 0; i < LATERALS; i++) one_lateral(m, i, 0, 0);
    const balance b = some_balance(d, s, false);
    const double moment = bend_of(s) * dice_size(d, 0.02, 2) * either(d, 1, -1);
    const double clock = dice_chance(d, 0.6) ? 0 : dice_chance(d, 0.5) ? quarter_clock(d) : random_clock(d);
    const int first = dice_below(d, LATERALS), second = (first + 1 + dice_below(d, LATERALS - 1)) % LATERALS;
    add_lateral(s, first, b, moment, clock);
    add_lateral(s, second, b, -moment * nearly_one(d), clock + (dice_chance(d, 0.15) ? dice_between(d, -0.1, 0.1) : 0));
    const int third = dice_below(d, LATERALS);
    if (third != first && third != second) add_lateral(s, third, b, moment * dice_size(d, 1e-3, 0.5), clock);
    if (dice_chance(d, 0.6)) compete(d, s, second);
}

static inline sample ordinary_opposed(dice *d)
{
    sample s = ordinary(d);
    ordinary_push(d, &s);
    s.member.bow_shape = dice_below(d, 3);
    if (dice_chance(d, 0.3)) s.member.point_at = s.member.length * fraction(d);
    oppose(d, &s);
    return s;
}

static inline sample random_opposed(dice *d)
{
    sample s = random_sample(d);
    oppose(d, &s);
    return s;
}

/* Equal halves: end moments or misses, and a load between them that nearly balances them. */
static inline sample symmetric_opposed(dice *d)
{
    sample s = ordinary(d);
    rbow_member *m = &s.member;
    ordinary_push(d, &s);
    m->bow_shape = dice_below(d, 3);
    const balance b = some_balance(d, &s, true);
    if (dice_chance(d, 0.7) || !holds_a_moment(m->end_a)) m->moment_a = m->moment_b = round_share(d, bend_of(&s) * either(d, 1, -1));
    else m->miss_a = m->miss_b = round_share(d, m->length * 0.02);
    const double ends = share_of(&s, b, m), back = ends * nearly_one(d) * (m->moment_a > 0 || m->miss_a > 0 ? -1 : 1);
    const int between = dice_chance(d, 0.6) ? 3 : 2 + 2 * dice_below(d, 2);
    add_lateral(&s, between, b, back, 0);
    if (dice_chance(d, 0.8)) compete(d, &s, between);
    return s;
}

/* Two simple loads on a tube between equal ends, one against the other, and welds much weaker or stronger than the
 * tube: then small maxima decide. */
static inline sample equal_halves(dice *d)
{
    sample s = ordinary(d);
    rbow_member *m = &s.member;
    const double l = m->length;
    m->end_a = m->end_b = ONE_OF(d, RBOW_PINNED, RBOW_PINNED, RBOW_PINNED, RBOW_SOFT_WELD, RBOW_FIXED, 1000);
    ordinary_push(d, &s);
    m->weld_zone = l * dice_between(d, 0, 0.5);
    m->spread_load = ONE_OF(d, 1, 2, 4, 5, 10) * either(d, 1, -1);
    if (dice_chance(d, 0.6)) {
        m->moment_a = m->moment_b = -round(m->spread_load * l * l / 8 * dice_between(d, 0.2, 1.4));
    } else {
        m->bow_shape = dice_below(d, 3);
        m->bow = round_share(d, 0.02 * l);
        m->compression = either(d, 1, -1) * fabs(m->compression);
        m->spread_load = -8 * m->compression * m->bow / l / l * dice_between(d, 0.5, 1.6);
    }
    s.material.weld_yield = s.material.yield * ONE_OF(d, 0.3, 0.6, 1, 2, 4);
    if (s.material.weld_yield > 160e3) scale_yields(&s.material, 0.5);
    return s;
}

/* Equal halves in one plane, or in two. */
static inline sample symmetric(dice *d)
{
    if (dice_chance(d, 0.5)) return symmetric_opposed(d);
    sample s = ordinary(d);
    rbow_member *m = &s.member;
    const double bend = bend_of(&s), l = m->length, other = dice_chance(d, 0.2) ? structured_pi / 2 : 0;
    ordinary_push(d, &s);
    if (dice_chance(d, 0.6)) m->moment_a = m->moment_b = round_share(d, either(d, 1, -1) * bend);
    if (dice_chance(d, 0.6)) m->spread_load = round_share(d, either(d, 1, -1) * 8 * bend / l / l);
    if (dice_chance(d, 0.4)) m->point_load = round_share(d, either(d, 1, -1) * 4 * bend / l);
    if (dice_chance(d, 0.5)) m->bow = round_share(d, 0.01 * l);
    if (dice_chance(d, 0.2)) m->vertical_g = ONE_OF(d, 1, -3, 6);
    m->bow_shape = dice_below(d, 3);
    m->bow_clock = either(d, 0, structured_pi);
    m->spread_clock = other;
    if (dice_chance(d, 0.4) && holds_a_moment(m->end_a)) m->miss_a = m->miss_b = round_share(d, 0.01 * l);
    m->miss_b_clock = m->miss_a_clock = either(d, other, structured_pi);
    return s;
}

static inline sample antisymmetric(dice *d)
{
    sample s = ordinary(d);
    rbow_member *m = &s.member;
    ordinary_push(d, &s);
    m->moment_a = round_share(d, either(d, 1, -1) * bend_of(&s));
    m->moment_b = -m->moment_a;
    if (dice_chance(d, 0.5)) m->miss_a = m->miss_b = round_share(d, 0.01 * m->length);
    m->miss_b_clock = structured_pi;
    if (dice_chance(d, 0.3)) m->moment_a = m->moment_b = 0;
    if (dice_chance(d, 0.3)) m->torque = round_share(d, bend_of(&s));
    return s;
}

#endif
