/* What is not known of a member, against brute force: every corner, every fit and every direction, each as a concrete
 * member of which all is known. */
#include "classes.h"

#include "check/load_factors.h"

#include <gsl/gsl_errno.h>

static const double degree = 3.14159265358979323846 / 180;
static const double full_turn = 2 * 3.14159265358979323846;
static const double found_to = 1e-6;

enum { CLOCKS_MOST = 4, ONE_STEP = 360, TWO_STEPS = 72 };

static double *clock_of(rbow_member *m, int i)
{
    double *const clocks[CLOCKS_MOST] = {&m->bow_clock, &m->miss_a_clock, &m->miss_b_clock, &m->eccentricity_clock};
    return clocks[i];
}

static bool clock_matters(const rbow_member *m, int i)
{
    const double sizes[CLOCKS_MOST] = {m->bow, m->miss_a, m->miss_b, fabs(m->compression * m->eccentricity)};
    return sizes[i] > 0;
}

static int unknown_clocks(const rbow_member *m, int open[CLOCKS_MOST])
{
    rbow_member copy = *m;
    int count = 0;
    for (int i = 0; i < CLOCKS_MOST; i++)
        if (clock_matters(m, i) && *clock_of(&copy, i) <= RBOW_ANY_CLOCK) open[count++] = i;
    return count;
}

/* ---- brute force ------------------------------------------------------------------------------------ */

/* The least factor over the one asked for, of a member of which everything is known and kept. */
static double ratio_of(const rbow_member *m, const rbow_material *k, double most)
{
    prepared p;
    double ratio;
    ck_assert_int_eq(rbow_prepare(m, k, &p), RBOW_OK);
    ck_assert_int_eq(rbow_least_ratio(&p, most, &ratio), RBOW_OK);
    return ratio;
}

typedef struct turned {
    double clock[2], ratio;
} turned;

typedef struct search {
    rbow_member m;
    const rbow_material *k;
    int open[CLOCKS_MOST], count;
} search;

static double ratio_at(search *s, const double clock[2], double most)
{
    for (int i = 0; i < s->count; i++) *clock_of(&s->m, s->open[i]) = clock[i];
    return ratio_of(&s->m, s->k, most);
}

/* Of the eight neighbours the lowest, at ever finer steps. */
static void refine(search *s, turned *at, double step)
{
    for (; step > 1e-5 * degree;) {
        turned best = *at;
        for (int i = -1; i <= 1; i++) {
            for (int k = s->count > 1 ? -1 : 0; k <= (s->count > 1 ? 1 : 0); k++) {
                turned next = {{at->clock[0] + i * step, at->clock[1] + k * step}, 0};
                next.ratio = ratio_at(s, next.clock, best.ratio);
                if (next.ratio < best.ratio) best = next;
            }
        }
        if (best.ratio < at->ratio) *at = best;
        else step /= 2;
    }
}

/* All directions in even steps; the three lowest that are no neighbours are refined. */
static turned lowest_direction(search *s)
{
    enum { BEST = 3 };
    const int steps = s->count > 1 ? TWO_STEPS : ONE_STEP, second = s->count > 1 ? TWO_STEPS : 1;
    const double step = full_turn / steps;
    static turned all[TWO_STEPS * TWO_STEPS];
    turned lowest = {{0, 0}, INFINITY};
    for (int i = 0; i < steps * second; i++) {
        all[i] = (turned){{i / second * step, i % second * step}, 0};
        all[i].ratio = ratio_at(s, all[i].clock, INFINITY);
    }
    for (int n = 0; n < BEST; n++) {
        turned *best = &all[0];
        for (int i = 1; i < steps * second; i++)
            if (all[i].ratio < best->ratio) best = &all[i];
        turned fine = *best;
        if (isinf(fine.ratio)) break;
        refine(s, &fine, step / 2);
        if (fine.ratio < lowest.ratio) lowest = fine;
        const turned from = *best;
        for (int i = 0; i < steps * second; i++) {
            const double apart = hypot(remainder(all[i].clock[0] - from.clock[0], full_turn), remainder(all[i].clock[1] - from.clock[1], full_turn));
            if (apart < 2.5 * step) all[i].ratio = INFINITY;
        }
    }
    return lowest;
}

