/* A frame with tubes cut through: against the same frame with stubs built as tubes, the closed form of release, the forces that the
 * whole frame had, and what symmetry asks. */
#include "frame/frames.h"

#include <railbow/clock.h>
#include <railbow/frame_cut.h>
#include <railbow/release.h>

#include <stddef.h>

static const double pi = 3.14159265358979323846;

enum { CUTS_MOST = 8, CUT_TUBE = 8 };

/* Three joints held, three free; every tube may be forced. */
static void space_frame(built *b)
{
    static const double at[6][3] = {{0, 9, 0}, {0, -9, 0}, {0, 0, 14}, {30, 8, 1}, {30, -8, 1}, {30, 0, 12}};
    static const size_t ends[][2] = {{0, 3}, {1, 4}, {2, 5}, {3, 4}, {4, 5}, {5, 3}, {0, 4}, {1, 5}, {2, 3}};
    begin(b);
    for (int i = 0; i < 6; i++) add_joint(b, at[i][0], at[i][1], at[i][2], i < 3 ? RBOW_HELD_FIXED : 0u);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) add_tube(b, ends[i][0], ends[i][1], 1.25, 0.049, &steel);
    b->joints[5].mass = 40;
    b->frame.joints = b->joints;
    b->frame.tubes = b->tubes;
    b->run.loads = b->loads;
}

static void force(rbow_frame_tube *t, double size)
{
    t->miss_a = 0.3 * size;
    t->miss_a_clock = 0.4;
    t->miss_b = 0.2 * size;
    t->miss_b_clock = 4;
    t->gap = 0.03 * size;
}

static rbow_status cut(const built *b, bool loaded, const rbow_frame_cut_place *cuts, size_t count, rbow_frame_faces *faces,
                       rbow_frame_motion *joints, rbow_frame_cut_note *note)
{
    const rbow_frame_run *run = loaded ? &b->run : NULL;
    void *memory = malloc(rbow_frame_cut_memory(&b->frame, run, count));
    const rbow_status status = rbow_frame_cut(&b->frame, run, cuts, count, memory, faces, joints, note);
    free(memory);
    return status;
}

