/* Members for tests: plain ones, and random ones that cover every input. */
#ifndef TESTS_ENGINE_MEMBERS_H
#define TESTS_ENGINE_MEMBERS_H

#include "dice.h"
#include "near.h"

#include <railbow/member.h>

#include <stdio.h>
#include <string.h>

/* Made up for the tests, with values like normalized tube's. */
static const rbow_material steel = {
    .name = "steel", .wall_over = -INFINITY, .wall_up_to = INFINITY, .elastic_modulus = 29e6, .shear_modulus = 11e6,
    .density = 0.283, .yield = 75e3, .compression_yield = 75e3, .ultimate = 95e3, .weld_yield = 60e3,
    .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON, .source = "test",
};

static inline rbow_member tube_of(double od, double wall, double length)
{
    rbow_member m = rbow_member_default();
    m.eccentricity_clock = m.bow_clock = m.miss_a_clock = m.miss_b_clock = m.weld_zone = 0; /* all is known */
    m.od = od;
    m.wall = wall;
    m.length = length;
    return m;
}

typedef struct sample {
    rbow_member member;
    rbow_material material;
} sample;

static inline void print_number(const char *name, double value, const char *end)
{
    if (value >= RBOW_FREE && value <= RBOW_FREE && strncmp(name, "end_", 4) == 0)
        fprintf(stderr, "free%s", end);
    else if (value >= RBOW_WELDED && value <= RBOW_WELDED && strncmp(name, "end_", 4) == 0)
        fprintf(stderr, "welded%s", end);
    else if (value >= RBOW_SOFT_WELD && value <= RBOW_SOFT_WELD && strncmp(name, "end_", 4) == 0)
        fprintf(stderr, "(soft weld)%s", end); /* no word of a file */
    else if (value >= RBOW_STIFF_WELD && value <= RBOW_STIFF_WELD && strncmp(name, "end_", 4) == 0)
        fprintf(stderr, "(stiff weld)%s", end);
    else if (isinf(value) && strncmp(name, "end_", 4) == 0)
        fprintf(stderr, "fixed%s", end);
    else if (isinf(value) || value <= RBOW_UNSET)
        fprintf(stderr, "%s", end); /* the default */
    else
        fprintf(stderr, "%.17g%s", value, end);
}

/* As two files: `railbow check --materials THE_FIRST THE_SECOND` does it again. */
static inline void print_sample(const sample *s)
{
    static const char *const curves[] = {"", "johnson", "three-halves", "euler", "aisc", "en-a0", "en-a", "en-b", "en-c", "en-d"};
    static const char *const shapes[] = {"sine", "arc", "kink"};
    const rbow_member *m = &s->member;
    const rbow_material *k = &s->material;
    fprintf(stderr, "material,elastic_modulus [psi],shear_modulus [psi],density [lb/in^3],yield [psi],compression_yield [psi],"
                    "ultimate [psi],weld_yield [psi],column_intercept [psi],column_curve,source\n"
                    "it,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%s,a test\n",
            k->elastic_modulus, k->shear_modulus, k->density, k->yield, k->compression_yield, fmax(k->ultimate, k->yield),
            k->weld_yield, k->column_intercept, curves[k->column_curve]);
    const struct {
        const char *name;
        double value;
    } columns[] = {
        {"od [in]", m->od}, {"wall [in]", m->wall}, {"length [in]", m->length}, {"end_a [in-lbf/rad]", m->end_a},
        {"end_b [in-lbf/rad]", m->end_b}, {"compression [lbf]", m->compression}, {"eccentricity [in]", m->eccentricity},
        {"eccentricity_clock [rad]", m->eccentricity_clock}, {"moment_a [in-lbf]", m->moment_a},
        {"moment_b [in-lbf]", m->moment_b}, {"moment_clock [rad]", m->moment_clock}, {"point_load [lbf]", m->point_load},
        {"point_at [in]", m->point_at}, {"point_clock [rad]", m->point_clock}, {"spread_load [lbf/in]", m->spread_load},
        {"spread_clock [rad]", m->spread_clock}, {"vertical_g", m->vertical_g}, {"slope [rad]", m->slope},
        {"torque [in-lbf]", m->torque}, {"bow [in]", m->bow}, {"bow_clock [rad]", m->bow_clock}, {"bow_at [in]", m->bow_at},
        {"miss_a [in]", m->miss_a}, {"miss_a_clock [rad]", m->miss_a_clock}, {"miss_b [in]", m->miss_b},
        {"miss_b_clock [rad]", m->miss_b_clock}, {"gap [in]", m->gap}, {"gap_stiffness [lbf/in]", m->gap_stiffness},
        {"weld_zone [in]", m->weld_zone}, {"dressed [in]", m->dressed}, {"factor", m->factor}, {"factor_yield", m->factor_yield},
    };
    const size_t count = sizeof columns / sizeof *columns;
    for (size_t i = 0; i < count; i++) fprintf(stderr, "%s,", columns[i].name);
    fprintf(stderr, "case,material,column_curve,bow_shape\n");
    for (size_t i = 0; i < count; i++) print_number(columns[i].name, columns[i].value, ",");
    fprintf(stderr, "failed,it,%s,%s\n", curves[m->column_curve], shapes[m->bow_shape]);
}

