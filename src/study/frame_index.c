#include "study/frame_index.h"

#include "study/parallel.h"

#include <math.h>
#include <stdlib.h>

enum { COARSE = 24, FINE = 15 /* degrees in a coarse step */, ROUNDS_MOST = 20 };

static const double degree = 3.14159265358979323846 / 180, full_circle = 360;
static const double least_gain = 1e-4; /* of margin, in a round and by a turn */

typedef struct descent {
    const frame_index_question *question;
    frame_problem now;      /* with the best clocks so far */
    frame_lowest lowest;
    frame_index_answer *answer;
    bool *done;             /* of each turn, in this round */
    bool failed;            /* memory ran out */
} descent;

/* ---- margins at several clocks of one tube --------------------------------------------------------------------- */

typedef struct trials {
    const frame_problem *problem;
    frame_lowest least; /* to be raised */
    size_t tube, count;
    double clocks[2 * FINE + COARSE]; /* degrees */
    bool failed[2 * FINE + COARSE]; /* memory ran out */
    rbow_status statuses[2 * FINE + COARSE];
    frame_lowest lowest[2 * FINE + COARSE];
} trials;

/* The lowest margin; only that of the run with the lowest so far where it gains nothing there already. */
static rbow_status margin_of(frame_problem *changed, frame_lowest least, frame_lowest *found)
{
    const size_t runs = changed->run_count;
    frame_problem_swap_first(changed, least.run);
    changed->run_count = 1;
    rbow_status status = frame_problem_margin(changed, INFINITY, found);
    changed->run_count = runs;
    if (status == RBOW_OK && found->lowest.margin > least.lowest.margin + least_gain) status = frame_problem_margin(changed, INFINITY, found);
    found->run = found->run == 0 ? least.run : found->run == least.run ? 0 : found->run;
    return status;
}

static void try_clock(void *context, size_t i)
{
    trials *t = context;
    frame_problem changed;
    t->statuses[i] = RBOW_NO_MEMORY;
    t->failed[i] = !frame_problem_copy(&changed, t->problem);
    if (!t->failed[i]) {
        changed.tubes[t->tube].bow_clock = t->clocks[i] * degree;
        t->statuses[i] = margin_of(&changed, t->least, &t->lowest[i]);
        t->failed[i] = t->statuses[i] == RBOW_NO_MEMORY;
    }
    frame_problem_close(&changed);
}

/* The clock with the highest margin, the first on a tie; `count` where none has one. */
static size_t best_of(const trials *t)
{
    size_t best = t->count;
    for (size_t i = 0; i < t->count; i++) {
        if (t->statuses[i] != RBOW_OK) continue;
        if (best == t->count || t->lowest[i].lowest.margin > t->lowest[best].lowest.margin) best = i;
    }
    return best;
}

static void try_clocks(descent *d, trials *t)
{
    t->least = d->lowest;
    parallel_for(t->count, d->question->jobs, try_clock, t);
    for (size_t i = 0; i < t->count; i++) d->failed = d->failed || t->failed[i];
}

static bool keep_best(descent *d, frame_turn *turn, trials *t)
{
    try_clocks(d, t);
    const size_t best = best_of(t);
    if (best == t->count || !(t->lowest[best].lowest.margin > d->lowest.lowest.margin + least_gain)) return false;
    turn->gained += t->lowest[best].lowest.margin - d->lowest.lowest.margin;
    turn->best = t->clocks[best] * degree;
    d->now.tubes[turn->tube].bow_clock = turn->best;
    d->lowest = t->lowest[best];
    return true;
}

/* Whole degrees beside the clock as it is, so far to either side. */
static void ask_beside(const frame_turn *turn, trials *t, const int steps[], size_t count)
{
    const double from = round(turn->best / degree);
    t->count = 0;
    for (size_t i = 0; i < count; i++)
        for (int side = -1; side <= 1; side += 2) t->clocks[t->count++] = fmod(from + side * steps[i] + full_circle, full_circle);
}

/* All coarse steps; where none gains, a few beside the clock; from a clock that gains all fine steps. */
static void turn_one(descent *d, frame_turn *turn)
{
    static const int near[] = {1, 3, 7}, all[] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14};
    trials t = {.problem = &d->now, .tube = turn->tube, .count = COARSE};
    for (size_t i = 0; i < COARSE; i++) t.clocks[i] = FINE * (double)i;
    if (!keep_best(d, turn, &t)) {
        if (isnan(turn->best)) return;
        ask_beside(turn, &t, near, sizeof near / sizeof *near);
        if (!keep_best(d, turn, &t)) return;
    }
    ask_beside(turn, &t, all, sizeof all / sizeof *all);
    keep_best(d, turn, &t);
}

/* ---- rounds ---------------------------------------------------------------------------------------------------- */

/* The tube with the lowest margin, if it has a bow that this round has not turned yet, else the first that it has not. */
static size_t next_turn(const descent *d)
{
    const frame_index_answer *a = d->answer;
    size_t next = a->count;
    for (size_t i = 0; i < a->count; i++) {
        if (d->done[i]) continue;
        if (a->turns[i].tube == d->lowest.lowest.tube) return i;
        if (next == a->count) next = i;
    }
    return next;
}

static void run_round(descent *d)
{
    frame_index_answer *a = d->answer;
    for (size_t i = 0; i < a->count; i++) d->done[i] = false;
    a->rounds++;
    for (size_t done = 0; done < a->count && !a->stopped && !d->failed; done++) {
        const size_t next = next_turn(d);
        turn_one(d, &a->turns[next]);
        d->done[next] = true;
        a->stopped = d->question->go_on != NULL && !d->question->go_on(d->question->context, a->rounds, done + 1, a->count);
    }
}

static bool make_turns(frame_index_answer *a, const frame_problem *p)
{
    *a = (frame_index_answer){.turns = malloc((p->tube_count + 1) * sizeof *a->turns)};
    for (size_t i = 0; i < p->tube_count && a->turns != NULL; i++) {
        const double clock = p->tubes[i].bow_clock;
        if (p->tubes[i].bow > 0) a->turns[a->count++] = (frame_turn){.tube = i, .marked = clock, .best = clock};
    }
    return a->turns != NULL;
}

static rbow_status descend(descent *d)
{
    frame_index_answer *a = d->answer;
    const rbow_status status = frame_problem_margin(&d->now, INFINITY, &d->lowest);
    a->before = d->lowest;
    if (status != RBOW_OK) return status;
    for (double last = -INFINITY; d->lowest.lowest.margin - last >= least_gain && a->rounds < ROUNDS_MOST && !a->stopped && !d->failed;) {
        last = d->lowest.lowest.margin;
        run_round(d);
    }
    a->after = d->lowest;
    return d->failed ? RBOW_NO_MEMORY : RBOW_OK;
}

rbow_status frame_index_find(const frame_problem *p, const frame_index_question *q, frame_index_answer *answer)
{
    descent d = {.question = q, .answer = answer, .done = malloc(p->tube_count + 1)};
    rbow_status status = RBOW_NO_MEMORY;
    const bool copied = frame_problem_copy(&d.now, p);
    if (make_turns(answer, p) && copied && d.done != NULL) status = descend(&d);
    frame_problem_close(&d.now);
    free(d.done);
    return status;
}

void frame_index_free(frame_index_answer *a)
{
    free(a->turns);
}
