/* What makes a short frame hold, against the full check of every smaller value and every size. */
#include "near.h"

#include "study/frame_advice.h"

#include <gsl/gsl_errno.h>
#include <math.h>

/* Round numbers, no table's. */
static const rbow_material steel = {
    .name = "steel", .wall_up_to = 0.2, .elastic_modulus = 29e6, .shear_modulus = 11e6, .density = 0.283, .yield = 75e3,
    .compression_yield = 75e3, .ultimate = 95e3, .weld_yield = 60e3, .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON,
    .source = ""};
static const double walls[] = {0.035, 0.049, 0.058, 0.065, 0.083, 0.095, 0.12}, ods[] = {1.125, 1.25, 1.375, 1.5, 1.625, 1.75};

enum { TUBES = 2, BRACE = 1 };

typedef struct bracket { /* a beam and a brace on a wall, loaded at their common joint */
    rbow_frame_joint joints[3];
    rbow_frame_tube tubes[TUBES];
    rbow_frame_load load;
    rbow_frame_run run;
    frame_tube_row rows[TUBES];
    frame_problem problem;
} bracket;

static void build(bracket *b, double force, double miss, double bow)
{
    static const char *const names[TUBES] = {"steel", "steel"};
    for (int i = 0; i < 3; i++) b->joints[i] = rbow_frame_joint_default();
    b->joints[0].held = b->joints[1].held = RBOW_HELD_FIXED;
    for (int i = 0; i < 3; i++) b->joints[i].at[RBOW_X] = i < 2 ? 0 : 30, b->joints[i].at[RBOW_Y] = 0, b->joints[i].at[RBOW_Z] = i == 0 ? 0 : 24;
    for (size_t i = 0; i < TUBES; i++) {
        rbow_frame_tube *t = &b->tubes[i];
        *t = rbow_frame_tube_default();
        t->from = i == BRACE ? 0 : 1;
        t->to = 2;
        t->od = 1.25;
        t->wall = 0.058;
        t->material = &steel;
        b->rows[i] = (frame_tube_row){.name = i == BRACE ? "brace" : "beam"};
    }
    b->tubes[BRACE].miss_a = miss;
    b->tubes[BRACE].miss_a_clock = 3.14159265358979323846;
    b->tubes[BRACE].bow = bow;
    b->tubes[BRACE].bow_clock = RBOW_ANY_CLOCK;
    b->load = rbow_frame_load_default();
    b->load.acts_on = RBOW_ACTS_ON_JOINT;
    b->load.index = 2;
    b->load.force[RBOW_Z] = -force;
    b->run = (rbow_frame_run){&b->load, 1, 1.5, RBOW_UNSET};
    const rbow_frame frame = {b->joints, 3, b->tubes, TUBES};
    ck_assert(frame_problem_open(&b->problem, &frame, &b->run, 1, names, &steel, 1));
}

/* By the full check; -9 where the frame is refused. */
static void margins(const bracket *b, size_t on, size_t offset, double value, double margin[TUBES])
{
    frame_problem changed;
    rbow_frame_tube_result tubes[TUBES];
    rbow_frame_run_result whole;
    ck_assert(frame_problem_copy(&changed, &b->problem));
    ck_assert_int_eq(frame_parameter_set(&changed, (frame_parameter){FRAME_TUBES, on, offset}, value), RBOW_OK);
    const bool fine = frame_problem_check(&changed, 0, tubes, &whole) == RBOW_OK;
    for (size_t i = 0; i < TUBES; i++) margin[i] = fine ? tubes[i].margin : -9;
    frame_problem_close(&changed);
}

static bool holds(const bracket *b, const frame_advice_row *r, size_t on, size_t offset, double value)
{
    double margin[TUBES];
    const size_t tube = r->tube == b->rows[BRACE].name ? BRACE : 0;
    margins(b, on, offset, value, margin);
    return margin[tube] >= 0 && (!r->enough || margin[1 - tube] >= 0);
}