static rbow_status release(const built *b, rbow_frame_cut_place at, const rbow_frame_faces *faces, rbow_frame_released *r)
{
    void *memory = malloc(rbow_frame_cut_memory(&b->frame, NULL, 1));
    const rbow_status status = rbow_frame_release(&b->frame, &at, faces, memory, r, NULL);
    free(memory);
    return status;
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* Axis, up and right of a tube, as the header says. */
static void directions(const built *b, const rbow_frame_tube *t, double e[3][3], double *length)
{
    double across[3] = {0, 0, 1}, size;
    for (int i = 0; i < 3; i++) e[0][i] = b->joints[t->to].at[i] - b->joints[t->from].at[i];
    *length = sqrt(dot(e[0], e[0]));
    for (int i = 0; i < 3; i++) e[0][i] /= *length;
    const double along = dot(across, e[0]);
    for (int i = 0; i < 3; i++) across[i] -= along * e[0][i];
    size = sqrt(dot(across, across));
    for (int i = 0; i < 3; i++) e[1][i] = across[i] / size;
    for (int i = 0; i < 3; i++) e[2][i] = e[0][(i + 1) % 3] * e[1][(i + 2) % 3] - e[0][(i + 2) % 3] * e[1][(i + 1) % 3];
}

static double up_of(double size, double clock)
{
    return size > 0 ? size * cos(clock) : 0;
}

static double right_of(double size, double clock)
{
    return size > 0 ? size * sin(clock) : 0;
}

/* ---- the stubs as tubes --------------------------------------------------------------------------------- */

typedef struct trial {
    double at, end_a, end_b;
    bool loaded;
} trial;

static const trial trials[] = {{11, INFINITY, INFINITY, false}, {20, 4e4, 9e4, false}, {11, INFINITY, INFINITY, true}, {25, 4e4, INFINITY, true}};

static void load(built *b)
{
    rbow_frame_load *weight = push_joint(b, 0, 0, 0, 0);
    weight->acts_on = RBOW_ACTS_ON_ALL;
    weight->vertical_g = 3e-4; /* so small that the second order of the stubs does not show */
    weight->left_g = 2e-4;
    weight->forward_g = 1e-4;
    push_joint(b, 5, -0.03, 0.004, -0.02);
}

/* What a stub with a free joint at its face does: the same loads, the same slopes of its misses. */
static void as_tubes(const built *whole, const trial *c, built *b)
{
    double e[3][3], length;
    *b = *whole;
    b->frame.joints = b->joints;
    b->frame.tubes = b->tubes;
    b->run.loads = b->loads;
    rbow_frame_tube *a = &b->tubes[CUT_TUBE], *other;
    directions(b, a, e, &length);
    const double *from = b->joints[a->from].at;
    double face[3];
    for (int i = 0; i < 3; i++) face[i] = from[i] + c->at * e[0][i];
    const size_t of_a = add_joint(b, face[0], face[1], face[2], 0), of_b = add_joint(b, face[0], face[1], face[2], 0);
    other = &b->tubes[b->frame.tube_count++];
    *other = *a;
    a->to = of_a;
    other->from = of_b;
    a->end_b = other->end_a = INFINITY;
    a->miss_a *= c->at / length;
    other->miss_b *= (length - c->at) / length;
    a->miss_b = other->miss_a = a->gap = other->gap = 0;
}

START_TEST(the_stubs_move_as_tubes_with_free_ends)
{
    static built whole, stubs;
    const trial *c = &trials[_i];
    const rbow_frame_cut_place place = {CUT_TUBE, c->at};
    rbow_frame_faces got;
    rbow_frame_motion moved[6], before[6], after[8];
    double e[3][3], length;
    space_frame(&whole);
    if (c->loaded) load(&whole);
    force(&whole.tubes[CUT_TUBE], c->loaded ? 0 : 1); /* along the tube no load acts aside */
    force(&whole.tubes[2], c->loaded ? 0 : 0.7);
    whole.tubes[3].bow = 0.05;
    whole.tubes[CUT_TUBE].end_a = c->end_a;
    whole.tubes[CUT_TUBE].end_b = c->end_b;
    if (c->loaded) { /* on either stub */
        rbow_frame_load *l = push_joint(&whole, CUT_TUBE, 0, 0, 0);
        l->acts_on = RBOW_ACTS_ON_TUBE;
        l->spread[RBOW_Y] = 1.5e-4;
        l->spread[RBOW_X] = -2e-4;
    }
    as_tubes(&whole, c, &stubs);
    if (c->loaded) {
        rbow_frame_load *l = push_joint(&stubs, 0, 0, 0, 0);
        *l = stubs.loads[2];
        l->index = stubs.frame.tube_count - 1;
    }
    directions(&whole, &whole.tubes[CUT_TUBE], e, &length);
    ck_assert_int_eq(cut(&whole, c->loaded, &place, 1, &got, moved, NULL), RBOW_OK);
    ck_assert_int_eq(open_frame(&whole), RBOW_OK);
    ck_assert_int_eq(rbow_frame_state(whole.solver, &whole.run, c->loaded, RBOW_FRAME_AS_BUILT, before, NULL), RBOW_OK);
    ck_assert_int_eq(open_frame(&stubs), RBOW_OK);
    ck_assert_int_eq(rbow_frame_state(stubs.solver, &stubs.run, c->loaded, RBOW_FRAME_AS_BUILT, after, NULL), RBOW_OK);

    const double gap = whole.tubes[CUT_TUBE].gap, share = c->loaded ? 5e-6 : 1e-9;
    double apart[3], turned[3];
    for (int i = 0; i < 3; i++) {
        apart[i] = after[7].move[i] - after[6].move[i];
        turned[i] = after[7].turn[i] - after[6].turn[i];
    }
    near_within(got.opened, dot(apart, e[0]) + gap, share, 0);
    near_within(up_of(got.moved, got.moved_clock), dot(apart, e[1]), 0, share * got.moved);
    near_within(right_of(got.moved, got.moved_clock), dot(apart, e[2]), 0, share * got.moved);
    near_within(up_of(got.turned, got.turned_clock), dot(turned, e[2]), 0, share * got.turned);
    near_within(right_of(got.turned, got.turned_clock), -dot(turned, e[1]), 0, share * got.turned);
    ck_assert(got.moved > (c->loaded ? 1e-6 : 0.05) && got.turned > (c->loaded ? 1e-8 : 1e-3) && fabs(got.opened) > 1e-8);
    for (int i = 0; i < 6; i++)
        for (int k = 0; k < 3; k++) {
            near_within(moved[i].move[k], after[i].move[k] - before[i].move[k], 0, 1e-9);
            near_within(moved[i].turn[k], after[i].turn[k] - before[i].turn[k], 0, 1e-9);
        }
    end(&whole);
    end(&stubs);
}
END_TEST

/* A point load is on one stub: a frame in which only that stub is a tube moves alike. */
START_TEST(a_point_load_acts_on_its_stub)
{
    static built whole, stubs;
    const trial c = {12, 5e4, 3e4, true};
    rbow_frame_faces got;
    rbow_frame_motion after[8];
    double e[3][3], length, apart[3];
    for (int on_b = 0; on_b < 2; on_b++) {
        const rbow_frame_cut_place place = {CUT_TUBE, c.at};
        space_frame(&whole);
        whole.memory = stubs.memory = NULL;
        whole.tubes[CUT_TUBE].end_a = c.end_a;
        whole.tubes[CUT_TUBE].end_b = c.end_b;
        rbow_frame_load *l = push_joint(&whole, CUT_TUBE, 0.003, -0.007, -0.005);
        l->acts_on = RBOW_ACTS_ON_TUBE;
        l->at = on_b ? 23 : 7;
        as_tubes(&whole, &c, &stubs);
        if (on_b) {
            stubs.loads[0].index = stubs.frame.tube_count - 1;
            stubs.loads[0].at = 23 - c.at;
        }
        directions(&whole, &whole.tubes[CUT_TUBE], e, &length);
        ck_assert_int_eq(cut(&whole, true, &place, 1, &got, NULL, NULL), RBOW_OK);
        ck_assert_int_eq(open_frame(&stubs), RBOW_OK);
        ck_assert_int_eq(rbow_frame_state(stubs.solver, &stubs.run, 1, RBOW_FRAME_AS_BUILT, after, NULL), RBOW_OK);
        for (int i = 0; i < 3; i++) apart[i] = after[7].move[i] - after[6].move[i];
        near_within(got.opened, dot(apart, e[0]), 1e-6, 1e-11);
        near_within(up_of(got.moved, got.moved_clock), dot(apart, e[1]), 5e-6, 0); /* the second order of the stub */
        near_within(right_of(got.moved, got.moved_clock), dot(apart, e[2]), 5e-6, 0);
        end(&stubs);
    }
}
END_TEST

/* ---- readings ------------------------------------------------------------------------------------------- */

/* A tube alone between joints that stay: the closed form of release, to first order in its axial force. */
START_TEST(a_tube_alone_is_that_of_release)
{
    built b;
    const rbow_frame_cut_place place = {0, 14};
    const rbow_frame_faces faces = {.moved = 1e-5, .moved_clock = 0.8, .turned = 3e-7, .turned_clock = 5, .opened = 1e-6};
    rbow_frame_released got;
    rbow_frame_faces again;
    rbow_released want;
    begin(&b);
    add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED);
    add_joint(&b, 36, 0, 0, RBOW_HELD_FIXED);
    rbow_frame_tube *t = add_tube(&b, 0, 1, 1.25, 0.058, &steel);
    t->end_a = 6e4;
    t->weld_zone = 0;
    const rbow_cut as_release = {1.25, 0.058, 29e6, 36, 14, 6e4, RBOW_FIXED, faces.moved, faces.moved_clock, faces.turned, faces.turned_clock,
                                 faces.opened, INFINITY};
    ck_assert_int_eq(open_frame(&b), RBOW_OK);
    ck_assert_int_eq(rbow_release(&as_release, &want), RBOW_OK);
    ck_assert_int_eq(release(&b, place, &faces, &got), RBOW_OK);
    near_within(got.fit_axial, want.fit_axial, 1e-9, 0);
    near_within(got.shear, want.shear, 1e-4, 0);
    near_within(got.shear_clock, want.shear_clock, 1e-4, 0);
    near_within(got.moment_at_cut, want.moment_at_cut, 1e-4, 0);
    near_within(got.moment_clock, want.moment_clock, 1e-4, 0);
    near_within(got.moment_a, want.moment_a, 1e-4, 0);
    near_within(got.moment_b, want.moment_b, 1e-4, 0);
    near_within(got.fit_stress, want.fit_stress, 1e-4, 0);
    near_within(got.miss_a, want.miss_a, 1e-9, 0);
    near_within(got.miss_a_clock, want.miss_a_clock, 1e-9, 0);
    near_within(got.miss_b, want.miss_b, 1e-9, 0);
    near_within(got.miss_b_clock, want.miss_b_clock, 1e-9, 0);
    near_within(got.gap, faces.opened, 1e-12, 0);
    const rbow_frame_faces not_turned = {.moved = 1e-5, .moved_clock = 0.8, .turned = NAN, .opened = 1e-6};
    rbow_cut less = as_release;
    rbow_frame_released least;
    less.turned = NAN;
    ck_assert_int_eq(rbow_release(&less, &want), RBOW_OK);
    ck_assert_int_eq(release(&b, place, &not_turned, &least), RBOW_OK);
    near_within(least.shear, want.shear, 1e-4, 0);
    near_within(least.moment_a, want.moment_a, 1e-4, 0);
    near_within(least.moment_b, want.moment_b, 1e-4, 0);
    force(t, 0);
    t->miss_a = got.miss_a;
    t->miss_a_clock = got.miss_a_clock;
    t->miss_b = got.miss_b;
    t->miss_b_clock = got.miss_b_clock;
    t->gap = got.gap;
    ck_assert_int_eq(cut(&b, false, &place, 1, &again, NULL, NULL), RBOW_OK);
    near_within(again.moved, faces.moved, 1e-9, 0);
    near_within(again.turned, faces.turned, 1e-9, 0);
    end(&b);
}
END_TEST

