/* States of tubes for the searches along them: random and structured, cheap to make. */
#ifndef TESTS_CHECK_STATES_H
#define TESTS_CHECK_STATES_H

#include "inside.h"

#include "check/maximum_body.h"

enum { STATE_KINDS = 8 };

static inline double rigidity_per_length(const sample *s)
{
    rbow_section q;
    rbow_section_of(s->member.od, s->member.wall, &q);
    return s->material.elastic_modulus * q.inertia / s->member.length;
}

static inline double state_share(dice *d)
{
    static const double shares[] = {1.0 / 2, 1.0 / 3, 2.0 / 3, 1.0 / 4, 3.0 / 4, 1.0 / 6, 1.0 / 9, 8.0 / 9, 1.0 / 5, 1.0 / 8};
    return shares[dice_below(d, sizeof shares / sizeof *shares)];
}

static inline double state_sign(dice *d)
{
    return dice_chance(d, 0.5) ? 1 : -1;
}

static inline double state_load(dice *d, double share, double most)
{
    return dice_chance(d, share) ? state_sign(d) * (dice_chance(d, 0.5) ? most : most * dice_size(d, 1e-3, 1)) : 0;
}

/* Loads of like size in the unit of the moment that yields the tube, so that they compete. */
static inline void put_loads(dice *d, sample *s, bool simple)
{
    rbow_member *m = &s->member;
    rbow_section q;
    rbow_section_of(m->od, m->wall, &q);
    const double bend = q.section_modulus * s->material.yield, l = m->length;
    m->moment_a = state_load(d, 0.6, bend);
    m->moment_b = state_load(d, 0.6, bend);
    m->spread_load = state_load(d, 0.6, 8 * bend / (l * l));
    m->point_load = state_load(d, 0.5, 4 * bend / l);
    m->bow = dice_chance(d, 0.6) ? l * 0.01 * dice_size(d, 1e-3, 1) : 0;
    m->miss_a = dice_chance(d, 0.3) ? l * 0.01 * dice_size(d, 1e-2, 1) : 0;
    m->miss_b = dice_chance(d, 0.3) && !member_is_free(m) ? l * 0.01 * dice_size(d, 1e-2, 1) : 0;
    m->eccentricity = dice_chance(d, 0.3) ? m->od * dice_between(d, 0, 0.3) : 0;
    double *const clocks[] = {&m->moment_clock, &m->spread_clock, &m->point_clock, &m->bow_clock,
                              &m->miss_a_clock, &m->miss_b_clock, &m->eccentricity_clock};
    for (size_t i = 0; i < sizeof clocks / sizeof *clocks; i++)
        *clocks[i] = simple ? (dice_chance(d, 0.5) ? 0 : M_PI) : dice_chance(d, 0.3) ? M_PI / 2 * dice_below(d, 4) : random_clock(d);
}

static inline void make_symmetric(dice *d, sample *s)
{
    rbow_member *m = &s->member;
    m->end_b = m->end_a;
    m->moment_b = m->moment_a;
    m->point_at = m->bow_at = RBOW_UNSET;
    m->miss_b = m->miss_a;
    m->miss_b_clock = m->miss_a_clock;
    m->eccentricity = 0;
    m->vertical_g = dice_chance(d, 0.3) ? 2 : 0;
}

static inline void make_antisymmetric(dice *d, sample *s)
{
    make_symmetric(d, s);
    rbow_member *m = &s->member;
    m->moment_b = -m->moment_a;
    m->miss_b_clock = m->miss_a_clock + M_PI;
    m->spread_load = m->point_load = m->bow = m->vertical_g = 0;
}

/* The axial load: a share of the critical load, some near it; or tension up to where waves decay within a cell. */
static inline double state_axial(dice *d, const prepared *p)
{
    const double unit = p->unit / p->member.length;
    switch (dice_below(d, 8)) {
        case 0: return p->critical_load * (1 - dice_size(d, 1e-6, 0.1));
        case 1: return fmin(M_PI * M_PI * unit * (1 + state_sign(d) * dice_size(d, 1e-12, 1e-1)), 0.999 * p->critical_load);
        case 2: return -unit * dice_size(d, 25, 3000);
        case 3: return -unit * dice_size(d, 0.1, 40);
        case 4: return unit * dice_size(d, 1e-9, 1) * state_sign(d);
        case 5: return -unit * (25 + state_sign(d) * dice_size(d, 1e-9, 1));
        default: return p->critical_load * dice_between(d, -0.5, 0.99);
    }
}

/* Returned: whether the state exists; s, p  a sample, made ready, whose push at load factor 1 is the state's */
static inline bool make_state(dice *d, sample *s, prepared *p)
{
    const int kind = dice_below(d, STATE_KINDS);
    rbow_member *m = &s->member;
    *s = random_sample(d);
    m->compression = m->gap = 0;
    put_loads(d, s, kind < 4);
    if (kind == 0 || kind == 4) make_symmetric(d, s);
    if (kind == 1) make_antisymmetric(d, s);
    if (kind == 2 || kind == 5) {
        m->weld_zone = m->length * state_share(d);
        m->point_at = dice_chance(d, 0.4) ? m->weld_zone : m->length * state_share(d);
        m->bow_at = dice_chance(d, 0.4) ? m->length - m->weld_zone : dice_chance(d, 0.3) ? m->point_at : m->length * state_share(d);
        if (dice_chance(d, 0.2)) m->bow_at = m->point_at = m->weld_zone;
    }
    if (kind == 3 && !member_is_free(m)) m->end_a = m->end_b = rigidity_per_length(s) * dice_size(d, 1e-7, 0.1);
    if (m->bow_shape == RBOW_BOW_KINK) m->bow = fmin(m->bow, 0.1 * fmin(or_middle(m->bow_at, m->length), m->length - or_middle(m->bow_at, m->length)));
    if (!make_ready(s, p)) return false;
    m->compression = state_axial(d, p);
    return make_ready(s, p);
}

typedef struct state {
    sample s;
    prepared p;
    evaluation e;
    equilibrium solved;
    double moment_noise, movement_noise; /* what maximum.h allows to rounding */
} state;

static inline bool next_state(dice *d, state *o)
{
    if (!make_state(d, &o->s, &o->p)) return false;
    rbow_evaluate(&o->p, 1, dice_chance(d, 0.5), &o->e);
    if (!o->e.stands) return false;
    o->solved = equilibrium_from(&o->p.beam, &o->e.solution);
    double shares = 0;
    for (int i = 0; i < SHAPES; i++) shares += hypot(o->e.solution.share[i][UP], o->e.solution.share[i][RIGHT]);
    o->moment_noise = 2e-14 * shares;
    for (int i = 0; i < PLANES; i++) shares += fabs(o->e.solution.turn[i]) + fabs(o->e.solution.offset[i]);
    o->movement_noise = 2e-14 * shares;
    return true;
}

static inline double moment_size(const equilibrium *e, double t, double side)
{
    const station there = station_at(e->beam, t, side);
    const location at = location_of(&there);
    moments m;
    moments_at(e, &at, &m);
    return hypot(m.m[UP], m.m[RIGHT]);
}

static inline double movement_size(const equilibrium *e, double t, double side)
{
    const station there = station_at(e->beam, t, side);
    const location at = location_of(&there);
    double w[PLANES], dw[PLANES];
    movements_at(e, &at, w, dw);
    return hypot(w[UP], w[RIGHT]);
}

#endif
