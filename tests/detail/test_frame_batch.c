/* Details of a frame that are followed together, and the lowest margin of a run: each as it is found alone. */
#include "detail/frame_details.h"

enum { MANY = 37, KINDS = RBOW_DETAIL_KIND_COUNT - 1 }; /* more than are followed on one path, twice; without sockets */

static const double pi = 3.14159265358979323846;

/* Of every kind, on every tube, at places that differ. */
static void scatter_details(rbow_frame_detail to[MANY])
{
    for (size_t i = 0; i < MANY; i++) {
        to[i] = (rbow_frame_detail){i % 4, detail_of((int)(i % KINDS), 2 + 0.7 * (double)i)};
        if (to[i].tube == 3) to[i].detail.sleeve_od = 0.625; /* of the brace */
        to[i].detail.hole = 0.1 + 0.005 * (double)(i % 13);
    }
}

static void open_portal(built *b, const rbow_material *k, bool forced, double bow_clock)
{
    portal(b, k, forced);
    b->tubes[1].bow_clock = bow_clock;
    b->tubes[3].bow = 0.05;
    b->tubes[3].bow_clock = bow_clock;
    ck_assert_int_eq(open_frame(b), RBOW_OK);
}

static void ck_same(const rbow_detail_result *got, const rbow_detail_result *want)
{
    near_within(got->margin, want->margin, 1e-6, 1e-7);
    near_within(got->factor, want->factor, 1e-6, 0);
    near_within(got->moment, want->moment, 1e-6, 1e-6);
    near_within(got->axial, want->axial, 1e-6, 1e-6);
    ck_assert_int_eq(got->mode, want->mode);
    ck_assert_int_eq(got->verdict, want->verdict);
    ck_assert_int_eq(got->fit_taken, want->fit_taken);
    ck_assert_uint_eq(got->remarks, want->remarks);
}

/* The same frame with the bows of unknown clock on either side that the check takes. */
static void open_sides(built *any, built *one, built *other, const rbow_material *k)
{
    double clocks[TUBES_MOST];
    open_portal(any, k, true, RBOW_ANY_CLOCK);
    ck_assert_int_eq(rbow_frame_check(any->solver, &any->run, any->tube, any->joint, NULL), RBOW_OK);
    rbow_frame_bow_clocks(any->solver, clocks);
    for (int side = 0; side < 2; side++) {
        built *b = side == 0 ? one : other;
        portal(b, k, true);
        b->tubes[3].bow = 0.05;
        b->tubes[1].bow_clock = clocks[1] + side * pi;
        b->tubes[3].bow_clock = clocks[3] + side * pi;
        ck_assert_int_eq(open_frame(b), RBOW_OK);
    }
}

START_TEST(together_as_alone)
{
    const rbow_material k = with_ultimate();
    for (int i = 0; i < 3; i++) {
        built b;
        rbow_frame_detail details[MANY];
        rbow_detail_result together[MANY], alone;
        open_portal(&b, &k, i > 0, i == 2 ? RBOW_ANY_CLOCK : 1);
        scatter_details(details);
        ck_assert_int_eq(rbow_frame_details_check(b.solver, &b.run, details, MANY, together), RBOW_OK);
        for (size_t j = 0; j < MANY; j++) {
            ck_assert_int_eq(rbow_frame_detail_check(b.solver, &b.run, details[j].tube, &details[j].detail, &alone), RBOW_OK);
            ck_same(&together[j], &alone);
        }
        end(&b);
    }
}
END_TEST