/* The readings of a cut bring back the forces that the frame had; its own misses do not count. */
START_TEST(readings_bring_back_what_was_locked_in)
{
    static built b;
    const rbow_frame_cut_place place = {CUT_TUBE, 13};
    rbow_frame_faces faces;
    rbow_frame_released got;
    rbow_profile at[3] = {{.at = 0}, {.at = 13}, {.at = 0}};
    double axial[9], e[3][3], length;
    space_frame(&b);
    force(&b.tubes[CUT_TUBE], 1);
    force(&b.tubes[1], 0.5);
    b.tubes[CUT_TUBE].bow = 0.04;
    b.tubes[CUT_TUBE].end_a = 8e4;
    directions(&b, &b.tubes[CUT_TUBE], e, &length);
    at[2].at = length;
    ck_assert_int_eq(cut(&b, false, &place, 1, &faces, NULL, NULL), RBOW_OK);
    solve(&b);
    ck_assert_int_eq(rbow_frame_state(b.solver, &b.run, 0, RBOW_FRAME_AS_BUILT, NULL, axial), RBOW_OK);
    ck_assert_int_eq(rbow_frame_profile(b.solver, &b.run, 0, RBOW_FRAME_AS_BUILT, CUT_TUBE, at, 3), RBOW_OK);
    const rbow_frame_tube was = b.tubes[CUT_TUBE];
    b.tubes[CUT_TUBE].miss_a = b.tubes[CUT_TUBE].miss_b = b.tubes[CUT_TUBE].gap = 0;
    ck_assert_int_eq(release(&b, place, &faces, &got), RBOW_OK);
    near_within(got.fit_axial, axial[CUT_TUBE], 1e-9, 0);
    near_within(got.moment_a, hypot(at[0].moment_up, at[0].moment_right), 1e-9, 0);
    near_within(got.moment_at_cut, hypot(at[1].moment_up, at[1].moment_right), 1e-9, 0);
    near_within(got.moment_b, hypot(at[2].moment_up, at[2].moment_right), 1e-9, 0);
    near_within(got.fit_stress, b.tube[CUT_TUBE].fit_stress, 1e-9, 0);
    near_within(got.miss_a, was.miss_a, 1e-9, 0);
    near_within(got.miss_a_clock, was.miss_a_clock, 1e-9, 0);
    near_within(got.miss_b, was.miss_b, 1e-9, 0);
    near_within(got.gap, was.gap, 1e-9, 0);
    ck_assert(got.moment_a > 100 && fabs(got.fit_axial) > 10);
    end(&b);
}
END_TEST

