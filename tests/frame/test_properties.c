/* What must hold for every frame: the tube of check as a frame, extra joints, turned and mirrored frames, equilibrium, folds and
 * buckling in closed form, frames that are not held. */
#include "frame/frames.h"

static const double pi = 3.14159265358979323846;

/* One tube between joints that do not turn, B free along it, with loads, bow, misses: the frame's and check's are one model. */
START_TEST(one_tube_is_that_of_check)
{
    static const double stiff[] = {INFINITY, 60e3, 2e5};
    for (int i = 0; i < 3; i++) {
        built b;
        rbow_result want;
        begin(&b);
        add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED);
        add_joint(&b, 36, 0, 0, RBOW_HELD_FIXED & ~(unsigned)RBOW_HELD_X);
        rbow_frame_tube *t = add_tube(&b, 0, 1, 1.25, 0.058, &steel);
        t->end_a = stiff[i];
        t->end_b = stiff[2 - i];
        t->bow = 0.06;
        t->bow_clock = 0.7;
        t->miss_a = 0.2;
        t->miss_a_clock = 2;
        t->miss_b = 0.1;
        t->miss_b_clock = 5;
        t->dressed = 0.005;
        rbow_member m = rbow_member_default();
        m.od = t->od, m.wall = t->wall, m.length = 36, m.end_a = t->end_a, m.end_b = t->end_b, m.dressed = t->dressed;
        m.bow = t->bow, m.bow_clock = t->bow_clock, m.miss_a = t->miss_a, m.miss_a_clock = t->miss_a_clock;
        m.miss_b = t->miss_b, m.miss_b_clock = t->miss_b_clock, m.compression = 3000, m.point_load = 40, m.point_at = 11;
        m.point_clock = pi / 2, m.spread_load = 3;
        ck_assert_int_eq(rbow_member_check(&m, &steel, &want), RBOW_OK);
        t->fixity = want.section.area > 0 ? (36 / want.effective_length) * (36 / want.effective_length) : 1;
        push_joint(&b, 1, -3000, 0, 0);
        rbow_frame_load *across = push_joint(&b, 0, 0, -40, 0); /* clock 90 is -y for a tube along x */
        across->acts_on = RBOW_ACTS_ON_TUBE;
        across->at = 11;
        across->spread[RBOW_Z] = 3;
        solve(&b);
        const rbow_frame_tube_result *got = &b.tube[0];
        near_within(got->axial, 3000, 1e-9, 0);
        near_within(got->column_load, want.column_load, 1e-9, 0);
        near_within(got->fit_moment, want.fit_moment, 1e-9, 0);
        near_within(got->fit_stress, want.fit_stress, 1e-9, 0);
        near_within(got->margin_as_built, want.margin_as_built, 1e-7, 1e-7);
        near_within(got->margin_unforced, want.margin_unforced, 1e-7, 1e-7);
        if (want.fit_kept == (RBOW_FIT_MISS_A | RBOW_FIT_MISS_B) || want.fit_kept == 0) {
            near_within(got->margin, want.margin, 1e-7, 1e-7);
            near_within(got->yield_factor, want.yield_factor, 1e-6, 0);
            near_within(got->interaction_factor, want.interaction_factor, 1e-6, 0);
        }
        end(&b);
    }
}
END_TEST

