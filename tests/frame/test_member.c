/* One tube with B free along it is a member: states to 1e-9, factors where the frame has no end of its own before. */
#include "frames.h"

#include "dice.h"

static rbow_member random_member(dice *d)
{
    rbow_member m = rbow_member_default();
    m.eccentricity_clock = m.bow_clock = m.miss_a_clock = m.miss_b_clock = 0;
    m.od = dice_between(d, 0.5, 2);
    m.wall = m.od * dice_between(d, 0.03, 0.15);
    m.length = dice_between(d, 10, 60);
    m.end_a = dice_chance(d, 0.3) ? RBOW_PINNED : dice_chance(d, 0.5) ? (double)RBOW_FIXED : dice_size(d, 1e3, 1e6);
    m.end_b = dice_chance(d, 0.3) ? RBOW_PINNED : dice_chance(d, 0.5) ? (double)RBOW_FIXED : dice_size(d, 1e3, 1e6);
    m.weld_zone = dice_chance(d, 0.5) ? 0 : 1;
    m.dressed = m.weld_zone > 0 && dice_chance(d, 0.3) ? m.wall * 0.1 : 0;
    m.bow = dice_chance(d, 0.6) ? m.length * dice_between(d, 0, 0.004) : 0;
    m.bow_clock = dice_between(d, 0, 6);
    m.bow_shape = dice_below(d, 3);
    m.bow_at = m.length * dice_between(d, 0.2, 0.8);
    if (m.end_a > 0 && dice_chance(d, 0.5)) m.miss_a = m.length * dice_between(d, 0, 0.01);
    if (m.end_b > 0 && dice_chance(d, 0.5)) m.miss_b = m.length * dice_between(d, 0, 0.01);
    m.miss_a_clock = dice_between(d, 0, 6);
    m.miss_b_clock = dice_between(d, 0, 6);
    m.column_curve = 1 + dice_below(d, RBOW_CURVE_COUNT - 1);
    m.factor = dice_between(d, 1, 2);
    m.factor_yield = dice_between(d, 1, 2);
    return m;
}

/* Along x, so that up is +z and right is -y. A cannot move, B moves along the tube alone; neither joint turns. */
static structure *frame_of(const rbow_member *m, double fixity)
{
    structure *s = new_structure();
    const size_t a = add_joint(s, 3, -4, 7, RBOW_HELD_FIXED), b = add_joint(s, 3 + m->length, -4, 7, RBOW_HELD_FIXED & ~RBOW_HELD_X);
    rbow_frame_tube *t = add_tube(s, a, b, m->od, m->wall);
    t->end_a = m->end_a;
    t->end_b = m->end_b;
    t->weld_zone = m->weld_zone;
    t->dressed = m->dressed;
    t->bow = m->bow;
    t->bow_clock = m->bow_clock;
    t->bow_shape = m->bow_shape;
    t->bow_at = m->bow_at;
    t->miss_a = m->miss_a;
    t->miss_a_clock = m->miss_a_clock;
    t->miss_b = m->miss_b;
    t->miss_b_clock = m->miss_b_clock;
    t->column_curve = m->column_curve;
    t->fixity = fixity;
    s->run.factor = m->factor;
    s->run.factor_yield = m->factor_yield;
    return s;
}

static void load(dice *d, rbow_member *m)
{
    m->compression = dice_between(d, -3000, 4000);
    if (dice_chance(d, 0.5)) {
        m->point_load = dice_between(d, 0, 80);
        m->point_at = m->length * dice_between(d, 0.1, 0.9);
        m->point_clock = dice_between(d, 0, 6);
    }
    m->spread_load = dice_chance(d, 0.5) ? dice_between(d, 0, 3) : 0;
    m->spread_clock = dice_between(d, 0, 6);
    m->vertical_g = dice_chance(d, 0.5) ? dice_between(d, -4, 4) : 0;
}