/* Work: the forces at the cut times what the faces moved are the energy that the cut set free, twice: the flexibility of the frame
 * is symmetric. So the work of one reading's forces over another's movement is the same both ways. */
START_TEST(the_forces_of_two_readings_are_reciprocal)
{
    static built b;
    const rbow_frame_cut_place place = {CUT_TUBE, 13};
    const double s = 1e-6;
    const rbow_frame_faces one = {.moved = s, .moved_clock = 0, .turned = s / 30, .turned_clock = 1, .opened = s / 5};
    const rbow_frame_faces two = {.moved = s / 2, .moved_clock = 2, .turned = s / 20, .turned_clock = 4, .opened = -s / 9};
    const rbow_frame_faces *faces[2] = {&one, &two};
    double work[2];
    rbow_frame_released r[2];
    space_frame(&b);
    b.tubes[CUT_TUBE].end_b = 5e4;
    for (int i = 0; i < 2; i++) ck_assert_int_eq(release(&b, place, faces[i], &r[i]), RBOW_OK);
    for (int i = 0; i < 2; i++) {
        const rbow_frame_released *f = &r[i];
        const rbow_frame_faces *over = faces[1 - i];
        work[i] = f->shear * over->moved * cos(f->shear_clock - over->moved_clock)
            + f->moment_at_cut * over->turned * cos(f->moment_clock - over->turned_clock) - f->fit_axial * over->opened;
    }
    near_within(work[0], work[1], 1e-6, 0);
    ck_assert(fabs(work[0]) > 1e-12);
    end(&b);
}
END_TEST

static double energy(const rbow_frame_released *f, const rbow_frame_faces *faces)
{
    return (f->shear * faces->moved * cos(f->shear_clock - faces->moved_clock) - f->fit_axial * faces->opened
            + (faces->turned > 0 ? f->moment_at_cut * faces->turned * cos(f->moment_clock - faces->turned_clock) : 0)) / 2;
}

