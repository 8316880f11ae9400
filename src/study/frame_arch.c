/* The places p meet p + movement(p) = drawn. Each round moves the joints to drawn - movement(p); a frame that is welded a little
 * elsewhere moves by nearly as much, so the distance left shrinks in each round by about the movement over the length of a tube. */
#include "study/frame_arch.h"

#include <railbow/clock.h>

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

static const double settled = 1e-6; /* in */

typedef struct shop { /* the frame as it is welded */
    const rbow_frame *drawn;
    rbow_frame welded;
    rbow_frame_joint *joints;
    rbow_frame_tube *tubes;
    rbow_frame_run run;
    rbow_frame_load *loads;
    rbow_frame_motion *motions;
    void *memory;
} shop;

static bool open_shop(shop *s, const rbow_frame *drawn, const rbow_frame_run *run)
{
    *s = (shop){.drawn = drawn, .run = *run};
    s->joints = malloc(drawn->joint_count * sizeof *s->joints);
    s->tubes = malloc(drawn->tube_count * sizeof *s->tubes);
    s->loads = malloc((run->load_count + 1) * sizeof *s->loads);
    s->motions = malloc(drawn->joint_count * sizeof *s->motions);
    const size_t bytes = rbow_frame_memory(drawn); /* 0: no memory even to count them */
    s->memory = bytes > 0 ? malloc(bytes) : NULL;
    if (s->joints == NULL || s->tubes == NULL || s->loads == NULL || s->motions == NULL || s->memory == NULL) return false;
    memcpy(s->joints, drawn->joints, drawn->joint_count * sizeof *s->joints);
    memcpy(s->tubes, drawn->tubes, drawn->tube_count * sizeof *s->tubes);
    if (run->load_count > 0) memcpy(s->loads, run->loads, run->load_count * sizeof *s->loads);
    s->welded = (rbow_frame){s->joints, drawn->joint_count, s->tubes, drawn->tube_count};
    s->run.loads = s->loads;
    return true;
}

static void close_shop(shop *s)
{
    free(s->joints);
    free(s->tubes);
    free(s->loads);
    free(s->motions);
    free(s->memory);
}

/* ---- bows of unknown clock ------------------------------------------------------------------------------ */

static bool is_unknown(const rbow_frame_tube *t)
{
    return t->bow > 0 && t->bow_clock <= RBOW_ANY_CLOCK;
}

static bool take_clocks(const shop *s, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints, double *clocks, double *fixed)
{
    rbow_frame_solver *solver;
    if (tubes == NULL || joints == NULL || clocks == NULL) return false;
    for (size_t i = 0; i < s->drawn->tube_count; i++) fixed[i] = 0;
    if (rbow_frame_open(s->drawn, s->memory, &solver, NULL) != RBOW_OK) return true;
    if (rbow_frame_check(solver, &s->run, tubes, joints, NULL) != RBOW_OK) return true;
    rbow_frame_bow_clocks(solver, clocks);
    for (size_t i = 0; i < s->drawn->tube_count; i++)
        if (isfinite(clocks[i])) fixed[i] = clocks[i];
    return true;
}

/* Returned: fixed  a clock for each tube; false where memory ran out */
static bool fix_bows(const shop *s, double *fixed)
{
    size_t unknown = 0;
    for (size_t i = 0; i < s->drawn->tube_count; i++) unknown += is_unknown(&s->drawn->tubes[i]);
    if (unknown == 0) return true;
    rbow_frame_tube_result *tubes = malloc(s->drawn->tube_count * sizeof *tubes);
    rbow_frame_joint_result *joints = malloc(s->drawn->joint_count * sizeof *joints);
    double *clocks = malloc(s->drawn->tube_count * sizeof *clocks);
    const bool fine = take_clocks(s, tubes, joints, clocks, fixed);
    free(tubes);
    free(joints);
    free(clocks);
    return fine;
}

/* ---- the frame as welded -------------------------------------------------------------------------------- */

static double dot(const double a[RBOW_AXES], const double b[RBOW_AXES])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

typedef struct directions {
    double along[RBOW_AXES], up[RBOW_AXES], right[RBOW_AXES];
} directions;

/* The clock, in the frame as welded, of a direction that had one in the frame as drawn. */
static double clock_kept(const directions *from, const directions *to, double clock)
{
    double part[2], space[RBOW_AXES];
    if (clock <= RBOW_ANY_CLOCK) return clock;
    rbow_clock_components(1, clock, part);
    for (int k = 0; k < RBOW_AXES; k++) space[k] = part[0] * from->up[k] + part[1] * from->right[k];
    return rbow_clock_of(dot(space, to->up), dot(space, to->right));
}