static void load_frame(structure *s, const rbow_member *m)
{
    push_joint(s, 1, -m->compression, 0, 0);
    rbow_frame_load *l = add_load(s, RBOW_ACTS_ON_TUBE, 0);
    l->at = m->point_at;
    l->force[1] = -m->point_load * sin(m->point_clock);
    l->force[2] = m->point_load * cos(m->point_clock);
    l->spread[1] = -m->spread_load * sin(m->spread_clock);
    l->spread[2] = m->spread_load * cos(m->spread_clock);
    add_load(s, RBOW_ACTS_ON_ALL, 0)->vertical_g = m->vertical_g;
}

static void same_profile(structure *s, const rbow_member *m, double factor)
{
    enum { PLACES = 7 };
    rbow_profile own[PLACES], frame[PLACES];
    double most = 0, far = 0;
    for (int i = 0; i < PLACES; i++) own[i].at = frame[i].at = fmin(m->length * i / (PLACES - 1), m->length);
    const rbow_status status = rbow_member_profile(m, &steel, factor, 0, own, PLACES);
    ck_assert_int_eq(rbow_frame_profile(s->solver, &s->run, factor, RBOW_FRAME_AS_BUILT, 0, frame, PLACES), status);
    if (status != RBOW_OK) return;
    for (int i = 0; i < PLACES; i++) {
        most = fmax(most, hypot(own[i].moment_up, own[i].moment_right));
        far = fmax(far, hypot(own[i].deflection_up, own[i].deflection_right));
    }
    for (int i = 0; i < PLACES; i++) {
        near_within(frame[i].moment_up, own[i].moment_up, 0, 1e-9 * most);
        near_within(frame[i].moment_right, own[i].moment_right, 0, 1e-9 * most);
        near_within(frame[i].deflection_up, own[i].deflection_up, 0, 1e-9 * far);
        near_within(frame[i].deflection_right, own[i].deflection_right, 0, 1e-9 * far);
    }
}

static void same_factor(double got, double want, double end)
{
    if (isinf(want) || want > end)
        ck_assert_msg(got >= end * (1 - 2e-7), "%.15g, want %.15g, end %.15g", got, want, end);
    else
        near_within(got, want, 3e-7, 1e-12);
}

START_TEST(a_tube_alone_is_a_member)
{
    dice d = {7};
    int finite = 0;
    for (int i = 0; i < 400; i++) {
        rbow_member m = random_member(&d);
        rbow_result r;
        if (rbow_member_faults(&m, &steel, NULL, 0) > 0) continue;
        load(&d, &m);
        ck_assert_int_eq(rbow_member_check(&m, &steel, &r), RBOW_OK);
        structure *s = frame_of(&m, pow(m.length / r.effective_length, 2));
        load_frame(s, &m);
        checked c = check_structure(s);
        const rbow_frame_tube_result *t = &c.tubes[0];
        same_profile(s, &m, 0.5);
        same_profile(s, &m, 1);
        near_within(t->column_load, r.column_load, 1e-12, 0);
        near_within(t->fit_stress, r.fit_stress, 1e-9, 1e-9);
        if (m.compression < r.critical_load) near_within(t->axial, m.compression, 1e-12, 0);
        if (r.fit_taken == RBOW_FIT_AS_BUILT && !isnan(r.peak_stress)) near_within(t->peak_stress, r.peak_stress, 1e-9, 0);
        if (r.fit_taken == RBOW_FIT_AS_BUILT && !isnan(r.peak_stress)) near_within(t->peak_moment, r.peak_moment, 1e-9, 1e-9);
        const double cap = m.compression > 0 ? r.critical_load / m.compression : (double)INFINITY;
        if (isfinite(cap)) near_within(t->path_end, cap, 1e-7, 0);
        same_factor(t->margin_as_built, r.margin_as_built, cap / fmax(m.factor, m.factor_yield) - 1);
        same_factor(t->margin_unforced, r.margin_unforced, cap / fmax(m.factor, m.factor_yield) - 1);
        finite += isfinite(r.margin);
        free_checked(&c);
        free_structure(s);
    }
    ck_assert_int_ge(finite, 100);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, a_tube_alone_is_a_member);
}

int main(void)
{
    return run_tests("frame, one tube", fill);
}