/* Without the angle: no moment at the cut, and any angle would have taken more energy. */
START_TEST(without_the_angle_it_is_the_least)
{
    static built b;
    const rbow_frame_cut_place place = {CUT_TUBE, 13};
    const double s = 1e-6;
    rbow_frame_faces faces = {.moved = s, .moved_clock = 2.5, .turned = NAN, .opened = s / 4};
    rbow_frame_released least, other;
    space_frame(&b);
    b.tubes[CUT_TUBE].end_a = 5e4;
    ck_assert_int_eq(release(&b, place, &faces, &least), RBOW_OK);
    ck_assert(least.moment_at_cut <= 1e-9 * (least.moment_a + least.moment_b));
    ck_assert(least.moment_a > 0);
    for (int i = 0; i < 12; i++) {
        faces.turned = s * (1 + i) / 150;
        faces.turned_clock = i;
        ck_assert_int_eq(release(&b, place, &faces, &other), RBOW_OK);
        ck_assert(energy(&other, &faces) > energy(&least, &(rbow_frame_faces){s, 2.5, 0, 0, s / 4}));
    }
    faces.turned = NAN;
    faces.moved = 0.3; /* where the moment is not quite linear */
    ck_assert_int_eq(release(&b, place, &faces, &least), RBOW_OK);
    ck_assert(least.moment_at_cut <= 1e-9 * (least.moment_a + least.moment_b));
}
END_TEST

/* ---- several cuts --------------------------------------------------------------------------------------- */

/* A box of four rails, two rings and diagonals in the rings; the front ring comes off when all rails are cut. */
static void box(built *b)
{
    static const double y[] = {10, -10, -10, 10}, z[] = {12, 12, -12, -12};
    begin(b);
    for (int ring = 0; ring < 3; ring++)
        for (int i = 0; i < 4; i++) add_joint(b, 30.0 * ring, y[i], z[i], ring == 0 ? RBOW_HELD_FIXED : 0u);
    for (size_t ring = 0; ring < 2; ring++)
        for (size_t i = 0; i < 4; i++) add_tube(b, 4 * ring + i, 4 * ring + i + 4, 1.25, 0.058, &steel);
    for (size_t ring = 1; ring < 3; ring++)
        for (size_t i = 0; i < 4; i++) add_tube(b, 4 * ring + i, 4 * ring + (i + 1) % 4, 1, 0.049, &steel);
    b->frame.joints = b->joints;
    b->frame.tubes = b->tubes;
}

START_TEST(the_front_is_off)
{
    static built b;
    rbow_frame_cut_place cuts[4];
    rbow_frame_faces faces[4];
    rbow_frame_motion moved[12];
    double sum[3] = {0}, first[3] = {0};
    box(&b);
    for (size_t i = 0; i < 4; i++) {
        cuts[i] = (rbow_frame_cut_place){4 + i, 15};
        b.tubes[4 + i].miss_a = 0.3; /* all splay alike: mirror images */
        b.tubes[4 + i].miss_a_clock = (i == 0 || i == 3) ? 3 * pi / 2 : pi / 2; /* +y is left */
    }
    ck_assert_int_eq(cut(&b, false, cuts, 4, faces, moved, NULL), RBOW_OK);
    for (int i = 0; i < 4; i++) {
        near_within(faces[i].moved, faces[0].moved, 1e-9, 0);
        near_within(faces[i].turned, faces[0].turned, 1e-9, 0);
        near_within(faces[i].opened, faces[0].opened, 1e-9, 1e-12);
        ck_assert(faces[i].moved > 0.01);
    }
    /* a forced rail alone: the front lies where the squares are least, so sums and moments of its joints' movements are 0 */
    for (size_t i = 0; i < 4; i++) b.tubes[4 + i].miss_a = i == 0 ? 0.4 : 0;
    b.tubes[4].miss_a_clock = 0.6;
    b.tubes[12].gap = 0.02; /* locked into the front itself: stays there */
    ck_assert_int_eq(cut(&b, false, cuts, 4, faces, moved, NULL), RBOW_OK);
    for (int i = 8; i < 12; i++)
        for (int k = 0; k < 3; k++) {
            const int j = (k + 1) % 3, l = (k + 2) % 3;
            const double centre[3] = {60, 0, 0};
            sum[k] += moved[i].move[k];
            first[k] += (b.joints[i].at[j] - centre[j]) * moved[i].move[l] - (b.joints[i].at[l] - centre[l]) * moved[i].move[j];
        }
    for (int k = 0; k < 3; k++) {
        near_within(sum[k], 0, 0, 1e-10);
        near_within(first[k], 0, 0, 1e-8);
    }
    ck_assert(fabs(moved[8].move[1]) + fabs(moved[8].move[2]) > 1e-4);
    end(&b);
}
END_TEST

