/* The bow's shapes against their definition, their slopes against differences, and their lateral load against -P y0''. */
#include "near.h"

#include <railbow/initial_bow.h>

static const double pi = 3.14159265358979323846;

static rbow_bow bow_of(rbow_bow_shape shape)
{
    return (rbow_bow){.shape = shape, .amplitude = 0.3, .length = 20, .kink_at = 8};
}

static rbow_bow_place place_of(const rbow_bow *b, double x)
{
    rbow_bow_place p;
    ck_assert_int_eq(rbow_bow_at(b, x, &p), RBOW_OK);
    return p;
}

static rbow_bow_load load_of(const rbow_bow *b, double compression)
{
    rbow_bow_load l;
    ck_assert_int_eq(rbow_bow_equivalent(b, compression, &l), RBOW_OK);
    return l;
}

START_TEST(by_definition)
{
    const rbow_bow sine = bow_of(RBOW_BOW_SINE), arc = bow_of(RBOW_BOW_ARC), kink = bow_of(RBOW_BOW_KINK);
    near_within(place_of(&sine, 10).offset, 0.3, 1e-15, 0);
    near_within(place_of(&sine, 20.0 / 6).offset, 0.15, 1e-15, 0); /* sin 30 deg */
    near_within(place_of(&arc, 10).offset, 0.3, 1e-15, 0);
    near_within(place_of(&arc, 5).offset, 0.225, 1e-15, 0);
    near_within(place_of(&kink, 8).offset, 0.3, 1e-15, 0);
    near_within(place_of(&kink, 4).offset, 0.15, 1e-15, 0);
    near_within(place_of(&kink, 14).offset, 0.15, 1e-15, 0);
    near_within(place_of(&kink, 8).slope, -0.3 / 12, 1e-15, 0);
}
END_TEST

START_TEST(slopes_are_differences)
{
    const double h = 1e-4;
    for (int shape = 0; shape < RBOW_BOW_SHAPE_COUNT; shape++) {
        const rbow_bow b = bow_of((rbow_bow_shape)shape);
        for (double x = 0.5; x < 20; x += 1) /* the kink lies between two of them */
            near_within(place_of(&b, x).slope, (place_of(&b, x + h).offset - place_of(&b, x - h).offset) / (2 * h), 0, 1e-9);
        near_within(place_of(&b, 0).offset, 0, 0, 1e-15);
        near_within(place_of(&b, 20).offset, 0, 0, 1e-15);
        const rbow_bow_load l = load_of(&b, 0);
        near_within(l.slope_a, place_of(&b, 0).slope, 1e-14, 0);
        near_within(l.slope_b, place_of(&b, 20).slope, 1e-14, 0);
    }
}
END_TEST

/* -P y0'' by second differences; the kink's force by the jump of the slope. */
START_TEST(lateral_load)
{
    const double push = 1500, h = 1e-2;
    const rbow_bow arc = bow_of(RBOW_BOW_ARC), sine = bow_of(RBOW_BOW_SINE), kink = bow_of(RBOW_BOW_KINK);
    for (double x = 1; x < 20; x += 3) {
        const double of_arc = -push * (place_of(&arc, x + h).slope - place_of(&arc, x - h).slope) / (2 * h);
        const double of_sine = -push * (place_of(&sine, x + h).slope - place_of(&sine, x - h).slope) / (2 * h);
        near_within(load_of(&arc, push).spread, of_arc, 1e-9, 0);
        near_within(load_of(&sine, push).half_wave * sin(pi * x / 20), of_sine, 1e-6, 0);
    }
    near_within(load_of(&kink, push).force, push * (place_of(&kink, 7).slope - place_of(&kink, 9).slope), 1e-14, 0);
    near_within(load_of(&arc, push).force + load_of(&arc, push).half_wave, 0, 0, 0);
    near_within(load_of(&sine, push).force + load_of(&sine, push).spread, 0, 0, 0);
    near_within(load_of(&kink, push).half_wave + load_of(&kink, push).spread, 0, 0, 0);
}
END_TEST

START_TEST(refused)
{
    const rbow_bow sound = bow_of(RBOW_BOW_KINK);
    rbow_bow bad[5] = {sound, sound, sound, sound, sound};
    rbow_bow_place p;
    rbow_bow_load l;
    bad[0].length = 0;
    bad[1].amplitude = NAN;
    bad[2].kink_at = 20;
    bad[3].kink_at = NAN;
    bad[4].shape = RBOW_BOW_SHAPE_COUNT;
    for (int i = 0; i < 5; i++) {
        ck_assert_int_eq(rbow_bow_at(&bad[i], 0, &p), RBOW_OUT_OF_RANGE);
        ck_assert(isnan(p.offset) && isnan(p.slope));
        ck_assert_int_eq(rbow_bow_equivalent(&bad[i], 1, &l), RBOW_OUT_OF_RANGE);
        ck_assert(isnan(l.slope_a) && isnan(l.slope_b) && isnan(l.spread) && isnan(l.half_wave) && isnan(l.force));
    }
    ck_assert_int_eq(rbow_bow_at(&sound, -1e-9, &p), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_bow_at(&sound, NAN, &p), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_bow_equivalent(&sound, NAN, &l), RBOW_OUT_OF_RANGE);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, by_definition);
    tcase_add_test(c, slopes_are_differences);
    tcase_add_test(c, lateral_load);
    tcase_add_test(c, refused);
}

int main(void)
{
    return run_tests("initial_bow", fill);
}