/* A small space frame, forced, under many loads. */
static void space_frame(built *b, double turn, bool split, bool mirror)
{
    static const double at[6][3] = {{0, 9, 0}, {0, -9, 0}, {0, 0, 14}, {30, 8, 1}, {30, -8, 1}, {30, 0, 12}};
    static const size_t ends[][2] = {{0, 3}, {1, 4}, {2, 5}, {3, 4}, {4, 5}, {5, 3}, {0, 4}, {1, 5}, {2, 3}};
    const double c = cos(turn), s = sin(turn), side = mirror ? -1 : 1;
    begin(b);
    for (int i = 0; i < 6; i++)
        add_joint(b, c * at[i][0] - s * side * at[i][1], s * at[i][0] + c * side * at[i][1], at[i][2], i < 3 ? RBOW_HELD_FIXED : 0u);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        const bool in_two = split && i == 2;
        const double *p = b->joints[ends[i][0]].at, *q = b->joints[ends[i][1]].at, share = 0.37;
        if (!in_two) {
            add_tube(b, ends[i][0], ends[i][1], 1.25, 0.049, &steel)->weld_zone = 0;
            continue;
        }
        const size_t middle = add_joint(b, p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1]), p[2] + share * (q[2] - p[2]), 0);
        add_tube(b, ends[i][0], middle, 1.25, 0.049, &steel)->weld_zone = 0;
        add_tube(b, middle, ends[i][1], 1.25, 0.049, &steel)->weld_zone = 0;
    }
    rbow_frame_tube *first = &b->tubes[0];
    first->gap = 0.02;
    first->miss_b = 0.15;
    first->miss_b_clock = mirror ? -1.1 : 1.1;
    const double push[3] = {-900, 120 * side, -260};
    push_joint(b, 5, c * push[0] - s * push[1], s * push[0] + c * push[1], push[2]);
    push_joint(b, 3, c * -1500, s * -1500, 0);
    rbow_frame_load *twist = push_joint(b, 4, 0, 0, 0);
    twist->moment[RBOW_X] = c * 300 * side;
    twist->moment[RBOW_Y] = s * 300 * side;
}

START_TEST(turning_and_mirroring_change_nothing)
{
    static built a, b;
    space_frame(&a, 0, false, false);
    solve(&a);
    for (int i = 0; i < 2; i++) {
        space_frame(&b, i == 0 ? 1.234 : 0, false, i == 1);
        b.memory = NULL;
        solve(&b);
        near_within(b.whole.critical_factor, a.whole.critical_factor, 1e-8, 0);
        near_within(b.whole.path_end, a.whole.path_end, 1e-6, 0);
        for (size_t k = 0; k < a.frame.tube_count; k++) {
            near_within(b.tube[k].margin, a.tube[k].margin, 1e-7, 1e-8);
            near_within(b.tube[k].axial, a.tube[k].axial, 1e-9, 1e-7);
            near_within(b.tube[k].peak_moment, a.tube[k].peak_moment, 1e-9, 1e-6);
            near_within(b.tube[k].fit_stress, a.tube[k].fit_stress, 1e-9, 1e-6);
        }
        end(&b);
    }
    end(&a);
}
END_TEST

START_TEST(an_extra_joint_changes_nothing)
{
    static built a, b;
    space_frame(&a, 0.3, false, false);
    space_frame(&b, 0.3, true, false);
    solve(&a);
    solve(&b);
    near_within(b.whole.critical_factor, a.whole.critical_factor, 1e-8, 0);
    near_within(b.whole.path_end, a.whole.path_end, 1e-6, 0);
    for (size_t i = 0; i < a.frame.joint_count; i++)
        for (int k = 0; k < RBOW_AXES; k++) near_within(b.joint[i].move[k], a.joint[i].move[k], 1e-8, 1e-10);
    for (size_t i = 0; i < 2; i++) near_within(b.tube[i].margin, a.tube[i].margin, 1e-6, 1e-7);
    near_within(fmin(b.tube[2].yield_factor, b.tube[3].yield_factor), a.tube[2].yield_factor, 1e-6, 0);
    near_within(b.tube[2].axial, a.tube[2].axial, 1e-9, 1e-7);
    end(&a);
    end(&b);
}
END_TEST

/* Forces of the supports and loads on the moved joints: sum and moment about any point are 0. The model leaves out the stretch of a
 * lever arm, so the loads are small; what is asked is that the first order of the movements is in it. */
