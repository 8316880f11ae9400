/* The first load factor at which a limit is reached, where the way to it has humps, knees and flat stretches: members whose
 * strength is fitted so that the top of a hump passes its limit by little, against a scan of the whole range by single
 * evaluations with every maximum refined.
 *
 * RAILBOW_HUMPS  how many members are tried for a hump; 3000 by default */
#include "states.h"

#include "check/first_crossing.h"

#include <gsl/gsl_errno.h>

enum { PLACES = 128, TRUE_PLACES = 600 };

typedef struct range {
    double low, high;
} range;

static double level(const prepared *p, limit which, double factor)
{
    return level_at(p, which, factor);
}

/* To just short of the end of what the search is asked for (load_factors.c); empty where there is none. */
static range range_of(const prepared *p, limit which)
{
    const double push = p->member.compression, t = p->tension, critical = critical_factor(p) * (1 - 1e-10);
    const zone *tube = &p->zones[ZONE_TUBE], *weld = &p->zones[ZONE_WELD];
    const rbow_strength *of_tube = &tube->strength, *w = &weld->strength;
    const double squash = fmax(of_tube->compression_yield * of_tube->section.area, w->compression_yield * w->section.area);
    const double pull = fmax(of_tube->yield * of_tube->section.area, w->yield * w->section.area);
    if (which == LIMIT_YIELD && push > 0) return (range){0, fmin(critical, (squash + t) / push)};
    if (which == LIMIT_YIELD && push < 0) return (range){0, (pull - t) / -push};
    if (which == LIMIT_INTERACTION && push > 0) return (range){fmax(0, t / push), fmin((p->column_load + t) / push, critical)};
    if (which == LIMIT_INTERACTION && push < 0 && t < 0) return (range){0, t / push};
    return (range){0, 0};
}

static double part_of(range r, int i, int of)
{
    return i == of ? r.high : r.low + (r.high - r.low) * i / of;
}

/* The highest place between two, by golden sections; stops at the first that reaches `enough`. */
static double top_between(const prepared *p, limit which, double low, double high, double enough)
{
    const double cut = 0.61803398874989485;
    double left = high - cut * (high - low), right = low + cut * (high - low);
    double at_left = level(p, which, left), at_right = level(p, which, right);
    for (int i = 0; i < 60; i++) {
        if (fmax(at_left, at_right) >= enough) return at_left >= enough ? left : right;
        if (at_left >= at_right) {
            high = right, right = left, at_right = at_left;
            left = high - cut * (high - low), at_left = level(p, which, left);
        } else {
            low = left, left = right, at_left = at_right;
            right = low + cut * (high - low), at_right = level(p, which, right);
        }
    }
    return at_left >= at_right ? left : right;
}

static double bisect(const prepared *p, limit which, double below, double beyond)
{
    for (int i = 0; i < 100; i++) {
        const double middle = below + (beyond - below) / 2;
        *(level(p, which, middle) >= 1 ? &beyond : &below) = middle;
    }
    return beyond;
}