/* What acts at load factor 1 on the path that governs: as built or unforced, and with the bows on the side that governs. */
START_TEST(what_acts)
{
    const rbow_material k = with_ultimate();
    rbow_frame_detail details[MANY];
    rbow_detail_result of_any[MANY], of_up[MANY], of_down[MANY];
    built any, up, down;
    bool fits[3] = {false}, sides[2] = {false};
    scatter_details(details);
    open_sides(&any, &up, &down, &k);
    ck_assert_int_eq(rbow_frame_details_check(any.solver, &any.run, details, MANY, of_any), RBOW_OK);
    ck_assert_int_eq(rbow_frame_details_check(up.solver, &up.run, details, MANY, of_up), RBOW_OK);
    ck_assert_int_eq(rbow_frame_details_check(down.solver, &down.run, details, MANY, of_down), RBOW_OK);
    for (size_t i = 0; i < MANY; i++) {
        const bool is_up = of_up[i].margin < of_down[i].margin;
        const rbow_detail_result *want = is_up ? &of_up[i] : &of_down[i];
        if (fabs(of_up[i].margin - of_down[i].margin) < 1e-6) continue;
        const int fit = want->fit_taken == RBOW_FIT_AS_BUILT ? RBOW_FRAME_AS_BUILT : RBOW_FRAME_UNFORCED;
        rbow_section_forces f;
        built *side = is_up ? &up : &down;
        ck_same(&of_any[i], want);
        ck_assert_int_eq(rbow_frame_forces(side->solver, &side->run, 1, fit, details[i].tube, details[i].detail.at, &f), RBOW_OK);
        near_within(want->axial, f.axial, 1e-6, 1e-6);
        near_within(want->moment, hypot(f.moment_up, f.moment_right), 1e-6, 1e-6);
        fits[want->fit_taken] = sides[is_up] = true;
    }
    ck_assert(fits[RBOW_FIT_AS_BUILT] && fits[RBOW_FIT_UNFORCED] && sides[0] && sides[1]);
    end(&any);
    end(&up);
    end(&down);
}
END_TEST

/* The lowest of the results in full, tube or detail. */
static rbow_frame_lowest lowest_in_full(built *b, const rbow_frame_detail *details, size_t count, size_t *detail)
{
    rbow_detail_result margins[MANY];
    rbow_frame_lowest lowest = {.margin = INFINITY};
    *detail = count;
    ck_assert_int_eq(rbow_frame_check(b->solver, &b->run, b->tube, NULL, NULL), RBOW_OK);
    ck_assert_int_eq(rbow_frame_details_check(b->solver, &b->run, details, count, margins), RBOW_OK);
    for (size_t i = 0; i < b->frame.tube_count; i++)
        if (b->tube[i].margin < lowest.margin)
            lowest = (rbow_frame_lowest){b->tube[i].margin, b->tube[i].governs_at, i, b->tube[i].governs, b->tube[i].fit_taken};
    for (size_t i = 0; i < count; i++) {
        if (!(margins[i].margin < lowest.margin)) continue;
        const int fit = margins[i].fit_taken == RBOW_FIT_AS_BUILT ? RBOW_FRAME_AS_BUILT : RBOW_FRAME_UNFORCED;
        lowest = (rbow_frame_lowest){margins[i].margin, details[i].detail.at, details[i].tube, RBOW_FRAME_BY_NONE, fit};
        *detail = i;
    }
    return lowest;
}

/* Of each tube with its own details: the lowest of these results in full. */
static void ck_tubes(built *b, const rbow_frame_detail *details, size_t count)
{
    rbow_detail_result margins[MANY];
    double got;
    ck_assert_int_eq(rbow_frame_check(b->solver, &b->run, b->tube, NULL, NULL), RBOW_OK);
    ck_assert_int_eq(rbow_frame_details_check(b->solver, &b->run, details, count, margins), RBOW_OK);
    for (size_t tube = 0; tube < b->frame.tube_count; tube++) {
        rbow_frame_detail own[MANY];
        size_t kept = 0;
        double want = b->tube[tube].margin;
        for (size_t i = 0; i < count; i++) {
            if (details[i].tube != tube) continue;
            own[kept++] = details[i];
            want = fmin(want, margins[i].margin);
        }
        ck_assert_int_eq(rbow_frame_tube_margin(b->solver, &b->run, tube, own, kept, INFINITY, &got), RBOW_OK);
        near_within(got, want, 1e-6, 1e-7);
        ck_assert_int_eq(rbow_frame_tube_margin(b->solver, &b->run, tube, own, kept, want - 1e-4, &got), RBOW_OK);
        near_within(got, want - 1e-4, 0, 0);
        if (kept == count) continue;
        ck_assert_int_eq(rbow_frame_tube_margin(b->solver, &b->run, tube, details, count, INFINITY, &got), RBOW_OUT_OF_RANGE);
        ck_assert(isnan(got));
    }
    ck_assert_int_eq(rbow_frame_tube_margin(b->solver, &b->run, b->frame.tube_count, NULL, 0, INFINITY, &got), RBOW_OUT_OF_RANGE);
    ck_assert(isnan(got));
}