static size_t offset_of(int column)
{
    return column == ADVICE_MISS_A ? offsetof(frame_tube_row, tube.miss_a) : column == ADVICE_BOW ? offsetof(frame_tube_row, tube.bow)
         : column == ADVICE_WALL ? offsetof(frame_tube_row, tube.wall) : offsetof(frame_tube_row, tube.od);
}

static void ck_row(const bracket *b, const frame_advice_row *r)
{
    const size_t on = r->changed == b->rows[BRACE].name ? BRACE : 0, offset = offset_of(r->column);
    const double step = r->column == ADVICE_MISS_A ? 1.0 / 64 : 0.001, *sizes = r->column == ADVICE_WALL ? walls : ods;
    double margin[TUBES];
    margins(b, on, offset, r->to, margin);
    near_within(r->frame_margin, fmin(margin[0], margin[1]), 0, 2e-6);
    near_within(r->margin, margin[r->tube == b->rows[BRACE].name ? BRACE : 0], 0, 2e-6);
    ck_assert_int_eq(r->enough, fmin(margin[0], margin[1]) >= 0);
    ck_assert(holds(b, r, on, offset, r->to));
    if (r->column >= ADVICE_WALL) {
        for (size_t i = 0; i < (r->column == ADVICE_WALL ? 7 : 6) && sizes[i] < r->to - 1e-9; i++)
            ck_assert_msg(sizes[i] <= r->now + 1e-9 || !holds(b, r, on, offset, sizes[i]), "%g holds already", sizes[i]);
        return;
    }
    near_within(r->to / step, round(r->to / step), 0, 1e-9);
    for (double k = 0; k <= fabs(r->to) / step; k++) ck_assert_msg(holds(b, r, on, offset, copysign(k * step, r->to)), "short at %g", k * step);
    const double next = copysign(fabs(r->to) + step, r->to);
    if (fabs(next) < fabs(r->now) - 1e-9) ck_assert_msg(!holds(b, r, on, offset, next), "holds at %g, too", next);
}

START_TEST(every_claim)
{
    size_t seen[ADVICE_OD + 1] = {0}, none = 0;
    for (double force = 2000; force <= 9000; force += 250)
        for (int what = 0; what < 4; what++) {
            bracket b;
            frame_advice a;
            const double forced[4][2] = {{0.4, 0}, {0, 0.2}, {0.1, 0.1}, {0, 0}};
            double margin[TUBES];
            build(&b, force, forced[what][0], forced[what][1]);
            margins(&b, 0, offsetof(frame_tube_row, tube.wall), 0.058, margin);
            const size_t worst = margin[BRACE] < margin[0] ? BRACE : 0;
            const frame_model model = {.tubes = b.rows, .tube_count = TUBES};
            const frame_advice_question q = {&b.problem, &model, worst, walls, ods, 7, 6, 1.0 / 64, 0.001, 1};
            frame_advice_find(&a, &q);
            ck_assert(!a.lost && !a.cut_short);
            ck_assert((a.tube != NULL) == (margin[worst] < 0));
            none += a.tube != NULL && a.count == 0;
            for (size_t i = 0; i < a.count; i++) {
                ck_row(&b, &a.rows[i]);
                ck_assert_int_eq(a.rows[i].enough, a.rows[0].enough);
                seen[a.rows[i].column]++;
            }
            frame_problem_close(&b.problem);
        }
    ck_assert_msg(seen[ADVICE_MISS_A] > 0 && seen[ADVICE_BOW] > 0 && seen[ADVICE_WALL] > 0 && seen[ADVICE_OD] > 0 && none > 0, "%zu %zu %zu %zu %zu",
                  seen[ADVICE_MISS_A], seen[ADVICE_BOW], seen[ADVICE_WALL], seen[ADVICE_OD], none);
}
END_TEST

static void fill(TCase *c)
{
    gsl_set_error_handler_off();
    tcase_set_timeout(c, 240);
    tcase_add_test(c, every_claim);
}

int main(void)
{
    return run_tests("advice for a frame", fill);
}
