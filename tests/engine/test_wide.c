/* What is worked out side by side, against one at a time: load factors at a glance against close looks, the moments at a
 * frame's spots against the shapes, and every width of vector against the narrowest, to the bit. */
#include "members.h"

#include "engine/factor.h"
#include "engine/wide_versions.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_math.h>
#include <string.h>

enum { MEMBERS = 3000 };

static bool make(const sample *s, frame *f)
{
    rbow_status status;
    return frame_faults(&s->member, &s->material, &status, 1) == 0 && frame_build(&s->member, &s->material, f) == RBOW_OK;
}

/* From rest to beyond buckling, or to far beyond yield. */
static void some_factors(dice *d, const frame *f, double tension, double factor[GLANCES])
{
    const double push = f->member.compression, most = push > 0 ? 1.1 * (f->critical_load + tension) / push : 10;
    for (int i = 0; i < GLANCES; i++) factor[i] = dice_between(d, 0, fmax(most, 0));
}

START_TEST(glances_are_close_looks)
{
    dice d = {501};
    int served = 0, exact = 0;
    for (int i = 0; i < MEMBERS; i++) {
        const sample s = random_sample(&d);
        frame f;
        double factor[GLANCES];
        glances g;
        if (!make(&s, &f)) continue;
        some_factors(&d, &f, f.tension, factor);
        glances_at(&f, f.tension, factor, &g);
        for (int k = 0; k < GLANCES; k++) {
            sight look;
            sight_at(&f, factor[k], f.tension, &look);
            if (!look.stands) sample_holds(&s, "buckled", g.serve[k] && isinf(g.level[LEVEL_USE][k]) && isinf(g.level[LEVEL_INTERACTION][k]));
            if (!g.serve[k] || !look.stands) continue;
            const double use = look.stress.use, together = look.together.value;
            const double close[LEVELS] = {use, together, fmax(use, together)};
            for (int w = 0; w < LEVELS; w++) {
                const double off = (g.level[w][k] - close[w]) / fmax(fabs(close[w]), 1e-9);
                sample_holds(&s, "a glance within the close look", off < 1e-6 && off > -0.03);
                exact += fabs(off) < 1e-9;
                served++;
            }
        }
    }
    ck_assert_int_gt(served, 10 * MEMBERS);
    ck_assert_int_gt(exact, served / 1000 * 999);
}
END_TEST

typedef struct tally {
    int served, left; /* of load factors below buckling: seen at a glance, and left to a close look */
    double worst;     /* of a glance, beside the close look */
} tally;

static void compare(const frame *f, const double factor[GLANCES], tally *t)
{
    glances g;
    glances_at(f, f->tension, factor, &g);
    for (int k = 0; k < GLANCES; k++) {
        sight look;
        sight_at(f, factor[k], f->tension, &look);
        if (!look.stands) continue;
        t->served += g.serve[k];
        t->left += !g.serve[k];
        if (g.serve[k]) t->worst = fmax(t->worst, fabs(g.level[LEVEL_USE][k] / look.stress.use - 1));
    }
}

static sample long_tube(double end)
{
    sample s = {tube_of(1.25, 0.058, 60), steel};
    s.member.end_a = s.member.end_b = end;
    s.member.compression = 1000;
    return s;
}

/* Sockets that point up at A and down at B bend a fixed tube into an S: two tops, of which a side load raises one. */
START_TEST(two_tops_are_told_apart)
{
    tally t = {0, 0, 0};
    for (int side = 0; side < 200; side++) {
        sample s = long_tube(INFINITY);
        frame f;
        double factor[GLANCES];
        s.member.miss_a = s.member.miss_b = 0.3;
        s.member.miss_b_clock = M_PI;
        s.member.spread_load = 0.002 * side;
        ck_assert(make(&s, &f));
        for (int k = 0; k < GLANCES; k++) factor[k] = f.critical_load / s.member.compression * (0.55 + 0.05 * k);
        compare(&f, factor, &t);
    }
    ck_assert_int_gt(t.served, 100);
    ck_assert_int_gt(t.left, 100);
    ck_assert_double_lt(t.worst, 1e-7);
}
END_TEST

/* A half-wave bow's pinned answer is endless at z = pi^2, which a welded tube passes. */
START_TEST(resonance_is_left_to_a_close_look)
{
    tally near = {0, 0, 0}, off = {0, 0, 0};
    sample s = long_tube(RBOW_WELDED);
    frame f;
    double factor[GLANCES];
    s.member.bow = 0.1;
    ck_assert(make(&s, &f));
    const double resonance = M_PI * M_PI * f.unit / s.member.length / s.member.compression;
    for (int power = -15; power <= -2; power++) {
        for (int k = 0; k < GLANCES; k++) factor[k] = resonance * (1 + (k - 3.5) * pow(10, power));
        compare(&f, factor, power < -3 ? &near : &off);
    }
    ck_assert_int_gt(near.left, 50);
    ck_assert_double_lt(near.worst, 1e-7);
    ck_assert_int_eq(off.left, 0);
    ck_assert_double_lt(off.worst, 1e-8);
}
END_TEST

/* By libm, from the strongest tension that waves serve to the critical load of a tube held fast at both ends. */
START_TEST(half_waves_are_sines)
{
    places all = {0};
    enum { COUNT = 19 };
    for (int k = 0; k < COUNT; k++) all.xi[k] = k / (COUNT - 1.0);
    for (double z = SHAPES_TENSION_FROM; z < 4 * M_PI * M_PI; z += 0.173) {
        half_waves h;
        const double u = sqrt(fabs(z));
        half_waves_at(z, &all, COUNT, &h);
        for (int k = 0; k < COUNT; k++) {
            const double a = u * all.xi[k] / 2;
            ck_assert_double_eq_tol(h.sine[k], (z < 0 ? sinh(a) : sin(a)) / u, 1e-14);
            ck_assert_double_eq_tol(h.cosine[k], z < 0 ? cosh(a) : cos(a), 1e-14);
        }
    }
}
END_TEST