/* The first place of the range that reaches 1, INFINITY for none; highest: the highest level before it. */
static double true_crossing(const prepared *p, limit which, range r, double *highest)
{
    double last[2] = {-1, -1};
    *highest = -1;
    for (int i = 0; i <= TRUE_PLACES; i++) {
        const double at = part_of(r, i, TRUE_PLACES), here = level(p, which, at);
        if (i > 1 && last[1] >= last[0] && last[1] >= here && last[1] > 0.8) {
            const double top = top_between(p, which, part_of(r, i - 2, TRUE_PLACES), at, 1), value = level(p, which, top);
            if (value >= 1) return bisect(p, which, part_of(r, i - 2, TRUE_PLACES), top);
            *highest = fmax(*highest, value);
        }
        if (here >= 1) return i == 0 ? r.low : bisect(p, which, part_of(r, i - 1, TRUE_PLACES), at);
        *highest = fmax(*highest, here);
        last[0] = last[1];
        last[1] = here;
    }
    return INFINITY;
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
    const bool free_b = member_is_free(m);
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

/* A slender tube whose ends are bent and pulled: the moment beyond strong weld zones grows with the load, then the pull
 * straightens the tube there. */
static sample bent_and_pulled(dice *d)
{
    sample s = {tube_of(1, 0.049, 0), steel};
    rbow_member *m = &s.member;
    s.material.yield = s.material.compression_yield = dice_between(d, 3e3, 8e3);
    s.material.weld_yield = 160e3;
    m->length = dice_size(d, 60, 120);
    const double unit = rigidity_per_length(&s), bend = 0.036 * s.material.yield;
    m->end_b = m->end_a = dice_chance(d, 0.6) ? RBOW_PINNED : unit * dice_size(d, 1e-3, 1);
    m->compression = -unit / m->length * dice_size(d, 1, 30);
    m->weld_zone = m->length * dice_between(d, 0.15, 0.48);
    m->moment_a = bend * dice_size(d, 1, 30) * state_sign(d);
    if (dice_chance(d, 0.7)) m->moment_b = m->moment_a * (dice_chance(d, 0.5) ? 1 : dice_between(d, -1, 1));
    if (dice_chance(d, 0.3)) m->spread_load = -8 * m->moment_a / m->length / m->length * dice_size(d, 0.01, 1);
    if (dice_chance(d, 0.3)) m->bow = m->length * dice_size(d, 1e-4, 1e-2);
    if (dice_chance(d, 0.2)) m->moment_clock = random_clock(d);
    if (dice_chance(d, 0.2)) m->torque = bend * dice_between(d, 0, 0.3);
    m->bow_shape = dice_below(d, 3);
    return s;
}

/* A push on a bow against an end moment: the moment next to the joint grows with the load, then the bow turns it. */
static sample bent_against_bow(dice *d)
{
    sample s = {tube_of(1.25, 0.058, dice_between(d, 40, 90)), steel};
    rbow_member *m = &s.member;
    s.material.weld_yield = 45e3;
    s.material.yield = s.material.compression_yield = 140e3;
    m->end_a = dice_chance(d, 0.5) ? RBOW_SOFT_WELD : rigidity_per_length(&s) * dice_size(d, 0.5, 50);
    m->end_b = dice_chance(d, 0.3) ? m->end_a : RBOW_PINNED;
    m->compression = 680 * dice_size(d, 0.3, 3);
    m->bow = m->length * dice_size(d, 1e-3, 1e-2);
    m->bow_shape = dice_below(d, 3);
    m->bow_clock = M_PI * (1 + (dice_chance(d, 0.2) ? dice_between(d, -0.02, 0.02) : 0));
    m->moment_a = 2330 * dice_size(d, 0.3, 3);
    m->miss_a = dice_chance(d, 0.3) ? m->length * dice_size(d, 1e-4, 1e-2) : 0;
    m->weld_zone = m->length * dice_size(d, 0.01, 0.3);
    if (dice_chance(d, 0.2)) m->torque = 2330 * dice_between(d, 0, 0.3);
    return s;
}

/* The first maximum of the level over the load factor that is higher than all before; 0 for none. */
static double hump_of(const prepared *p, limit which, range r)
{
    double levels[PLACES + 1], most = -INFINITY;
    for (int i = 0; i <= PLACES; i++) levels[i] = level(p, which, part_of(r, i, PLACES));
    for (int i = 0; i < PLACES && levels[i] < 50; i++) {
        if (i > 0 && levels[i] > most && levels[i] >= levels[i - 1] && levels[i] > levels[i + 1])
            return top_between(p, which, part_of(r, i - 1, PLACES), part_of(r, i + 1, PLACES), INFINITY);
        most = fmax(most, levels[i]);
    }
    return 0;
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

/* The strength at which the level at a load factor is 1 + over. Returned: whether it was found */
static bool fit_strength(sample *s, prepared *p, limit which, double factor, double over)
{
    double weak = 0.02, strong = 50;
    for (int i = 0; i < 60; i++) {
        const double times = sqrt(weak * strong);
        const sample tried = with_strength(s, times);
        const bool thin = rbow_member_faults(&tried.member, &tried.material, NULL, 0) > 0; /* the wall rule */
        if (!thin && !make_ready(&tried, p)) return false;
        *(!thin && level(p, which, factor) > 1 + over ? &weak : &strong) = times;
    }
    *s = with_strength(s, weak);
    return make_ready(s, p) && fabs(level(p, which, factor) - 1 - over) < 1e-3 * fabs(over);
}

/* A member whose level rises to 1 + over at the top of a hump, and falls again. */
static bool with_hump(dice *d, double over, sample *s, prepared *p, limit *which)
{
    *s = dice_chance(d, 0.3) ? bent_and_pulled(d) : dice_chance(d, 0.6) ? bent_against_bow(d) : much_loaded(d);
    *which = dice_chance(d, 0.5) ? LIMIT_YIELD : LIMIT_INTERACTION;
    if (!make_ready(s, p)) return false;
    for (int i = 0; i < 3; i++) { /* the strength moves the top a little */
        const range r = range_of(p, *which);
        const double top = r.high > r.low ? hump_of(p, *which, r) : 0;
        if (!(top > 0) || !fit_strength(s, p, *which, top, over)) return false;
    }
    const range r = range_of(p, *which);
    const double top = r.high > r.low ? hump_of(p, *which, r) : 0;
    return top > 0 && fabs(level(p, *which, top) - 1 - over) < 0.1 * fabs(over);
}

static double search(const sample *s, const prepared *p, limit which, range r)
{
    path way = rbow_path_of(p);
    const double found = rbow_first_crossing(&way, which, r.low, r.high);
    sample_holds(s, "no failure", !way.failed);
    return found;
}

START_TEST(no_hump_is_passed_over)
{
    static const double overs[] = {1e-6, 1e-5, 1e-4, 1e-3, 1e-2};
    const long members = number_from("RAILBOW_HUMPS", 3000);
    dice d = {20261125 + (uint64_t)number_from("RAILBOW_SEED", 0)};
    int pulled = 0, pushed = 0, of[LIMITS] = {0};
    for (long i = 0; i < members; i++) {
        sample s;
        prepared p;
        limit which;
        double highest;
        if (!with_hump(&d, overs[dice_below(&d, 5)], &s, &p, &which)) continue;
        const range r = range_of(&p, which);
        const double found = search(&s, &p, which, r), want = true_crossing(&p, which, r, &highest);
        sample_near(&s, "first crossing", found, want, 1e-7, 0);
        *(s.member.compression < 0 ? &pulled : &pushed) += 1;
        of[which]++;
    }
    if (getenv("RAILBOW_HUMPS") != NULL) printf("%d pulled, %d pushed; %d by yield, %d by interaction\n", pulled, pushed, of[0], of[1]);
    ck_assert_int_gt(pulled, members / 4000);
    ck_assert_int_gt(pushed, members / 2000);
    for (int i = 0; i < LIMITS; i++) ck_assert_int_gt(of[i], members / 2000);
}
END_TEST

/* A hump that stays below the limit by little decides nothing, however flat; one that exceeds it by less than the search
 * promises may count or not. */
START_TEST(a_flat_level_below_the_limit_is_passed)
{
    static const double overs[] = {-1e-4, -1e-6, -1e-8, -1e-9, 1e-9, 3e-8};
    const long members = number_from("RAILBOW_HUMPS", 3000);
    dice d = {20261126 + (uint64_t)number_from("RAILBOW_SEED", 0)};
    int tested = 0;
    for (long i = 0; i < members; i++) {
        sample s;
        prepared p;
        limit which;
        double highest;
        const double over = overs[dice_below(&d, 6)];
        if (!with_hump(&d, over, &s, &p, &which)) continue;
        const range r = range_of(&p, which);
        const double found = search(&s, &p, which, r), want = true_crossing(&p, which, r, &highest);
        if (over < 0 && highest < 1 - 1e-11) sample_near(&s, "crossing behind the flat level", found, want, 1e-7, 0);
        if (!(found <= want * (1 + 1e-7))) /* what was passed is negligible */
            sample_holds(&s, "no more than a ten-millionth over", level(&p, which, want) < 1 + 1e-7);
        if (isfinite(found)) sample_holds(&s, "at the limit", level(&p, which, found * (1 + 1e-7)) >= 1 - 1e-9);
        tested++;
    }
    ck_assert_int_gt(tested, members / 50);
}
END_TEST

/* ---- knees ------------------------------------------------------------------------------------------------ */

/* The weld takes over from the tube, or the tube from it, within some 1e-9 of where the limit is. */
START_TEST(a_knee_between_zones_is_met)
{
    dice d = {88};
    int tested = 0;
    for (int i = 0; i < 6000; i++) {
        sample s = dice_chance(&d, 0.5) ? random_sample(&d) : much_loaded(&d);
        prepared p;
        double highest;
        if (!make_ready(&s, &p) || !(s.member.weld_zone > 0) || p.stations.t[p.station_count - 1] < 0.5) continue;
        s.material.weld_yield = s.material.yield * 4; /* the tube alone decides */
        if (!make_ready(&s, &p)) continue;
        const range r = range_of(&p, LIMIT_YIELD);
        if (!(r.high > r.low)) continue;
        const double tube = search(&s, &p, LIMIT_YIELD, r);
        if (!(tube > 0 && isfinite(tube))) continue;
        evaluation e;
        rbow_evaluate(&p, tube, false, &e);
        if (!e.stands || !(e.peaks[ZONE_WELD].size > 0)) continue;
        const zone *z = &p.zones[ZONE_WELD];
        const double bending = e.peaks[ZONE_WELD].size * z->factors.stress_per_moment, direct = e.axial * z->factors.stress_per_axial;
        const double shear = tube * s.member.torque * z->factors.stress_per_torque;
        s.material.weld_yield = hypot(fmax(0, bending + fabs(direct)), shear) * (1 + state_sign(&d) * dice_size(&d, 1e-12, 1e-6));
        if (rbow_member_faults(&s.member, &s.material, NULL, 0) > 0 || !make_ready(&s, &p)) continue;
        const range again = range_of(&p, LIMIT_YIELD);
        sample_near(&s, "crossing at a knee", search(&s, &p, LIMIT_YIELD, again), true_crossing(&p, LIMIT_YIELD, again, &highest), 1e-7, 0);
        tested++;
    }
    ck_assert_int_gt(tested, 500);
}
END_TEST

/* Both limits are scanned on one path: each is what it is alone, in either order. */
START_TEST(limits_of_one_path_do_not_disturb_each_other)
{
    dice d = {89};
    int tested = 0;
    for (int i = 0; i < 3000; i++) {
        const sample s = dice_chance(&d, 0.5) ? random_sample(&d) : much_loaded(&d);
        prepared p;
        if (!make_ready(&s, &p) || !(s.member.compression > 0)) continue;
        const range y = range_of(&p, LIMIT_YIELD), a = range_of(&p, LIMIT_INTERACTION);
        const double yield = search(&s, &p, LIMIT_YIELD, y), both = a.high > a.low ? search(&s, &p, LIMIT_INTERACTION, a) : (double)INFINITY;
        path way = rbow_path_of(&p);
        if (a.high > a.low) sample_near(&s, "interaction first", rbow_first_crossing(&way, LIMIT_INTERACTION, a.low, a.high), both, 2e-8, 0);
        sample_near(&s, "then yield", rbow_first_crossing(&way, LIMIT_YIELD, y.low, y.high), yield, 2e-8, 0);
        tested++;
    }
    ck_assert_int_gt(tested, 1000);
}
END_TEST

/* A range that ends before the crossing has none; one that begins beyond it, begins there. */
START_TEST(a_range_ends_the_search)
{
    dice d = {90};
    int tested = 0;
    for (int i = 0; i < 2000; i++) {
        const sample s = random_sample(&d);
        prepared p;
        if (!make_ready(&s, &p)) continue;
        const range r = range_of(&p, LIMIT_YIELD);
        const double found = r.high > r.low ? search(&s, &p, LIMIT_YIELD, r) : (double)INFINITY;
        if (!(found > 0 && isfinite(found))) continue;
        sample_holds(&s, "none before", isinf(search(&s, &p, LIMIT_YIELD, (range){0, found * (1 - 1e-6)})));
        const double beyond = found * (1 + 1e-6);
        if (level(&p, LIMIT_YIELD, beyond) >= 1) sample_near(&s, "at once", search(&s, &p, LIMIT_YIELD, (range){beyond, beyond * 2}), beyond, 1e-15, 0);
        tested++;
    }
    ck_assert_int_gt(tested, 1000);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, no_hump_is_passed_over);
    tcase_add_test(cases, a_flat_level_below_the_limit_is_passed);
    tcase_add_test(cases, a_knee_between_zones_is_met);
    tcase_add_test(cases, limits_of_one_path_do_not_disturb_each_other);
    tcase_add_test(cases, a_range_ends_the_search);
    tcase_set_timeout(cases, 3000);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/first_crossing", fill);
}