START_TEST(supports_balance_the_loads)
{
    static built b;
    const double about[3] = {7, -3, 11};
    double sum[RBOW_MOTIONS] = {0};
    space_frame(&b, 0, false, false);
    b.tubes[0].gap = b.tubes[0].miss_b = 0;
    for (size_t n = 0; n < b.run.load_count; n++)
        for (int k = 0; k < 3; k++) {
            b.loads[n].force[k] *= 1e-3;
            b.loads[n].moment[k] *= 1e-3;
        }
    solve(&b);
    for (size_t i = 0; i < b.frame.joint_count; i++) {
        double f[RBOW_MOTIONS], r[3];
        memcpy(f, b.joint[i].react, sizeof f);
        for (size_t n = 0; n < b.run.load_count; n++) {
            if (b.loads[n].index != i) continue;
            for (int k = 0; k < 3; k++) f[k] += b.loads[n].force[k];
            for (int k = 0; k < 3; k++) f[3 + k] += b.loads[n].moment[k];
        }
        for (int k = 0; k < 3; k++) r[k] = b.joints[i].at[k] + b.joint[i].move[k] - about[k];
        for (int k = 0; k < RBOW_MOTIONS; k++) sum[k] += f[k];
        for (int k = 0; k < 3; k++) sum[3 + k] += r[(k + 1) % 3] * f[(k + 2) % 3] - r[(k + 2) % 3] * f[(k + 1) % 3];
    }
    for (int k = 0; k < 3; k++) near_within(sum[k], 0, 0, 1e-9);
    for (int k = 3; k < 6; k++) near_within(sum[k], 0, 0, 1e-5);
    end(&b);
}
END_TEST

/* Two pinned bars of a low roof, s the sine of their slope, F at the top: with w the top's movement P = EA s w/L and
 * F = 2 w (EA s^2 - P c^2)/L, a parabola whose top is EA s^3/(2 c^2). It folds there, long before a bar buckles. */
static void low_roofs_fold(int roofs)
{
    built b;
    rbow_section section;
    const double rise = 1, half = 20, length = hypot(rise, half), s = rise / length, c = half / length;
    begin(&b);
    for (int i = 0; i < roofs; i++) {
        const double y = 10 * i;
        const size_t left = add_joint(&b, -half, y, 0, RBOW_HELD_PINNED), right = add_joint(&b, half, y, 0, RBOW_HELD_PINNED);
        const size_t top = add_joint(&b, 0, y, rise, RBOW_HELD_Y);
        pin(add_tube(&b, left, top, 1.25, 0.058, &steel));
        pin(add_tube(&b, right, top, 1.25, 0.058, &steel));
        push_joint(&b, top, 0, 0, -100);
    }
    rbow_section_of(1.25, 0.058, &section);
    solve(&b);
    near_within(b.whole.path_end, steel.elastic_modulus * section.area * s * s * s / (2 * c * c) / 100, 1e-7, 0);
    end(&b);
}

START_TEST(a_low_roof_folds)
{
    low_roofs_fold(1);
}
END_TEST

/* Two at one load factor leave the sign of the determinant as it is. */
START_TEST(two_low_roofs_fold_at_once)
{
    low_roofs_fold(2);
    low_roofs_fold(4);
}
END_TEST

/* Six bowed legs of a dome: two tilting modes fold at one load factor, and the sign of the determinant does not change. A small side
 * load parts them: the path of that frame ends just before. */
START_TEST(two_modes_of_one_dome_fold_at_once)
{
    double ends[2];
    for (int i = 0; i < 2; i++) {
        built b;
        begin(&b);
        for (int leg = 0; leg < 6; leg++) add_joint(&b, 40 * cos(leg * pi / 3), 40 * sin(leg * pi / 3), 0, RBOW_HELD_FIXED);
        const size_t top = add_joint(&b, 0, 0, 12, RBOW_HELD_RZ);
        for (size_t leg = 0; leg < 6; leg++) {
            rbow_frame_tube *t = add_tube(&b, leg, top, 0.5, 0.035, &steel);
            t->bow = 0.3;
            t->bow_clock = pi;
        }
        push_joint(&b, top, i * 0.003, i * 0.003, -300);
        ck_assert_int_eq(open_frame(&b), RBOW_OK);
        ck_assert_int_eq(rbow_frame_path_end(b.solver, &b.run, RBOW_FRAME_AS_BUILT, &ends[i]), RBOW_OK);
        end(&b);
    }
    near_within(ends[1], ends[0], 1e-4, 0);
    ck_assert(ends[1] < ends[0]);
}
END_TEST

