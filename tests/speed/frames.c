/* A frame of four chords, bay after bay (4 joints and 12 tubes a bay), held at one end and loaded at the other, checked in one run.
 * Usage: frames BAYS [REPEATS]. Prints the processor seconds of the parts, the bare factorisation of a band matrix of the same size
 * by GSL, and the movement of the last joint, which frames.py must find too. */
#include <railbow/frame.h>

#include <gsl/gsl_linalg.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { CHORDS = 4, TUBES_A_BAY = 12, BAND = 2 * CHORDS * RBOW_MOTIONS - 1 };

static const rbow_material steel = {
    .name = "steel", .elastic_modulus = 29e6, .shear_modulus = 11e6, .density = 0.283, .yield = 75e3, .compression_yield = 75e3,
    .ultimate = NAN, .weld_yield = 60e3, .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON, .wall_up_to = INFINITY,
};

typedef struct structure {
    rbow_frame frame;
    rbow_frame_run run;
    rbow_frame_solver *solver;
} structure;

static double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void *need(void *memory)
{
    if (memory == NULL) exit(2);
    return memory;
}

static rbow_frame_joint *joints_of(size_t bays)
{
    static const double y[CHORDS] = {8, -8, -8, 8}, z[CHORDS] = {0, 0, 14, 14};
    rbow_frame_joint *joints = need(calloc(CHORDS * (bays + 1), sizeof *joints));
    for (size_t i = 0; i < CHORDS * (bays + 1); i++) {
        joints[i] = rbow_frame_joint_default();
        joints[i].at[RBOW_X] = 20.0 * (double)(i / CHORDS);
        joints[i].at[RBOW_Y] = y[i % CHORDS];
        joints[i].at[RBOW_Z] = z[i % CHORDS];
        joints[i].held = i < CHORDS ? RBOW_HELD_FIXED : RBOW_HELD_NONE;
    }
    return joints;
}

static void add_tube(rbow_frame_tube *tubes, size_t *count, size_t from, size_t to)
{
    rbow_frame_tube *t = &tubes[(*count)++];
    *t = rbow_frame_tube_default();
    t->from = from;
    t->to = to;
    t->od = 1.25;
    t->wall = 0.058;
    t->material = &steel;
}

static rbow_frame_tube *tubes_of(size_t bays, size_t *count)
{
    rbow_frame_tube *tubes = need(calloc(TUBES_A_BAY * bays, sizeof *tubes));
    *count = 0;
    for (size_t bay = 0; bay < bays; bay++)
        for (size_t k = 0; k < CHORDS; k++) {
            const size_t here = CHORDS * bay + k, next = here + CHORDS, beside = CHORDS * (bay + 1) + (k + 1) % CHORDS;
            add_tube(tubes, count, here, next);
            add_tube(tubes, count, next, beside);
            add_tube(tubes, count, here, beside);
        }
    return tubes;
}

static rbow_frame_load *loads_of(size_t bays)
{
    rbow_frame_load *loads = need(calloc(CHORDS, sizeof *loads));
    for (size_t k = 0; k < CHORDS; k++) {
        loads[k] = rbow_frame_load_default();
        loads[k].acts_on = RBOW_ACTS_ON_JOINT;
        loads[k].index = CHORDS * bays + k;
        loads[k].force[RBOW_X] = -60000 / (double)(bays * bays);
        loads[k].force[RBOW_Z] = -600 / (double)(bays * bays);
    }
    return loads;
}

static structure structure_of(size_t bays)
{
    structure s = {.run = {.loads = loads_of(bays), .load_count = CHORDS, .factor = 1.5, .factor_yield = RBOW_UNSET}};
    s.frame.joints = joints_of(bays);
    s.frame.joint_count = CHORDS * (bays + 1);
    s.frame.tubes = tubes_of(bays, &s.frame.tube_count);
    if (rbow_frame_open(&s.frame, need(malloc(rbow_frame_memory(&s.frame))), &s.solver, NULL) != RBOW_OK) exit(2);
    return s;
}

/* Seconds for the states at load factors 0 and 1; the second is reached from the first. */
static double state_seconds(const structure *s, int repeats, rbow_frame_motion *motions)
{
    double taken[2];
    for (int factor = 0; factor < 2; factor++) {
        const double begun = seconds();
        for (int i = 0; i < repeats; i++)
            if (rbow_frame_state(s->solver, &s->run, factor, RBOW_FRAME_AS_BUILT, motions, NULL) != RBOW_OK) exit(2);
        taken[factor] = (seconds() - begun) / repeats;
    }
    return taken[1] - taken[0];
}

/* A positive definite band matrix: what it holds costs nothing more or less. */
static double factorisation_seconds(size_t unknowns, int repeats)
{
    gsl_matrix *full = need(gsl_matrix_alloc(unknowns, BAND + 1)), *work = need(gsl_matrix_alloc(unknowns, BAND + 1));
    double taken = 0;
    for (size_t i = 0; i < unknowns; i++)
        for (size_t j = 0; j <= BAND; j++) gsl_matrix_set(full, i, j, j == 0 ? 2 * BAND : 1.0 / (double)(1 + (i + j) % 7));
    for (int i = 0; i < repeats; i++) {
        gsl_matrix_memcpy(work, full);
        const double begun = seconds();
        gsl_linalg_ldlt_band_decomp(work);
        taken += seconds() - begun;
    }
    gsl_matrix_free(full);
    gsl_matrix_free(work);
    return taken / repeats;
}

int main(int count, char **words)
{
    const size_t bays = count > 1 ? (size_t)atoi(words[1]) : 25;
    const int repeats = count > 2 ? atoi(words[2]) : 5;
    const structure s = structure_of(bays);
    rbow_frame_motion *motions = need(calloc(s.frame.joint_count, sizeof *motions));
    rbow_frame_tube_result *tubes = need(calloc(s.frame.tube_count, sizeof *tubes));
    rbow_frame_run_result whole;
    const double state = state_seconds(&s, repeats, motions), bare = factorisation_seconds(CHORDS * RBOW_MOTIONS * bays, repeats);
    const double begun = seconds();
    if (rbow_frame_check(s.solver, &s.run, tubes, NULL, &whole) != RBOW_OK) exit(2);
    printf("bays %zu joints %zu tubes %zu check %.6f state %.6f factorisation %.6f moved %.12g margin %.6g\n", bays, s.frame.joint_count,
           s.frame.tube_count, seconds() - begun, state, bare, motions[s.frame.joint_count - 1].move[RBOW_Z], whole.margin);
    return 0;
}