/* The spots of a frame without a load on the way, by the shapes one at a time. */
START_TEST(nodes_are_the_shapes)
{
    dice d = {502};
    int tested = 0;
    for (int i = 0; i < MEMBERS; i++) {
        const sample s = random_sample(&d);
        frame f;
        state at;
        if (!make(&s, &f) || frame_state(&f, 1, f.tension, &at) != RBOW_OK) continue;
        if (f.has_point || f.ready.beam.bow_shape == RBOW_BOW_KINK || !field_serves(&at.prepared) || fabs(at.prepared.load) < 0.5) continue;
        const wave_field field = field_from_a(&at.prepared, &at.shares);
        const piece *last = &f.pieces[f.piece_count - 1];
        const int count = last->first + last->count;
        half_waves h;
        half_waves_at(at.prepared.load, &f.places, count, &h);
        for (int movement = 0; movement < 2; movement++) {
            nodes n;
            double most = 0;
            nodes_at(&field, &f.places, &h, 0, count, movement, &n);
            for (int k = 0; k < count; k++) most = fmax(most, n.square[k]);
            for (int p = 0; p < f.piece_count; p++) {
                for (int k = 0; k < f.pieces[p].count; k++) {
                    const spot place = frame_spot(&f, &f.pieces[p], k);
                    const jet j = movement ? jet_of_movement(&at.prepared, &at.shares, &place)
                                           : jet_of_moment(&at.prepared, &at.shares, &place);
                    const int spot_of = f.pieces[p].first + k;
                    sample_near(&s, "square", n.square[spot_of], dot(j.f, j.f), 1e-8, 1e-9 * most);
                    sample_near(&s, "rise", n.rise[spot_of], dot(j.f, j.d1), 1e-8, 1e-8 * most);
                    sample_near(&s, "curve", n.curve[spot_of], dot(j.d1, j.d1) + dot(j.f, j.d2), 1e-8, 1e-7 * most);
                    tested++;
                }
            }
        }
    }
    ck_assert_int_gt(tested, MEMBERS);
}
END_TEST

#ifdef WIDE_VERSIONS
static void same_glances(const sample *s, const frame *f, const double factor[GLANCES], glances_function *version)
{
    glances one, other;
    memset(&one, 0, sizeof one);
    memset(&other, 0, sizeof other);
    glances_at_anywhere(f, f->tension, factor, &one);
    version(f, f->tension, factor, &other);
    for (int k = 0; k < GLANCES; k++) {
        sample_holds(s, "every width serves", one.serve[k] == other.serve[k]);
        for (int w = 0; w < LEVELS && one.serve[k]; w++)
            sample_holds(s, "every width sees the same", memcmp(&one.level[w][k], &other.level[w][k], sizeof(double)) == 0);
    }
}

static void same_nodes(const sample *s, const frame *f, const state *at, half_waves_function *waves, nodes_function *version)
{
    const wave_field field = field_from_a(&at->prepared, &at->shares);
    const piece *last = &f->pieces[f->piece_count - 1];
    const int count = last->first + last->count;
    const size_t bytes = (size_t)count * sizeof(double);
    half_waves h, again;
    half_waves_at_anywhere(at->prepared.load, &f->places, count, &h);
    waves(at->prepared.load, &f->places, count, &again);
    sample_holds(s, "every width has the same half waves",
                 memcmp(h.sine, again.sine, bytes) == 0 && memcmp(h.cosine, again.cosine, bytes) == 0);
    for (int movement = 0; movement < 2; movement++) {
        nodes one, other;
        nodes_at_anywhere(&field, &f->places, &h, 0, count, movement, &one);
        version(&field, &f->places, &h, 0, count, movement, &other);
        sample_holds(s, "every width has the same nodes",
                     memcmp(one.square, other.square, bytes) == 0 && memcmp(one.rise, other.rise, bytes) == 0
                         && memcmp(one.curve, other.curve, bytes) == 0 && one.turns == other.turns);
    }
}

START_TEST(every_width_tells_the_same)
{
    dice d = {503};
    const bool four = __builtin_cpu_supports("avx2"), eight = __builtin_cpu_supports("avx512dq");
    for (int i = 0; i < MEMBERS; i++) {
        const sample s = random_sample(&d);
        frame f;
        state at;
        double factor[GLANCES];
        if (!make(&s, &f)) continue;
        some_factors(&d, &f, f.tension, factor);
        if (four) same_glances(&s, &f, factor, glances_at_avx2);
        if (eight) same_glances(&s, &f, factor, glances_at_avx512);
        if (frame_state(&f, 1, f.tension, &at) != RBOW_OK || !(fabs(at.prepared.load) > 0) || !field_serves(&at.prepared)) continue;
        if (four) same_nodes(&s, &f, &at, half_waves_at_avx2, nodes_at_avx2);
        if (eight) same_nodes(&s, &f, &at, half_waves_at_avx512, nodes_at_avx512);
    }
}
END_TEST
#endif

static void fill(TCase *cases)
{
    tcase_add_test(cases, glances_are_close_looks);
    tcase_add_test(cases, two_tops_are_told_apart);
    tcase_add_test(cases, resonance_is_left_to_a_close_look);
    tcase_add_test(cases, half_waves_are_sines);
    tcase_add_test(cases, nodes_are_the_shapes);
#ifdef WIDE_VERSIONS
    tcase_add_test(cases, every_width_tells_the_same);
#endif
    tcase_set_timeout(cases, 120);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("engine/wide", fill);
}
