/* The first load factor at which a limit is reached, where the climb to it has humps: members whose strength is fitted so
 * that a hump's top passes the limit by little, against a scan of the whole range. */
#include "members.h"

#include "engine/factor.h"

#include <gsl/gsl_errno.h>

enum { PLACES = 128, TRUE_PLACES = 400, MEMBERS = 12000 };

typedef enum limit { YIELD, INTERACTION } limit;

typedef struct range {
    double low, high;
} range;

static double level_at(const frame *f, limit which, double factor)
{
    sight s;
    sight_at(f, factor, f->tension, &s);
    if (!s.stands) return INFINITY;
    return which == YIELD ? s.stress.use : s.together.value;
}

static double larger(const zone z[2], double (*of)(const zone *))
{
    return fmax(of(&z[0]), of(&z[1]));
}

static double squash(const zone *z)
{
    return z->compression_yield * z->section.area;
}

static double pull(const zone *z)
{
    return z->yield * z->section.area;
}

/* Where a limit may be reached (rbow_result in member.h); empty where the climb has no end or no start. */
static range range_of(const frame *f, limit which)
{
    const double push = f->member.compression, t = f->tension, critical = (f->critical_load + t) / push * (1 - 1e-10);
    if (which == YIELD && push > 0) return (range){0, fmin(critical, (larger(f->zones, squash) + t) / push)};
    if (which == YIELD && push < 0) return (range){0, (larger(f->zones, pull) - t) / -push};
    if (which == INTERACTION && push > 0) return (range){0, fmin((f->column_load + t) / push, critical)};
    if (which == INTERACTION && push < 0 && t < 0) return (range){0, t / push};
    return (range){0, 0};
}

static double place(range r, int i, int of)
{
    return r.low + (r.high - r.low) * i / of;
}

/* ---- members with a hump ------------------------------------------------------------------------------ */

/* Forced and loaded from several sides, to the order of what bends the tube to yield. */
static sample much_loaded(dice *d)
{
    sample s = random_sample(d);
    rbow_member *m = &s.member;
    rbow_section q;
    s.material.column_curve = (rbow_curve)(1 + dice_below(d, RBOW_CURVE_COUNT - 1));
    rbow_section_of(m->od, m->wall, &q);
    const double l = m->length, e = s.material.elastic_modulus, fits = fmin(1, s.material.yield / e * l / m->od);
    const double euler = 9.87 * e * q.inertia / (l * l), yields = q.area * s.material.yield;
    const double bend = q.section_modulus * s.material.yield, size = dice_chance(d, 0.5) ? 1 : dice_size(d, 1e-3, 10);
    const bool free_b = m->end_b <= RBOW_FREE && m->end_b >= RBOW_FREE;
    m->miss_a = dice_chance(d, 0.7) ? l * dice_between(d, 0, 0.17) * fits : 0;
    m->miss_b = !free_b && dice_chance(d, 0.7) ? l * dice_between(d, 0, 0.17) * fits : 0;
    m->gap = free_b || dice_chance(d, 0.4) ? 0 : -dice_between(d, 0, 1) * fmin(euler, yields) * l / (q.area * e);
    m->gap_stiffness = INFINITY;
    m->compression = dice_between(d, -1, 1) * fmin(yields, 3 * euler) * (dice_chance(d, 0.3) ? 0.1 : 1);
    m->moment_a = some(d, 0.4, bend) * size;
    m->moment_b = some(d, 0.4, bend) * size;
    m->point_load = some(d, 0.4, 4 * bend / l) * size;
    m->spread_load = some(d, 0.4, 8 * bend / (l * l)) * size;
    return s;
}

static bool make(const sample *s, frame *f)
{
    rbow_status status;
    return frame_faults(&s->member, &s->material, &status, 1) == 0 && frame_build(&s->member, &s->material, f) == RBOW_OK
        && -f->tension < f->critical_load;
}