/* Two cuts made together are the two made one after the other: the second in the frame without the first tube. */
START_TEST(cuts_together_are_cuts_in_turn)
{
    static built b, less;
    const rbow_frame_cut_place both[2] = {{6, 12}, {8, 20}}, last = {7, 20};
    rbow_frame_faces faces[2], alone;
    space_frame(&b);
    force(&b.tubes[6], 1);
    force(&b.tubes[8], 0.6);
    less = b;
    less.frame.joints = less.joints;
    less.frame.tubes = less.tubes;
    memmove(&less.tubes[6], &less.tubes[7], 2 * sizeof *less.tubes);
    less.frame.tube_count--;
    ck_assert_int_eq(cut(&b, false, both, 2, faces, NULL, NULL), RBOW_OK);
    ck_assert_int_eq(cut(&less, false, &last, 1, &alone, NULL, NULL), RBOW_OK);
    near_within(faces[1].moved, alone.moved, 1e-10, 0);
    near_within(faces[1].moved_clock, alone.moved_clock, 1e-10, 0);
    near_within(faces[1].turned, alone.turned, 1e-10, 0);
    near_within(faces[1].opened, alone.opened, 1e-10, 0);

    rbow_frame_load *l = push_joint(&b, 7, 0, 50, -80); /* on the tube between both */
    l->acts_on = RBOW_ACTS_ON_TUBE;
    push_joint(&less, 6, 0, 50, -80)->acts_on = RBOW_ACTS_ON_TUBE;
    less.run.loads = less.loads;
    const double unloaded = alone.moved;
    ck_assert_int_eq(cut(&b, true, both, 2, faces, NULL, NULL), RBOW_OK);
    ck_assert_int_eq(cut(&less, true, &last, 1, &alone, NULL, NULL), RBOW_OK);
    near_within(faces[1].moved, alone.moved, 1e-10, 0);
    near_within(faces[1].turned, alone.turned, 1e-10, 0);
    ck_assert(fabs(alone.moved - unloaded) > 1e-5);
}
END_TEST

/* ---- no answer ------------------------------------------------------------------------------------------ */

START_TEST(cuts_that_have_no_answer)
{
    static built b;
    rbow_frame_cut_place cuts[4] = {{CUT_TUBE, 13}, {CUT_TUBE, 15}};
    rbow_frame_faces faces[4];
    rbow_frame_cut_note note = {0};
    rbow_frame_released r;
    space_frame(&b);
    ck_assert_int_eq(cut(&b, false, cuts, 2, faces, NULL, &note), RBOW_CUT_TWICE);
    ck_assert(isnan(faces[0].moved) && note.cut == 1);
    ck_assert_int_eq(cut(&b, false, cuts, 0, faces, NULL, &note), RBOW_OUT_OF_RANGE);
    cuts[0].tube = 9;
    ck_assert_int_eq(cut(&b, false, cuts, 1, faces, NULL, &note), RBOW_OUT_OF_RANGE);
    cuts[0] = (rbow_frame_cut_place){CUT_TUBE, 0};
    ck_assert_int_eq(cut(&b, false, cuts, 1, faces, NULL, &note), RBOW_BAD_FRAME_CUT);
    cuts[0].at = NAN;
    ck_assert_int_eq(cut(&b, false, cuts, 1, faces, NULL, &note), RBOW_BAD_FRAME_CUT);
    cuts[0].at = 13;
    b.tubes[CUT_TUBE].end_b = RBOW_PINNED;
    ck_assert_int_eq(cut(&b, false, cuts, 1, faces, NULL, &note), RBOW_STUB_NOT_HELD);
    ck_assert_uint_eq(note.loose.joint, 3);
    b.tubes[CUT_TUBE].end_b = RBOW_FIXED;
    const rbow_frame_faces not_read = {.moved = 0.1, .moved_clock = NAN};
    ck_assert_int_eq(release(&b, cuts[0], &not_read, &r), RBOW_NOT_FINITE);
    const rbow_frame_faces too_far = {.moved = 20, .moved_clock = 0};
    ck_assert_int_eq(release(&b, cuts[0], &too_far, &r), RBOW_MISS_A_TOO_STEEP);
    ck_assert(isnan(r.fit_axial));

    box(&b);
    for (size_t i = 0; i < 4; i++) cuts[i] = (rbow_frame_cut_place){4 + i, 15};
    ck_assert_int_eq(cut(&b, true, cuts, 4, faces, NULL, &note), RBOW_PIECE_NOT_HELD);
    ck_assert_uint_eq(note.loose.joint, 8);
    for (size_t i = 8; i < 16; i++) pin(&b.tubes[i]); /* nothing but the rail keeps a corner of the ring from turning */
    ck_assert_int_eq(cut(&b, false, cuts, 4, faces, NULL, &note), RBOW_STUB_NOT_HELD);
}
END_TEST

