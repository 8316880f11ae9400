/* Loads and reactions balance about any point; what the whole frame turns, mirrors or is numbered by changes nothing. */
#include "random_frames.h"

#include <stdbool.h>

static void add_moment(const double at[3], const double force[3], double moment[3])
{
    moment[0] += at[1] * force[2] - at[2] * force[1];
    moment[1] += at[2] * force[0] - at[0] * force[2];
    moment[2] += at[0] * force[1] - at[1] * force[0];
}

typedef struct sums {
    double force[3], moment[3], size;
} sums;

/* Given: at  where it acts, in the moved frame */
static void add_force(sums *s, const double at[3], const double force[3])
{
    for (int k = 0; k < 3; k++) {
        s->force[k] += force[k];
        s->size += fabs(force[k]);
    }
    add_moment(at, force, s->moment);
}

/* The loads on a tube go to its joints by the lever rule; they act in the drawn place of the tube, moved with its chord. */
static void add_on_tube(const structure *s, const checked *c, size_t i, const double force[3], double share, sums *sum)
{
    const rbow_frame_tube *t = &s->tubes[i];
    double at[3];
    for (int k = 0; k < 3; k++) {
        const double a = s->joints[t->from].at[k] + c->joints[t->from].move[k], b = s->joints[t->to].at[k] + c->joints[t->to].move[k];
        at[k] = a + (b - a) * share;
    }
    add_force(sum, at, force);
}

static void add_run(const structure *s, const checked *c, sums *sum)
{
    for (size_t i = 0; i < s->run.load_count; i++) {
        const rbow_frame_load *l = &s->loads[i];
        const double g[3] = {l->forward_g, l->left_g, -l->vertical_g};
        for (size_t k = 0; l->acts_on == RBOW_ACTS_ON_ALL && k < s->frame.tube_count; k++) {
            const double w = c->tubes[k].weight, force[3] = {w * g[0], w * g[1], w * g[2]};
            add_on_tube(s, c, k, force, 0.5, sum);
        }
        for (size_t k = 0; l->acts_on == RBOW_ACTS_ON_ALL && k < s->frame.joint_count; k++) {
            const double m = s->joints[k].mass, force[3] = {m * g[0], m * g[1], m * g[2]};
            double at[3];
            for (int j = 0; j < 3; j++) at[j] = s->joints[k].at[j] + c->joints[k].move[j];
            add_force(sum, at, force);
        }
        if (l->acts_on == RBOW_ACTS_ON_JOINT) {
            double at[3];
            for (int j = 0; j < 3; j++) at[j] = s->joints[l->index].at[j] + c->joints[l->index].move[j];
            add_force(sum, at, l->force);
            for (int j = 0; j < 3; j++) sum->moment[j] += l->moment[j];
        }
        if (l->acts_on == RBOW_ACTS_ON_TUBE) {
            const double length = c->tubes[l->index].length;
            const double all[3] = {l->spread[0] * length, l->spread[1] * length, l->spread[2] * length};
            add_on_tube(s, c, l->index, l->force, 0.5, sum);
            add_on_tube(s, c, l->index, all, 0.5, sum);
        }
    }
    for (size_t i = 0; i < s->frame.joint_count; i++) {
        double at[3];
        for (int j = 0; j < 3; j++) at[j] = s->joints[i].at[j] + c->joints[i].move[j];
        add_force(sum, at, c->joints[i].react);
        for (int j = 0; j < 3; j++) sum->moment[j] += c->joints[i].react[3 + j];
    }
}

/* Under loads so small that moving them with their joints gives no moment. */
static void make_small(structure *s)
{
    for (size_t i = 0; i < s->run.load_count; i++) {
        rbow_frame_load *l = &s->loads[i];
        l->vertical_g *= 1e-6;
        for (int k = 0; k < 3; k++) {
            l->force[k] *= 1e-6;
            l->moment[k] *= 1e-6;
            l->spread[k] *= 1e-6;
        }
    }
}

/* A tube's lateral forces have its drawn length as their arm, so that moments about the moved joints balance but for products
 * of movements and forces. */
START_TEST(loads_and_reactions_balance)
{
    dice d = {11};
    for (int i = 0; i < 20; i++) {
        structure *s = some_frame(&d, 3, false);
        some_loads(s, &d);
        if (i % 2) make_small(s);
        for (size_t k = 0; i % 2 && k < s->frame.tube_count; k++) s->tubes[k].bow = 0;
        checked c = check_structure(s);
        if (isnan(c.joints[0].react[0])) continue;
        sums sum = {{0}, {0}, 0};
        add_run(s, &c, &sum);
        for (int k = 0; k < 3; k++) near_within(sum.force[k], 0, 0, 1e-9 * sum.size);
        for (int k = 0; i % 2 && k < 3; k++) near_within(sum.moment[k], 0, 0, 1e-5 * sum.size);
        free_checked(&c);
        free_structure(s);
    }
}
END_TEST

/* ---- the same frame, seen otherwise ------------------------------------------------------------------------- */

