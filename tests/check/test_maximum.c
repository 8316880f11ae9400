/* The largest moment and the largest movement along a tube, against 240 places a segment.
 *
 * RAILBOW_STATES  how many states; 20000 by default */
#include "states.h"

#include "check/maximum_body.h"

#include <gsl/gsl_errno.h>

enum { PLACES = 240 };

typedef double size_function(const equilibrium *, double t, double side);

/* Returned: the largest of the places of the zones that count, and the first place as large to 1e-11 */
static peak densest(const state *o, size_function *of, bool tube, bool weld)
{
    peak most = {-1, 0};
    for (int i = 0; i < o->p.segment_count; i++) {
        const segment *g = &o->p.segments[i];
        const double from = o->p.stations.t[g->first], to = o->p.stations.t[g->first + g->count - 1], side = (from + to) / 2;
        if (g->zone == ZONE_TUBE ? !tube : !weld) continue;
        for (int k = 0; k <= PLACES; k++) {
            const double t = k < PLACES ? from + (to - from) * k / PLACES : to, size = of(&o->solved, t, side);
            if (size > most.size * (1 + 1e-11)) most.at = t;
            most.size = fmax(most.size, size);
        }
    }
    return most;
}

static void holds_peak(const state *o, const char *what, peak found, peak dense, size_function *of, double noise)
{
    const bool none = found.size < 0;
    sample_holds(&o->s, "there is a peak where there is a place", none == (dense.size < 0));
    if (none) return;
    if (!(found.size * (1 + 1e-11) + noise >= dense.size)) fprintf(stderr, "%s %.17g, dense %.17g at %.17g\n", what, found.size, dense.size, dense.at);
    sample_holds(&o->s, what, found.size * (1 + 1e-11) + noise >= dense.size);
    const double there = of(&o->solved, found.at, found.at);
    sample_holds(&o->s, "it is where it is told", fabs(there - found.size) <= 1e-9 * found.size + 10 * noise);
    sample_holds(&o->s, "no smaller place has as much", dense.at > found.at - 1e-2 || dense.size < found.size * (1 + 1e-11) + noise);
}

START_TEST(no_place_exceeds_the_peak)
{
    const long states = number_from("RAILBOW_STATES", 20000);
    dice d = {(uint64_t)number_from("RAILBOW_SEED", 4711)};
    long tested = 0, strong = 0, resonant = 0;
    for (long i = 0; i < states; i++) {
        state o;
        double movement[PLANES];
        if (!next_state(&d, &o)) continue;
        holds_peak(&o, "moment of the tube", o.e.peaks[ZONE_TUBE], densest(&o, moment_size, true, false), moment_size, o.moment_noise);
        holds_peak(&o, "moment of the welds", o.e.peaks[ZONE_WELD], densest(&o, moment_size, false, true), moment_size, o.moment_noise);
        const peak moved = rbow_largest_movement(&o.p, &o.e.solution, movement);
        holds_peak(&o, "movement", moved, densest(&o, movement_size, true, true), movement_size, o.movement_noise);
        sample_near(&o.s, "movement's parts", hypot(movement[UP], movement[RIGHT]), moved.size, 1e-9, o.movement_noise);
        tested++;
        strong += o.solved.z < strong_tension;
        resonant += fabs(o.solved.z - M_PI * M_PI) < 0.1;
    }
    ck_assert_int_gt(tested, states * 8 / 10);
    ck_assert_int_gt(strong, states / 20);
    ck_assert_int_gt(resonant, states / 50);
}
END_TEST

/* Asked to full accuracy, the slope is 0 at a maximum between the ends of segments. */
START_TEST(places_are_told_to_full_accuracy)
{
    dice d = {31};
    int inside = 0;
    for (int i = 0; i < 5000; i++) {
        state o;
        peak at[ZONES];
        if (!next_state(&d, &o)) continue;
        rbow_largest_moments(&o.p, &o.e.solution, true, at);
        for (int which = 0; which < ZONES; which++) {
            const double h = 1e-3, t = at[which].at;
            if (at[which].size < 0) continue;
            bool border = false;
            for (int k = 0; k < o.p.station_count; k++) border = border || fabs(o.p.stations.t[k] - t) < 2 * h;
            if (border) continue;
            const station there = station_at(&o.p.beam, t, t);
            const location place_there = location_of(&there);
            place p;
            look_at(&o.solved, &place_there, MOMENT, &p);
            sample_holds(&o.s, "the slope is 0", fabs(p.node.g) <= 1e-11 * fabs(p.node.g1) + 1e-9 * p.node.square);
            inside++;
        }
    }
    ck_assert_int_gt(inside, 1000);
}
END_TEST

/* Both halves have the same moments: the peak that is told is the one nearer to A. */
START_TEST(of_equal_maxima_the_first_is_told)
{
    dice d = {32};
    int tested = 0;
    for (int i = 0; i < 20000; i++) {
        state o;
        o.s = random_sample(&d);
        o.s.member.compression = o.s.member.gap = 0;
        put_loads(&d, &o.s, true);
        if (dice_chance(&d, 0.5)) make_symmetric(&d, &o.s);
        else make_antisymmetric(&d, &o.s);
        if (!make_ready(&o.s, &o.p)) continue;
        o.s.member.compression = state_axial(&d, &o.p);
        if (o.s.member.compression > 0.99 * o.p.critical_load || !make_ready(&o.s, &o.p)) continue;
        rbow_evaluate(&o.p, 1, true, &o.e);
        double movement[PLANES];
        const peak moved = rbow_largest_movement(&o.p, &o.e.solution, movement);
        for (int which = 0; which < ZONES; which++) sample_holds(&o.s, "moment in the first half", o.e.peaks[which].at <= 1e-7);
        sample_holds(&o.s, "movement in the first half", moved.at <= 1e-7);
        tested++;
    }
    ck_assert_int_gt(tested, 10000);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, no_place_exceeds_the_peak);
    tcase_add_test(cases, places_are_told_to_full_accuracy);
    tcase_add_test(cases, of_equal_maxima_the_first_is_told);
    tcase_set_timeout(cases, 3000);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/maximum", fill);
}