static bool has_direction(const rbow_frame_tube *t)
{
    return (t->bow > 0 && !is_unknown(t)) || t->miss_a > 0 || t->miss_b > 0;
}

static double length_of(const rbow_frame *f, const rbow_frame_tube *t)
{
    const double *a = f->joints[t->from].at, *b = f->joints[t->to].at;
    return hypot(hypot(b[0] - a[0], b[1] - a[1]), b[2] - a[2]);
}

static void weld_tube(shop *s, size_t i, const double *bow_clock, frame_arch *arch)
{
    const rbow_frame_tube *drawn = &s->drawn->tubes[i];
    rbow_frame_tube *t = &s->tubes[i];
    directions from, to;
    rbow_frame_directions(s->drawn, i, from.along, from.up, from.right);
    rbow_frame_directions(&s->welded, i, to.along, to.up, to.right);
    t->bow_clock = clock_kept(&from, &to, is_unknown(drawn) ? bow_clock[i] : drawn->bow_clock);
    t->miss_a_clock = clock_kept(&from, &to, drawn->miss_a_clock);
    t->miss_b_clock = clock_kept(&from, &to, drawn->miss_b_clock);
    t->weld_zone = fmin(drawn->weld_zone, length_of(&s->welded, t));
    if (has_direction(drawn) && dot(from.up, to.up) < 0.9 && arch->new_clock == s->drawn->tube_count) arch->new_clock = i;
}

/* The frame with its joints at arch->weld. A load at the end of a tube stays there. */
static void weld(shop *s, const double *bow_clock, frame_arch *arch)
{
    arch->new_clock = s->drawn->tube_count;
    for (size_t i = 0; i < s->drawn->joint_count; i++) memcpy(s->joints[i].at, arch->weld[i], sizeof arch->weld[i]);
    for (size_t i = 0; i < s->drawn->tube_count; i++) weld_tube(s, i, bow_clock, arch);
    for (size_t i = 0; i < s->run.load_count; i++)
        if (s->loads[i].acts_on == RBOW_ACTS_ON_TUBE) s->loads[i].at = fmin(s->loads[i].at, length_of(&s->welded, &s->tubes[s->loads[i].index]));
}

/* ---- rounds --------------------------------------------------------------------------------------------- */

static bool solve(shop *s)
{
    rbow_frame_solver *solver;
    return rbow_frame_open(&s->welded, s->memory, &solver, NULL) == RBOW_OK
        && rbow_frame_state(solver, &s->run, 1, RBOW_FRAME_AS_BUILT, s->motions, NULL) == RBOW_OK;
}

/* How far the joints of the state are from their drawn places. */
static void measure(const shop *s, frame_arch *arch)
{
    arch->left = 0;
    arch->joint = 0;
    for (size_t i = 0; i < s->drawn->joint_count; i++) {
        double off[RBOW_AXES];
        for (int k = 0; k < RBOW_AXES; k++) off[k] = arch->weld[i][k] + s->motions[i].move[k] - s->drawn->joints[i].at[k];
        const double far = sqrt(dot(off, off));
        if (!(far > arch->left)) continue;
        arch->left = far;
        arch->joint = i;
    }
}

static arch_state settle(shop *s, const double *bow_clock, frame_arch *arch)
{
    for (size_t i = 0; i < s->drawn->joint_count; i++) memcpy(arch->weld[i], s->drawn->joints[i].at, sizeof arch->weld[i]);
    for (int round = 0;; round++) {
        weld(s, bow_clock, arch);
        if (!solve(s)) return ARCH_NO_STATE;
        measure(s, arch);
        if (arch->left <= settled || (round == ARCH_ROUNDS && arch->left <= arch_close)) return ARCH_FOUND;
        if (round == ARCH_ROUNDS) return ARCH_UNSETTLED;
        for (size_t i = 0; i < s->drawn->joint_count; i++)
            for (int k = 0; k < RBOW_AXES; k++) arch->weld[i][k] = s->drawn->joints[i].at[k] - s->motions[i].move[k];
    }
}

arch_state frame_arch_find(const rbow_frame *frame, const rbow_frame_run *run, frame_arch *arch)
{
    shop s;
    double *bow_clock = calloc(frame->tube_count, sizeof *bow_clock);
    arch_state state = ARCH_NO_MEMORY;
    if (open_shop(&s, frame, run) && bow_clock != NULL && fix_bows(&s, bow_clock)) state = settle(&s, bow_clock, arch);
    close_shop(&s);
    free(bow_clock);
    return state;
}