static void same_checked(const structure *s, const checked *a, const checked *b, const size_t *tube_of)
{
    double most = 0;
    for (size_t i = 0; i < s->frame.tube_count; i++) most = fmax(most, fabs(a->tubes[i].axial));
    near_within(b->whole.critical_factor, a->whole.critical_factor, 1e-8, 0);
    near_within(b->whole.path_end, a->whole.path_end, 2e-7, 0);
    near_within(b->whole.margin, a->whole.margin, 3e-7, 3e-7);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const rbow_frame_tube_result *x = &a->tubes[i], *y = &b->tubes[tube_of != NULL ? tube_of[i] : i];
        if (!isnan(x->axial)) near_within(y->axial, x->axial, 0, 1e-8 * most);
        if (!isnan(x->axial)) near_within(y->peak_moment, x->peak_moment, 1e-7, 1e-7);
        if (!isnan(x->axial)) near_within(y->stress_use, x->stress_use, 1e-7, 1e-9);
        if (!isnan(x->axial)) near_within(fabs(y->torque), fabs(x->torque), 1e-7, 1e-7);
        near_within(y->fit_stress, x->fit_stress, 1e-7, 1e-5);
        near_within(y->margin_as_built, x->margin_as_built, 1e-6, 1e-6);
        near_within(y->margin_unforced, x->margin_unforced, 1e-6, 1e-6);
        ck_assert_int_eq(y->verdict, x->verdict);
    }
}

static void turn(double v[3], double angle)
{
    const double x = v[0] * cos(angle) - v[1] * sin(angle), y = v[0] * sin(angle) + v[1] * cos(angle);
    v[0] = x;
    v[1] = y;
}

/* About z; every joint is held in all directions or in none, so that supports turn with it. */
START_TEST(turning_the_frame_changes_nothing)
{
    dice d = {12};
    for (int i = 0; i < 6; i++) {
        structure *s = some_frame(&d, 2, true);
        some_loads(s, &d);
        checked a = check_structure(s);
        const double angle = dice_between(&d, 0.3, 6);
        for (size_t k = 0; k < s->frame.joint_count; k++) turn(s->joints[k].at, angle);
        for (size_t k = 0; k < s->run.load_count; k++) {
            turn(s->loads[k].force, angle);
            turn(s->loads[k].moment, angle);
            turn(s->loads[k].spread, angle);
        }
        checked b = check_structure(s);
        same_checked(s, &a, &b, NULL);
        free_checked(&a);
        free_checked(&b);
        free_structure(s);
    }
}
END_TEST

/* In the plane y = 0: right and left change places, so that clocks run backwards and moments about x and z change sign. */
START_TEST(mirroring_the_frame_changes_nothing)
{
    dice d = {13};
    for (int i = 0; i < 6; i++) {
        structure *s = some_frame(&d, 2, true);
        some_loads(s, &d);
        checked a = check_structure(s);
        for (size_t k = 0; k < s->frame.joint_count; k++) s->joints[k].at[1] *= -1;
        for (size_t k = 0; k < s->frame.tube_count; k++) {
            s->tubes[k].bow_clock *= -1;
            s->tubes[k].miss_a_clock *= -1;
            s->tubes[k].miss_b_clock *= -1;
        }
        for (size_t k = 0; k < s->run.load_count; k++) {
            s->loads[k].force[1] *= -1;
            s->loads[k].spread[1] *= -1;
            s->loads[k].moment[0] *= -1;
            s->loads[k].moment[2] *= -1;
        }
        checked b = check_structure(s);
        same_checked(s, &a, &b, NULL);
        free_checked(&a);
        free_checked(&b);
        free_structure(s);
    }
}
END_TEST

static size_t shuffled[JOINTS_MOST], tube_now[TUBES_MOST];

static void shuffle(dice *d, size_t *list, size_t count)
{
    for (size_t i = 0; i < count; i++) list[i] = i;
    for (size_t i = count; i > 1; i--) {
        const size_t k = (size_t)dice_below(d, (int)i), swap = list[k];
        list[k] = list[i - 1];
        list[i - 1] = swap;
    }
}

START_TEST(renumbering_changes_nothing)
{
    dice d = {14};
    for (int i = 0; i < 6; i++) {
        structure *s = some_frame(&d, 3, true), *t = new_structure();
        some_loads(s, &d);
        checked a = check_structure(s);
        *t = *s;
        t->frame.joints = t->joints;
        t->frame.tubes = t->tubes;
        t->run.loads = t->loads;
        t->memory = NULL;
        shuffle(&d, shuffled, s->frame.joint_count);
        shuffle(&d, tube_now, s->frame.tube_count);
        for (size_t k = 0; k < s->frame.joint_count; k++) t->joints[shuffled[k]] = s->joints[k];
        for (size_t k = 0; k < s->frame.tube_count; k++) {
            t->tubes[tube_now[k]] = s->tubes[k];
            t->tubes[tube_now[k]].from = shuffled[s->tubes[k].from];
            t->tubes[tube_now[k]].to = shuffled[s->tubes[k].to];
        }
        for (size_t k = 0; k < s->run.load_count; k++) {
            rbow_frame_load *l = &t->loads[k];
            if (l->acts_on == RBOW_ACTS_ON_JOINT) l->index = shuffled[l->index];
            if (l->acts_on == RBOW_ACTS_ON_TUBE) l->index = tube_now[l->index];
        }
        checked b = check_structure(t);
        same_checked(s, &a, &b, tube_now);
        free_checked(&a);
        free_checked(&b);
        free_structure(s);
        free_structure(t);
    }
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, loads_and_reactions_balance);
    tcase_add_test(cases, turning_the_frame_changes_nothing);
    tcase_add_test(cases, mirroring_the_frame_changes_nothing);
    tcase_add_test(cases, renumbering_changes_nothing);
}

int main(void)
{
    return run_tests("frame, balance", fill);
}