/* Fails with the member in full. */
static inline void sample_near(const sample *s, const char *what, double got, double want, double rel, double abs_)
{
    if (isnan(want) && isnan(got)) return;
    if (isinf(want) && isinf(got) && want * got > 0) return;
    if (fabs(got - want) <= rel * fabs(want) + abs_) return;
    print_sample(s);
    ck_abort_msg("%s = %.15g, want %.15g", what, got, want);
}

static inline void sample_holds(const sample *s, const char *what, bool holds)
{
    if (holds) return;
    print_sample(s);
    ck_abort_msg("not so: %s", what);
}

static inline rbow_result check_sample(const sample *s)
{
    rbow_result r;
    const rbow_status status = rbow_member_check(&s->member, &s->material, &r);
    if (status == RBOW_OK) return r;
    print_sample(s);
    ck_abort_msg("status %d: %s %s", (int)status, rbow_status_input(status), rbow_status_text(status));
    return r;
}

static inline rbow_result check(const rbow_member *m, const rbow_material *k)
{
    const sample s = {*m, *k};
    return check_sample(&s);
}

/* The concrete member that governs: of all that is checked of it, what is built in is kept. */
static inline sample taken_of(const sample *s)
{
    const rbow_result r = check_sample(s);
    return (sample){rbow_member_taken(&s->member, &r), s->material};
}

/* lbf, of a concrete member: the result's critical load is that of soft welds. */
static inline double buckling_load(const sample *s)
{
    sample sprung = *s;
    rbow_member *m = &sprung.member;
    if (m->end_a <= RBOW_STIFF_WELD && m->end_a >= RBOW_STIFF_WELD) m->end_a = RBOW_FIXED;
    if (m->end_b <= RBOW_STIFF_WELD && m->end_b >= RBOW_STIFF_WELD) m->end_b = RBOW_FIXED;
    return check_sample(&sprung).critical_load;
}

/* A pinned tube under a slight push, with nothing to remark. */
static inline rbow_member sound(void)
{
    rbow_member m = tube_of(1.25, 0.049, 30);
    m.compression = 500;
    return m;
}

/* ---- random members --------------------------------------------------------------------------------- */

static inline rbow_material random_material(dice *d)
{
    rbow_material k = steel;
    k.elastic_modulus = dice_between(d, 9e6, 31e6);
    k.density = dice_between(d, 0.09, 0.3);
    k.yield = dice_between(d, 30e3, 160e3);
    k.compression_yield = k.yield * dice_between(d, 0.9, 1.15);
    k.weld_yield = k.yield * dice_between(d, 0.5, 1);
    k.column_intercept = k.compression_yield * dice_between(d, 0.95, 1.15);
    k.column_curve = (rbow_curve)(1 + dice_below(d, RBOW_CURVE_COUNT - 1));
    return k;
}

static inline double random_end(dice *d, double unit)
{
    switch (dice_below(d, 6)) {
        case 0: return RBOW_PINNED;
        case 1: return RBOW_FIXED;
        case 2: return RBOW_SOFT_WELD;
        case 3: return RBOW_STIFF_WELD;
        default: return unit * dice_size(d, 0.01, 100);
    }
}

static inline bool holds_a_moment(double end)
{
    return end > 0 || end <= RBOW_STIFF_WELD;
}

static inline void random_tube(dice *d, sample *s)
{
    rbow_member *m = &s->member;
    const double e = s->material.elastic_modulus, strongest = fmax(s->material.compression_yield, s->material.weld_yield);
    const double thinnest = fmin(0.44 * e / strongest, 120);
    m->od = dice_size(d, 0.25, 4);
    m->wall = dice_chance(d, 0.05) ? m->od / 2 : m->od / dice_size(d, 2, thinnest);
    m->length = m->od * dice_size(d, 5, 120);
    rbow_section section;
    rbow_section_of(m->od, m->wall, &section);
    const double unit = e * section.inertia / m->length;
    m->end_a = random_end(d, unit);
    m->end_b = random_end(d, unit);
    if (holds_a_moment(m->end_a) && dice_chance(d, 0.2)) {
        m->end_b = RBOW_FREE;
        if (!(m->end_a > 0)) m->end_a = RBOW_FIXED;
    }
    m->column_curve = dice_below(d, RBOW_CURVE_COUNT);
    if (dice_chance(d, 0.5)) m->weld_zone = m->length * dice_between(d, 0, dice_chance(d, 0.1) ? 1 : 0.3);
    const double most = m->wall - (m->od - m->wall) / (thinnest / 2); /* keeps the dressed wall within the rule */
    if (dice_chance(d, 0.3) && most > 0) m->dressed = dice_between(d, 0, 0.3) * most;
}