/* Readings that are none: sizes below 0, sizes without a side, numbers without an end. A side without a size says nothing. */
START_TEST(readings_that_are_none)
{
    static built b;
    const rbow_frame_faces good = {.moved = 0.1, .moved_clock = 1, .turned = 0.002, .turned_clock = 2, .opened = -0.01};
    const struct {
        size_t offset;
        double value;
    } wrong[] = {{offsetof(rbow_frame_faces, moved), -0.1}, {offsetof(rbow_frame_faces, moved), NAN}, {offsetof(rbow_frame_faces, moved), INFINITY},
                 {offsetof(rbow_frame_faces, moved_clock), NAN}, {offsetof(rbow_frame_faces, moved_clock), INFINITY},
                 {offsetof(rbow_frame_faces, turned), -0.1}, {offsetof(rbow_frame_faces, turned), INFINITY},
                 {offsetof(rbow_frame_faces, turned_clock), NAN}, {offsetof(rbow_frame_faces, opened), NAN}, {offsetof(rbow_frame_faces, opened), -INFINITY}};
    const rbow_frame_cut_place place = {CUT_TUBE, 13};
    rbow_frame_released r;
    space_frame(&b);
    ck_assert_int_eq(release(&b, place, &good, &r), RBOW_OK);
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        rbow_frame_faces f = good;
        *(double *)(void *)((char *)&f + wrong[i].offset) = wrong[i].value;
        ck_assert_int_eq(release(&b, place, &f, &r), RBOW_NOT_FINITE);
        ck_assert(isnan(r.fit_axial) && isnan(r.gap));
    }
    const rbow_frame_faces shut = {.moved = 0, .moved_clock = NAN, .turned = 0, .turned_clock = NAN, .opened = 0};
    ck_assert_int_eq(release(&b, place, &shut, &r), RBOW_OK);
    near_within(r.moment_a + r.moment_b + r.miss_a + r.miss_b, 0, 0, 1e-9);
}
END_TEST