/* Each tube judged alone has the margin that the check gives it; the check itself judges all of them whatever is picked. */
static void each_tube_alone(built *b)
{
    rbow_frame_tube_result again[4];
    for (size_t i = 0; i < b->frame.tube_count; i++) {
        bool alone[4] = {false};
        rbow_frame_lowest lowest;
        alone[i] = true;
        rbow_frame_judge_only(b->solver, alone);
        ck_assert_int_eq(rbow_frame_margin(b->solver, &b->run, INFINITY, &lowest), RBOW_OK);
        near_within(lowest.margin, b->tube[i].margin, 1e-6, 1e-6);
        ck_assert_uint_eq(lowest.tube, i);
        ck_assert_int_eq(lowest.governs, b->tube[i].governs);
        ck_assert_int_eq(rbow_frame_check(b->solver, &b->run, again, NULL, NULL), RBOW_OK);
        for (size_t k = 0; k < b->frame.tube_count; k++) near_within(again[k].margin, b->tube[k].margin, 1e-12, 1e-12);
        rbow_frame_judge_only(b->solver, NULL);
    }
}

/* rbow_frame_margin against the check, on a portal that is loaded more and more, braced by a forced tube with a bow of unknown clock. */
START_TEST(the_margin_alone_is_that_of_the_check)
{
    for (int i = 1; i <= 12; i++) {
        built b;
        rbow_frame_lowest lowest;
        begin(&b);
        const size_t foot = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED), other = add_joint(&b, 40, 3, 0, RBOW_HELD_PINNED);
        const size_t corner = add_joint(&b, 0, 0, 30, 0), far = add_joint(&b, 40, 3, 30, 0);
        add_tube(&b, foot, corner, 1.25, 0.058, &steel);
        add_tube(&b, corner, far, 1.25, 0.049, &steel)->bow = 0.05;
        add_tube(&b, other, far, 1.25, 0.058, &steel);
        rbow_frame_tube *brace = add_tube(&b, foot, far, 1, 0.049, &steel);
        brace->miss_a = i % 3 == 0 ? 0 : 0.1 * i;
        brace->miss_a_clock = 2;
        brace->bow = 0.06;
        brace->bow_clock = i % 2 == 0 ? RBOW_ANY_CLOCK : 1;
        push_joint(&b, corner, 150.0 * i, 40, -1100.0 * i);
        push_joint(&b, far, -20, 0, -400.0 * i);
        b.run.factor_yield = i % 4 == 0 ? 1.1 : RBOW_UNSET;
        solve(&b);
        ck_assert_int_eq(rbow_frame_margin(b.solver, &b.run, INFINITY, &lowest), RBOW_OK);
        near_within(lowest.margin, b.whole.margin, 1e-7, 1e-7);
        ck_assert_uint_eq(lowest.tube, b.whole.worst_tube);
        ck_assert_int_eq(lowest.governs, b.whole.governs);
        ck_assert_int_eq(rbow_frame_margin(b.solver, &b.run, b.whole.margin + 0.1, &lowest), RBOW_OK);
        near_within(lowest.margin, b.whole.margin, 1e-7, 1e-7);
        const double lower = (b.whole.margin - 1) / 2; /* between it and -1 */
        ck_assert_int_eq(rbow_frame_margin(b.solver, &b.run, lower, &lowest), RBOW_OK);
        ck_assert(lowest.margin >= lower && lowest.tube == b.frame.tube_count);
        each_tube_alone(&b);
        end(&b);
    }
}
END_TEST

START_TEST(a_pinned_tube_ends_the_path_at_its_own_load)
{
    built b;
    rbow_section section;
    begin(&b);
    add_joint(&b, 0, 0, 0, RBOW_HELD_PINNED);
    add_joint(&b, 40, 0, 0, RBOW_HELD_Y | RBOW_HELD_Z);
    pin(add_tube(&b, 0, 1, 1.25, 0.058, &steel));
    push_joint(&b, 1, -1000, 0, 0);
    rbow_section_of(1.25, 0.058, &section);
    const double euler = pi * pi * steel.elastic_modulus * section.inertia / 1600 / 1000;
    solve(&b);
    near_within(b.whole.path_end, euler, 1e-7, 0);
    near_within(b.whole.critical_factor, euler, 1e-9, 0);
    ck_assert_int_eq(b.tube[0].governs, RBOW_FRAME_BY_COLUMN);
    end(&b);
}
END_TEST