/* Returned: the detail that governs; `count` for none. */
static size_t ck_lowest(built *b, const rbow_frame_detail *details, size_t count)
{
    size_t detail, want_detail;
    rbow_frame_lowest got;
    const rbow_frame_lowest want = lowest_in_full(b, details, count, &want_detail);
    ck_assert_int_eq(rbow_frame_details_margin(b->solver, &b->run, details, count, INFINITY, &got, &detail), RBOW_OK);
    near_within(got.margin, want.margin, 1e-6, 1e-7);
    ck_assert_uint_eq(detail, want_detail);
    ck_assert_uint_eq(got.tube, want.tube);
    ck_assert_int_eq(got.governs, want.governs);
    ck_assert_int_eq(got.fit_taken, want.fit_taken);
    if (isnan(want.governs_at)) ck_assert(isnan(got.governs_at));
    else near_within(got.governs_at, want.governs_at, 1e-6, 1e-4);
    const double below = want.margin - 1e-4, above = want.margin + 1e-4;
    ck_assert_int_eq(rbow_frame_details_margin(b->solver, &b->run, details, count, below, &got, &detail), RBOW_OK);
    near_within(got.margin, below, 0, 0);
    ck_assert_uint_eq(detail, count);
    ck_assert_uint_eq(got.tube, b->frame.tube_count);
    ck_assert_int_eq(rbow_frame_details_margin(b->solver, &b->run, details, count, above, &got, &detail), RBOW_OK);
    near_within(got.margin, want.margin, 1e-6, 1e-7);
    ck_assert_uint_eq(detail, want_detail);
    return want_detail;
}

/* A large hole at any place of the list; none; details that never govern. With misses at B and gaps of either sign. */
START_TEST(the_lowest)
{
    const rbow_material k = with_ultimate();
    for (int i = 0; i < 5; i++) {
        built b;
        rbow_frame_detail details[MANY];
        open_portal(&b, &k, i == 1, i == 3 ? RBOW_ANY_CLOCK : 1);
        if (i == 2) b.tubes[2].miss_b = 0.2, b.tubes[2].miss_b_clock = 2;
        if (i == 4) b.tubes[3].gap = -0.03;
        ck_assert_int_eq(open_frame(&b), RBOW_OK);
        ck_lowest(&b, details, 0);
        for (size_t j = 0; j < MANY; j++) details[j] = (rbow_frame_detail){j % 4, detail_of(RBOW_DETAIL_PLACE, 3 + 0.5 * (double)j)};
        ck_lowest(&b, details, MANY);
        ck_tubes(&b, details, 0);
        ck_tubes(&b, details, MANY);
        ck_lowest(&b, details, MANY); /* all tubes are judged again */
        for (size_t weak = 4; weak < MANY; weak += 16) {
            rbow_frame_detail with[MANY];
            memcpy(with, details, sizeof with);
            with[weak].detail.kind = RBOW_DETAIL_HOLE;
            with[weak].tube = 0;
            with[weak].detail.hole = 0.9;
            with[weak].detail.at = 3;
            with[weak].detail.walls = 2;
            ck_assert_uint_eq(ck_lowest(&b, with, MANY), weak);
        }
        details[20].detail.at = -1;
        rbow_frame_lowest lowest;
        rbow_detail_result results[MANY];
        size_t detail;
        ck_assert_int_eq(rbow_frame_details_margin(b.solver, &b.run, details, MANY, INFINITY, &lowest, &detail), RBOW_BAD_DETAIL_AT);
        double alone;
        ck_assert_int_eq(rbow_frame_tube_margin(b.solver, &b.run, details[20].tube, &details[20], 1, INFINITY, &alone), RBOW_BAD_DETAIL_AT);
        ck_assert(isnan(alone));
        ck_assert_int_eq(rbow_frame_details_check(b.solver, &b.run, details, MANY, results), RBOW_BAD_DETAIL_AT);
        for (size_t j = 0; j < MANY; j++) ck_assert(isnan(results[j].margin));
        end(&b);
    }
}
END_TEST