/* A frame or a run with faults, no memory, loads that the frame does not carry, and a rest that nothing holds. */
START_TEST(frames_that_have_no_answer)
{
    static built b;
    const rbow_frame_cut_place place = {CUT_TUBE, 13}, others[] = {{0, 10}, {1, 10}, {2, 10}, {6, 10}, {7, 10}};
    rbow_frame_faces faces[5], f = {.moved = 0.1, .moved_clock = 0, .turned = NAN};
    rbow_frame_released r;
    rbow_frame_cut_note note = {0};
    space_frame(&b);
    ck_assert_int_eq(rbow_frame_cut(&b.frame, NULL, &place, 1, NULL, faces, NULL, NULL), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(rbow_frame_release(&b.frame, &place, &f, NULL, &r, NULL), RBOW_OUT_OF_RANGE);
    push_joint(&b, 5, 0, 0, -1)->index = 99; /* no such joint */
    ck_assert_int_eq(cut(&b, true, &place, 1, faces, NULL, NULL), RBOW_OUT_OF_RANGE);
    b.loads[0].acts_on = RBOW_ACTS_ON_TUBE;
    ck_assert_int_eq(cut(&b, true, &place, 1, faces, NULL, NULL), RBOW_OUT_OF_RANGE);
    ck_assert(isnan(faces[0].moved) && isnan(faces[0].opened));
    b.loads[0].acts_on = RBOW_ACTS_ON_JOINT;
    b.loads[0].index = 5;
    b.loads[0].force[RBOW_X] = -1e7;
    ck_assert_int_eq(cut(&b, true, &place, 1, faces, NULL, NULL), RBOW_UNSTABLE);
    b.joints[5].mass = -1;
    ck_assert_int_eq(cut(&b, false, &place, 1, faces, NULL, NULL), RBOW_OUT_OF_RANGE);
    ck_assert_int_eq(release(&b, place, &f, &r), RBOW_OUT_OF_RANGE);
    space_frame(&b);
    for (int i = 0; i < 3; i++) b.joints[i].held = RBOW_HELD_Y | RBOW_HELD_RX; /* free in the x-z plane */
    ck_assert_int_eq(cut(&b, false, &place, 1, faces, NULL, &note), RBOW_FRAME_NOT_HELD);
    near_within(fmax(fabs(note.loose.motion[RBOW_X]), fmax(fabs(note.loose.motion[RBOW_Z]), fabs(note.loose.motion[RBOW_AXES + RBOW_Y]))), 1, 1e-9, 0);
    space_frame(&b); /* the ring hangs on one tube alone */
    ck_assert_int_eq(cut(&b, false, others, 5, faces, NULL, &note), RBOW_OK);
    b.tubes[CUT_TUBE].end_b = RBOW_PINNED; /* and turns about its ball */
    ck_assert_int_eq(cut(&b, false, others, 5, faces, NULL, &note), RBOW_FRAME_NOT_HELD);
    ck_assert(isnan(faces[4].moved));
}
END_TEST

/* A piece that comes off lies free: its readings say nothing of what was locked in. */
START_TEST(a_free_piece_says_nothing)
{
    static built b;
    rbow_frame_released r;
    const rbow_frame_faces f = {.moved = 0.1, .moved_clock = 0, .turned = 0.001, .turned_clock = 1};
    rbow_frame_cut_note note = {0};
    begin(&b);
    const size_t foot = add_joint(&b, 0, 0, 0, RBOW_HELD_FIXED), middle = add_joint(&b, 0, 0, 30, 0), top = add_joint(&b, 0, 0, 60, 0);
    add_tube(&b, foot, middle, 1.25, .058, &steel);
    add_tube(&b, middle, top, 1.25, .058, &steel);
    b.frame.joints = b.joints;
    b.frame.tubes = b.tubes;
    const rbow_frame_cut_place place = {0, 10};
    void *memory = malloc(rbow_frame_cut_memory(&b.frame, NULL, 1));
    ck_assert_int_eq(rbow_frame_release(&b.frame, &place, &f, memory, &r, &note), RBOW_PIECE_NOT_HELD);
    ck_assert(isnan(r.shear) && (note.loose.joint == middle || note.loose.joint == top));
    free(memory);
}
END_TEST

/* A joint that only the cut tubes held lies where it was, turned as it was. */
START_TEST(a_joint_without_a_tube_stays)
{
    static built b;
    const rbow_frame_cut_place cuts[3] = {{2, 10}, {4, 8}, {5, 8}};
    rbow_frame_cut_place all[4] = {{2, 10}, {4, 8}, {5, 8}, {7, 12}};
    rbow_frame_faces faces[4];
    rbow_frame_motion moved[6];
    space_frame(&b);
    ck_assert_int_eq(cut(&b, false, cuts, 3, faces, moved, NULL), RBOW_OK); /* one tube is left there */
    ck_assert(isfinite(moved[5].move[0]));
    ck_assert_int_eq(cut(&b, false, all, 4, faces, moved, NULL), RBOW_OK);
    ck_assert(isnan(moved[5].move[0]) && isfinite(moved[4].move[0]));
    for (int i = 0; i < 4; i++) ck_assert(fabs(faces[i].moved) <= 0 && isnan(faces[i].moved_clock));

    rbow_frame_motion before[6];
    double e[3][3], length;
    force(&b.tubes[7], 1);
    ck_assert_int_eq(cut(&b, false, all, 4, faces, moved, NULL), RBOW_OK);
    ck_assert_int_eq(open_frame(&b), RBOW_OK);
    ck_assert_int_eq(rbow_frame_state(b.solver, &b.run, 0, RBOW_FRAME_AS_BUILT, before, NULL), RBOW_OK);
    directions(&b, &b.tubes[2], e, &length); /* from a joint that is held */
    const double *move = before[5].move, *turn = before[5].turn;
    near_within(up_of(faces[0].moved, faces[0].moved_clock), dot(move, e[1]) - dot(turn, e[2]) * (length - 10), 1e-8, 0);
    near_within(up_of(faces[0].turned, faces[0].turned_clock), dot(turn, e[2]), 1e-8, 0);
    near_within(right_of(faces[0].turned, faces[0].turned_clock), -dot(turn, e[1]), 1e-8, 0);
    near_within(faces[0].opened, dot(move, e[0]), 1e-8, 0);
    ck_assert(faces[0].turned > 1e-5);
    end(&b);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_loop_test(cases, the_stubs_move_as_tubes_with_free_ends, 0, sizeof trials / sizeof *trials);
    tcase_add_test(cases, a_point_load_acts_on_its_stub);
    tcase_add_test(cases, a_tube_alone_is_that_of_release);
    tcase_add_test(cases, readings_bring_back_what_was_locked_in);
    tcase_add_test(cases, the_forces_of_two_readings_are_reciprocal);
    tcase_add_test(cases, without_the_angle_it_is_the_least);
    tcase_add_test(cases, the_front_is_off);
    tcase_add_test(cases, cuts_together_are_cuts_in_turn);
    tcase_add_test(cases, cuts_that_have_no_answer);
    tcase_add_test(cases, readings_that_are_none);
    tcase_add_test(cases, frames_that_have_no_answer);
    tcase_add_test(cases, a_free_piece_says_nothing);
    tcase_add_test(cases, a_joint_without_a_tube_stays);
}

int main(void)
{
    return run_tests("frame/cut", fill);
}