/* The last place of a hump that is higher than all before, or -1. */
static int hump_of(const frame *f, limit which, range r)
{
    double level[PLACES + 1], most = -INFINITY;
    int hump = -1;
    for (int i = 0; i <= PLACES; i++) level[i] = level_at(f, which, place(r, i, PLACES));
    for (int i = 0; i < PLACES && level[i] < 50; i++) {
        if (i > 0 && level[i] > most && level[i] >= level[i - 1] && level[i] > level[i + 1]) hump = i;
        most = fmax(most, level[i]);
    }
    return hump;
}

static sample with_strength(const sample *s, double times)
{
    sample other = *s;
    other.material.yield *= times;
    other.material.compression_yield *= times;
    other.material.weld_yield *= times;
    other.material.column_intercept *= times;
    return other;
}

/* The strength at which the level at a load factor is 1 + over. */
static bool fit_strength(sample *s, limit which, double factor, double over)
{
    double weak = 0.02, strong = 50;
    frame f;
    for (int i = 0; i < 45; i++) {
        const double times = sqrt(weak * strong);
        const sample tried = with_strength(s, times);
        const bool thin = rbow_member_faults(&tried.member, &tried.material, NULL, 0) > 0; /* the wall rule */
        if (!thin && !make(&tried, &f)) return false;
        if (!thin && level_at(&f, which, factor) > 1 + over)
            weak = times;
        else
            strong = times;
    }
    *s = with_strength(s, weak);
    return make(s, &f) && fabs(level_at(&f, which, factor) - 1 - over) < 1e-6;
}

/* ---- what is true -------------------------------------------------------------------------------------- */

/* The first place of a scan that is over the limit, or of a hump whose top is, climbed by golden sections. */
static double first_over(const frame *f, limit which, range r)
{
    const double golden = 0.381966011250105;
    double last[2] = {-1, -1};
    for (int i = 0; i <= TRUE_PLACES; i++) {
        const double here = level_at(f, which, place(r, i, TRUE_PLACES));
        if (here >= 1) return place(r, i, TRUE_PLACES);
        if (i > 1 && last[1] > last[0] && last[1] >= here && last[1] > 0.8) {
            double low = place(r, i - 2, TRUE_PLACES), high = place(r, i, TRUE_PLACES);
            for (int k = 0; k < 60; k++) {
                const double a = low + golden * (high - low), b = high - golden * (high - low);
                const double at_a = level_at(f, which, a), at_b = level_at(f, which, b);
                if (fmax(at_a, at_b) >= 1) return at_a >= 1 ? a : b;
                if (at_a > at_b)
                    high = b;
                else
                    low = a;
            }
        }
        last[0] = last[1];
        last[1] = here;
    }
    return INFINITY;
}

START_TEST(no_hump_is_passed_over)
{
    static const double overs[] = {1e-5, 1e-3, 1e-2, 0.05};
    dice d = {20261125};
    int tested = 0;
    for (int i = 0; i < MEMBERS; i++) {
        const sample any = much_loaded(&d);
        const limit which = dice_chance(&d, 0.5) ? YIELD : INTERACTION;
        const double over = overs[dice_below(&d, 4)];
        frame f;
        if (!make(&any, &f) || f.tension > 0) continue;
        const range whole = range_of(&f, which);
        if (!(whole.high > whole.low)) continue;
        const int hump = hump_of(&f, which, whole);
        sample s = any;
        if (hump < 0 || !fit_strength(&s, which, place(whole, hump, PLACES), over)) continue;
        factors k;
        sight fit, loaded;
        make(&s, &f);
        sight_at(&f, 0, f.tension, &fit);
        sight_at(&f, 1, f.tension, &loaded);
        ck_assert_int_eq(factors_of(&f, &fit, &loaded, &k), RBOW_OK);
        const double reached = which == YIELD ? k.yield.factor : k.interaction.factor;
        const range before = {0, fmin(range_of(&f, which).high, reached * (1 - 1e-6))};
        sample_holds(&s, "below its limit before", first_over(&f, which, before) >= before.high);
        if (isfinite(reached) && reached > 0)
            sample_near(&s, "level at the limit", level_at(&f, which, reached * (1 + 1e-9)), 1, 0, 1e-6);
        tested++;
    }
    ck_assert_int_gt(tested, 60);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, no_hump_is_passed_over);
    tcase_set_timeout(cases, 300);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("engine/climb", fill);
}