typedef struct brute { /* ratios; NaN where there is no such scenario */
    double ratio[PLAIN_CORNERS][PLAIN_FITS];
    int corners;
    unsigned fit;
} brute;

static brute brute_force(const sample *s)
{
    rbow_member corners[PLAIN_CORNERS];
    brute b = {.fit = plain_fit(&s->member)};
    b.corners = plain_corners(&s->member, corners);
    for (int i = 0; i < PLAIN_CORNERS; i++) {
        for (unsigned kept = 0; kept < PLAIN_FITS; kept++) {
            b.ratio[i][kept] = NAN;
            if (i >= b.corners || (kept & ~b.fit) != 0) continue;
            search at = {.m = plain_kept(corners[i], kept), .k = &s->material};
            at.count = unknown_clocks(&at.m, at.open);
            for (int c = 0; c < CLOCKS_MOST; c++)
                if (*clock_of(&at.m, c) <= RBOW_ANY_CLOCK) *clock_of(&at.m, c) = 0;
            b.ratio[i][kept] = at.count == 0 ? ratio_of(&at.m, at.k, INFINITY) : lowest_direction(&at).ratio;
        }
    }
    return b;
}

/* ---- comparison ------------------------------------------------------------------------------------- */

static void near_margin(const sample *s, const char *what, double got, double want_ratio)
{
    sample_near(s, what, got, want_ratio - 1, found_to, found_to);
}

static void same_margins(const sample *s, const brute *b, const rbow_result *got)
{
    double lowest = INFINITY, built = INFINITY, best = -INFINITY, unforced = INFINITY;
    for (int i = 0; i < b->corners; i++) {
        for (unsigned kept = 0; kept < PLAIN_FITS; kept++)
            if (!isnan(b->ratio[i][kept])) lowest = fmin(lowest, b->ratio[i][kept]);
        built = fmin(built, b->ratio[i][b->fit]);
        best = fmax(best, b->ratio[i][b->fit]);
        unforced = fmin(unforced, b->ratio[i][0]);
    }
    near_margin(s, "margin", got->margin, lowest);
    near_margin(s, "margin_as_built", got->margin_as_built, built);
    near_margin(s, "margin_unforced", got->margin_unforced, unforced);
    near_margin(s, "margin_best", got->margin_best, best);
}

static int corner_of(const sample *s, const rbow_result *r)
{
    rbow_member corners[PLAIN_CORNERS];
    const rbow_member taken = rbow_member_taken(&s->member, r);
    const int count = plain_corners(&s->member, corners);
    for (int i = 0; i < count; i++)
        if (!(fabs(corners[i].end_a - taken.end_a) > 0) && !(fabs(corners[i].end_b - taken.end_b) > 0)) return i;
    return -1;
}

static int rank_of(unsigned kept, unsigned fit)
{
    return kept == fit ? RBOW_FIT_AS_BUILT : kept == 0 ? RBOW_FIT_UNFORCED : RBOW_FIT_RELAXED;
}

/* What is taken is the lowest; of those that tie it, none stands before it in the order. */
static void same_scenario(const sample *s, const brute *b, const rbow_result *got)
{
    const int corner = corner_of(s, got);
    rbow_member m = s->member;
    int open[CLOCKS_MOST];
    const double slack = unknown_clocks(&m, open) > 0 ? found_to : 1e-12, ratio = got->margin + 1;
    ck_assert_int_ge(corner, 0);
    ck_assert_int_eq(got->fit_taken, rank_of(got->fit_kept, b->fit));
    near_margin(s, "margin of what is taken", got->margin, b->ratio[corner][got->fit_kept]);
    for (int i = 0; i < b->corners; i++) {
        for (unsigned kept = 0; kept < PLAIN_FITS; kept++) {
            const int rank = rank_of(kept, b->fit);
            const bool before = rank < got->fit_taken || (rank == got->fit_taken && rank != RBOW_FIT_RELAXED && i < corner);
            if (isnan(b->ratio[i][kept]) || !before) continue;
            sample_holds(s, "ties are taken in order", b->ratio[i][kept] > ratio * (1 - slack) - slack);
        }
    }
}