/* A third tube beside a statically determinate pair takes a gap; the pair takes none. In a frame all in tension nothing ends. */
START_TEST(tension_has_no_end)
{
    built b;
    begin(&b);
    add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED);
    add_joint(&b, 40, 0, 0, 0);
    add_tube(&b, 0, 1, 1.25, 0.058, &steel);
    push_joint(&b, 1, 1000, 0, 0);
    solve(&b);
    ck_assert(isinf(b.whole.path_end) && isinf(b.whole.critical_factor));
    ck_assert(isinf(b.tube[0].column_factor) && isinf(b.tube[0].interaction_factor));
    const double area = 3.14159265358979323846 / 4 * (1.25 * 1.25 - 1.134 * 1.134);
    near_within(b.tube[0].yield_factor, 60e3 * area / 1000, 1e-7, 0); /* the weld zones' yield */
    end(&b);
}
END_TEST

START_TEST(frames_that_are_not_held)
{
    built b;
    begin(&b); /* a four-bar linkage: it sways */
    const size_t a = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED), p = add_joint(&b, 0, 0, 30, RBOW_HELD_Y), q = add_joint(&b, 30, 0, 30, RBOW_HELD_Y);
    const size_t c = add_joint(&b, 30, 0, 0, RBOW_HELD_FIXED);
    pin(add_tube(&b, a, p, 1.25, 0.058, &steel));
    pin(add_tube(&b, p, q, 1.25, 0.058, &steel));
    pin(add_tube(&b, q, c, 1.25, 0.058, &steel));
    ck_assert_int_eq(open_frame(&b), RBOW_FRAME_NOT_HELD);
    ck_assert(b.loose.joint == p || b.loose.joint == q);
    near_within(fabs(b.loose.motion[RBOW_X]), 1, 1e-9, 0);
    near_within(b.loose.motion[RBOW_Z], 0, 0, 1e-9);
    end(&b);
    begin(&b); /* nothing is held */
    add_joint(&b, 0, 0, 0, 0);
    add_joint(&b, 30, 0, 0, 0);
    add_tube(&b, 0, 1, 1.25, 0.058, &steel);
    ck_assert_int_eq(open_frame(&b), RBOW_FRAME_NOT_HELD);
    end(&b);
}
END_TEST

/* Every joint held: no unknown, and a gap is taken in full. */
START_TEST(a_tube_between_held_joints)
{
    built b;
    rbow_section section;
    begin(&b);
    add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED);
    add_joint(&b, 0, 0, 50, RBOW_HELD_FIXED);
    add_tube(&b, 0, 1, 1.25, 0.058, &steel)->gap = 0.02;
    rbow_section_of(1.25, 0.058, &section);
    solve(&b);
    near_within(b.tube[0].fit_axial, -0.02 * steel.elastic_modulus * section.area / 50, 1e-12, 0);
    near_within(b.joint[0].react[RBOW_Z], b.tube[0].fit_axial, 1e-12, 0);
    end(&b);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, one_tube_is_that_of_check);
    tcase_add_test(cases, turning_and_mirroring_change_nothing);
    tcase_add_test(cases, an_extra_joint_changes_nothing);
    tcase_add_test(cases, supports_balance_the_loads);
    tcase_add_test(cases, a_low_roof_folds);
    tcase_add_test(cases, two_low_roofs_fold_at_once);
    tcase_add_test(cases, two_modes_of_one_dome_fold_at_once);
    tcase_add_test(cases, the_margin_alone_is_that_of_the_check);
    tcase_add_test(cases, a_pinned_tube_ends_the_path_at_its_own_load);
    tcase_add_test(cases, tension_has_no_end);
    tcase_add_test(cases, frames_that_are_not_held);
    tcase_add_test(cases, a_tube_between_held_joints);
}

int main(void)
{
    return run_tests("frame/properties", fill);
}