/* Straight struts that buckle first, and different factors asked of yield and of welds. */
START_TEST(the_end_and_the_factors)
{
    const rbow_material k = with_ultimate();
    for (int i = 0; i < 3; i++) {
        built b;
        rbow_frame_detail details[MANY];
        begin(&b);
        const size_t a = add_joint(&b, 0, 0, 0, RBOW_HELD_PINNED | RBOW_HELD_RX), c = add_joint(&b, 80, 0, 0, RBOW_HELD_Y | RBOW_HELD_Z);
        add_tube(&b, a, c, 1.25, .058, &k);
        push_joint(&b, c, i == 0 ? -1000 : 4000, 0, 0);
        b.run.factor_yield = i == 2 ? 3 : 1.1;
        ck_assert_int_eq(open_frame(&b), RBOW_OK);
        for (size_t j = 0; j < MANY; j++) details[j] = (rbow_frame_detail){0, detail_of(j < 20 ? RBOW_DETAIL_PLACE : RBOW_DETAIL_RING_WELD, 3)};
        details[20].detail.throat = 0.02;
        ck_lowest(&b, details, MANY);
        if (i != 1) details[2].detail.kind = RBOW_DETAIL_HOLE, details[2].detail.hole = 0.9;
        ck_lowest(&b, details, MANY);
        end(&b);
    }
}
END_TEST

/* Straight tubes in closed form: one pulled to its yield, which has a factor of its own, and a mast that buckles at pi^2 EI/(4 L^2),
 * before its tube reaches a limit: the frame governs, at no place. */
START_TEST(in_closed_form)
{
    const rbow_material k = with_ultimate();
    const double bore = 1.25 - 2 * .058, area = pi / 4 * (1.25 * 1.25 - bore * bore), inertia = pi / 64 * (pow(1.25, 4) - pow(bore, 4));
    for (int pulled = 0; pulled < 2; pulled++) {
        built b;
        size_t detail;
        rbow_frame_lowest lowest;
        const double load = pulled ? 4000 : 200;
        begin(&b);
        const size_t a = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED), c = add_joint(&b, 0, 0, 60, RBOW_HELD_NONE);
        add_tube(&b, a, c, 1.25, .058, &k)->weld_zone = 0;
        push_joint(&b, c, 0, 0, pulled ? load : -load);
        b.run.factor_yield = 2.5;
        solve(&b);
        const double factor = pulled ? 75e3 * area / load : pi * pi * 29e6 * inertia / (4 * 60 * 60) / load;
        const double margin = factor / 2.5 - 1; /* the frame's end counts for yield, too */
        const int governs = pulled ? RBOW_FRAME_BY_YIELD : RBOW_FRAME_BY_FRAME;
        near_within(b.tube[0].margin, margin, 1e-6, 1e-6);
        ck_assert_int_eq(b.tube[0].governs, governs);
        const rbow_frame_detail place = {0, detail_of(RBOW_DETAIL_PLACE, 25)};
        rbow_detail_result r;
        ck_assert_int_eq(rbow_frame_details_check(b.solver, &b.run, &place, 1, &r), RBOW_OK);
        near_within(r.margin, margin, 1e-6, 1e-6);
        ck_assert_int_eq(rbow_frame_margin(b.solver, &b.run, INFINITY, &lowest), RBOW_OK);
        near_within(lowest.margin, b.tube[0].margin, 1e-6, 1e-6);
        ck_assert_int_eq(lowest.governs, governs);
        ck_assert(pulled || isnan(lowest.governs_at));
        ck_assert_int_eq(rbow_frame_details_margin(b.solver, &b.run, &place, 1, INFINITY, &lowest, &detail), RBOW_OK);
        near_within(lowest.margin, margin, 1e-6, 1e-6);
        end(&b);
    }
}
END_TEST