/* The concrete member that is taken has that margin, in the library and in the plain check; other directions, corners and
 * fits have no lower one there either. */
static double plain_margin(const rbow_member *m, const rbow_material *k)
{
    const plain_tube t = plain_tube_of(m, k);
    return plain_ratio(m, plain_factors_of(&t));
}

static void plain_agrees(dice *d, const sample *s, const rbow_result *got)
{
    const rbow_member taken = rbow_member_taken(&s->member, got);
    const double slack = 1e-7;
    sample_near(s, "ratio of what is taken", ratio_of(&taken, &s->material, INFINITY), got->margin + 1, 1e-8, 2e-9);
    const plain_tube t = plain_tube_of(&taken, &s->material);
    if (plain_on_edge(&t)) return;
    sample_near(s, "plain margin", plain_margin(&taken, &s->material), got->margin, slack, slack);
    for (int i = 0; i < 4; i++) {
        rbow_member corners[PLAIN_CORNERS];
        const int count = plain_corners(&s->member, corners);
        rbow_member one = plain_kept(corners[dice_below(d, count)], (unsigned)dice_below(d, PLAIN_FITS));
        for (int c = 0; c < CLOCKS_MOST; c++)
            if (*clock_of(&one, c) <= RBOW_ANY_CLOCK) *clock_of(&one, c) = dice_between(d, 0, full_turn);
        const double margin = plain_margin(&one, &s->material);
        sample_holds(s, "no plain margin is lower", isinf(margin) || margin >= got->margin - slack * (1 + fabs(got->margin)) - found_to);
    }
}

static void agrees(dice *d, const sample *s)
{
    const rbow_result got = check_sample(s);
    const brute b = brute_force(s);
    rbow_margin quick;
    same_margins(s, &b, &got);
    same_scenario(s, &b, &got);
    plain_agrees(d, s, &got);
    ck_assert_int_eq(rbow_member_margin(&s->member, &s->material, &quick), RBOW_OK);
    sample_near(s, "rbow_member_margin", quick.margin, got.margin, found_to, found_to);
}

/* A member with so many unknown directions that matter. */
static sample unknown_sample(dice *d, int directions)
{
    for (;;) {
        sample s = any(d);
        rbow_member *m = &s.member;
        int open[CLOCKS_MOST];
        rbow_status fault;
        if (m->end_a <= RBOW_STIFF_WELD && dice_chance(d, 0.7)) m->end_a = RBOW_WELDED;
        if (m->end_b <= RBOW_STIFF_WELD && m->end_b > RBOW_FREE && dice_chance(d, 0.7)) m->end_b = RBOW_WELDED;
        if (dice_chance(d, 0.3)) m->weld_zone = RBOW_UNSET;
        for (int i = 0; i < CLOCKS_MOST; i++)
            if (dice_chance(d, 0.6)) *clock_of(m, i) = RBOW_ANY_CLOCK;
        if (unknown_clocks(m, open) == directions && rbow_member_faults(m, &s.material, &fault, 1) == 0) return s;
    }
}

static void random_members(uint64_t seed, int directions, int count)
{
    dice d = {seed};
    for (int i = 0; i < count; i++) {
        const sample s = unknown_sample(&d, directions);
        agrees(&d, &s);
    }
}

/* RAILBOW_SCENARIO_SEED: other members, for a hunt. */
static uint64_t seed_of(int base)
{
    const char *word = getenv("RAILBOW_SCENARIO_SEED");
    return (uint64_t)(base + 1000 * (word != NULL ? strtol(word, NULL, 10) : 0));
}

START_TEST(corners_and_fits)
{
    random_members(seed_of(501), 0, 60);
}
END_TEST

START_TEST(one_unknown_direction)
{
    random_members(seed_of(502 + _i), 1, 50);
}
END_TEST

START_TEST(two_unknown_directions)
{
    random_members(seed_of(602 + _i), 2, 25);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, corners_and_fits);
    tcase_add_loop_test(cases, one_unknown_direction, 0, 3);
    tcase_add_loop_test(cases, two_unknown_directions, 0, 2);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/scenario", fill);
}