static inline double random_clock(dice *d)
{
    return dice_chance(d, 0.3) ? 0 : dice_between(d, -7, 7);
}

static inline double some(dice *d, double share, double most)
{
    return dice_chance(d, share) ? dice_between(d, -most, most) : 0;
}

/* Loads about as large as the tube can take. */
static inline void random_loads(dice *d, sample *s)
{
    rbow_member *m = &s->member;
    const double free_b = m->end_b <= RBOW_FREE && m->end_b >= RBOW_FREE ? 0.25 : 1;
    rbow_section section;
    rbow_section_of(m->od, m->wall, &section);
    const double squash = section.area * s->material.yield, l = m->length;
    const double euler = 9.87 * s->material.elastic_modulus * section.inertia / (l * l) * free_b;
    const double bend = 0.4 * section.section_modulus * s->material.yield;
    if (dice_chance(d, 0.8)) m->compression = dice_between(d, dice_chance(d, 0.3) ? -0.7 : 0, 0.7) * fmin(squash, euler);
    if (dice_chance(d, 0.4)) m->eccentricity = m->od * dice_between(d, 0, 0.3);
    m->moment_a = some(d, 0.3, bend);
    m->moment_b = some(d, 0.3, bend);
    m->point_load = some(d, 0.4, 4 * bend / l * free_b);
    if (dice_chance(d, 0.6)) m->point_at = l * (dice_chance(d, 0.1) ? dice_below(d, 2) : dice_between(d, 0.02, 0.98));
    m->spread_load = some(d, 0.4, 8 * bend / (l * l) * free_b);
    m->vertical_g = some(d, 0.5, 5);
    m->slope = some(d, 0.5, 1.5);
    m->torque = some(d, 0.4, bend);
    m->eccentricity_clock = random_clock(d);
    m->moment_clock = random_clock(d);
    m->point_clock = random_clock(d);
    m->spread_clock = random_clock(d);
}

static inline void random_fit(dice *d, sample *s)
{
    rbow_member *m = &s->member;
    const double l = m->length;
    rbow_section section;
    rbow_section_of(m->od, m->wall, &section);
    const double rigidity = s->material.elastic_modulus * section.area / l;
    const double euler = 9.87 * s->material.elastic_modulus * section.inertia / (l * l);
    const double reach = 0.2 * fmin(s->material.yield * section.area, euler);
    m->bow_shape = dice_below(d, 3);
    m->bow_at = dice_chance(d, 0.5) ? l * dice_between(d, 0.05, 0.95) : RBOW_UNSET;
    if (dice_chance(d, 0.5)) m->bow = l * dice_between(d, 0, 0.005);
    const double steep = fmin(1, s->material.yield / s->material.elastic_modulus * l / m->od);
    if (dice_chance(d, 0.4) && holds_a_moment(m->end_a)) m->miss_a = l * dice_between(d, 0, 0.1) * steep;
    m->bow_clock = random_clock(d);
    m->miss_a_clock = random_clock(d);
    m->miss_b_clock = random_clock(d);
    if (m->end_b <= RBOW_FREE && m->end_b >= RBOW_FREE) return;
    if (dice_chance(d, 0.4) && holds_a_moment(m->end_b)) m->miss_b = l * dice_between(d, 0, 0.1) * steep;
    if (dice_chance(d, 0.5)) m->gap_stiffness = rigidity * dice_size(d, 0.01, 100);
    m->gap = some(d, 0.4, reach * (1 / rigidity + 1 / m->gap_stiffness));
}

static inline sample random_sample(dice *d)
{
    sample s = {tube_of(NAN, NAN, NAN), random_material(d)};
    random_tube(d, &s);
    random_loads(d, &s);
    random_fit(d, &s);
    s.member.factor = dice_between(d, 1, 2);
    if (dice_chance(d, 0.5)) s.member.factor_yield = dice_between(d, 1, 2);
    return s;
}

/* Everything that grows with the load factor, times one number; a weight through the g. */
static inline rbow_member with_loads(rbow_member m, double by)
{
    m.compression *= by;
    m.moment_a *= by;
    m.moment_b *= by;
    m.point_load *= by;
    m.spread_load *= by;
    m.vertical_g *= by;
    m.torque *= by;
    return m;
}

#endif