static double margin_of(built *b)
{
    rbow_frame_lowest lowest;
    ck_assert_int_eq(open_frame(b), RBOW_OK);
    ck_assert_int_eq(rbow_frame_margin(b->solver, &b->run, INFINITY, &lowest), RBOW_OK);
    return lowest.margin;
}

/* What is forced counts where it costs, never where it helps: a miss at A or B, toward either side, and a gap of either sign. */
START_TEST(forcing_never_helps)
{
    const rbow_material k = with_ultimate();
    built plain, b;
    portal(&plain, &k, false);
    const double unforced = margin_of(&plain);
    for (int what = 0; what < 3; what++) {
        double lowest = INFINITY, highest = -INFINITY;
        for (int side = 0; side < 2; side++) {
            portal(&b, &k, false);
            if (what == 0) b.tubes[2].miss_a = 0.1, b.tubes[2].miss_a_clock = side * pi;
            if (what == 1) b.tubes[2].miss_b = 0.1, b.tubes[2].miss_b_clock = side * pi;
            if (what == 2) b.tubes[3].gap = side ? 0.02 : -0.02;
            const double margin = margin_of(&b);
            lowest = fmin(lowest, margin);
            highest = fmax(highest, margin);
            end(&b);
        }
        near_within(highest, unforced, 1e-6, 1e-7); /* one side would help */
        ck_assert(lowest < unforced - 1e-5);
    }
    end(&plain);
}
END_TEST

/* A bow of unknown clock takes the worse of both sides: here that to which the loads bend the tube, far worse than the other. */
START_TEST(the_side_of_the_loads)
{
    const rbow_material k = with_ultimate();
    double margin[3];
    for (int i = 0; i < 3; i++) {
        built b;
        begin(&b);
        const size_t a = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED), c = add_joint(&b, 36, 0, 0, RBOW_HELD_FIXED & ~(unsigned)RBOW_HELD_X);
        rbow_frame_tube *t = add_tube(&b, a, c, 1.25, .058, &k);
        t->bow = .1;
        t->bow_clock = i == 2 ? RBOW_ANY_CLOCK : i * pi;
        push_joint(&b, c, -4000, 0, 0);
        rbow_frame_load *spread = &b.loads[b.run.load_count++];
        *spread = rbow_frame_load_default();
        spread->acts_on = RBOW_ACTS_ON_TUBE;
        spread->spread[RBOW_Z] = -20;
        margin[i] = margin_of(&b);
        end(&b);
    }
    ck_assert(fabs(margin[0] - margin[1]) > 0.01);
    near_within(margin[2], fmin(margin[0], margin[1]), 1e-6, 1e-7);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, together_as_alone);
    tcase_add_test(c, what_acts);
    tcase_add_test(c, the_lowest);
    tcase_add_test(c, the_end_and_the_factors);
    tcase_add_test(c, in_closed_form);
    tcase_add_test(c, forcing_never_helps);
    tcase_add_test(c, the_side_of_the_loads);
}

int main(void)
{
    return run_tests("details of a frame together", fill);
}
