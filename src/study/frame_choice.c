#include "study/frame_choice.h"

#include "study/parallel.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK = 32 };

/* ---- parts and walls --------------------------------------------------------------------------------------- */

static double weight_of(const frame_problem *p, size_t tube)
{
    const rbow_frame_tube *t = &p->tubes[tube];
    const double *a = p->joints[t->from].at, *b = p->joints[t->to].at;
    rbow_section s;
    if (rbow_section_of(t->od, t->wall, &s) != RBOW_OK) return NAN;
    return t->material->density * s.area * hypot(hypot(b[RBOW_X] - a[RBOW_X], b[RBOW_Y] - a[RBOW_Y]), b[RBOW_Z] - a[RBOW_Z]);
}

static double weight_of_part(const frame_problem *p, const frame_choice_question *q, size_t part)
{
    double weight = 0;
    for (size_t i = 0; i < p->tube_count; i++)
        if (q->part_of[i] == part) weight += weight_of(p, i);
    return weight;
}

static rbow_status set_part(frame_problem *p, const frame_choice_question *q, size_t part, double wall)
{
    rbow_status status = RBOW_OK;
    for (size_t i = 0; i < p->tube_count && status == RBOW_OK; i++)
        if (q->part_of[i] == part)
            status = frame_parameter_set(p, (frame_parameter){FRAME_TUBES, i, offsetof(frame_tube_row, tube.wall)}, wall);
    return status;
}

rbow_status frame_choice_apply(frame_problem *p, const frame_choice_question *q, const size_t walls[])
{
    rbow_status status = RBOW_OK;
    for (size_t part = 0; part < q->parts && status == RBOW_OK; part++) status = set_part(p, q, part, q->walls[walls[part]]);
    return status;
}

/* What each part weighs with each wall, and whether it can have it. Faults of tubes do not depend on other parts. */
static bool weigh(frame_choice *c, const frame_choice_question *q)
{
    for (size_t part = 0; part < q->parts; part++) {
        c->given[part] = weight_of_part(q->problem, q, part);
        for (size_t wall = 0; wall < q->wall_count; wall++) {
            const size_t at = part * q->wall_count + wall;
            frame_problem tried;
            const bool fine = frame_problem_copy(&tried, q->problem);
            if (fine) {
                c->refusals[at] = set_part(&tried, q, part, q->walls[wall]);
                if (c->refusals[at] == RBOW_OK) c->refusals[at] = frame_problem_fault(&tried);
                c->weights[at] = c->refusals[at] == RBOW_OK ? weight_of_part(&tried, q, part) : (double)NAN;
            }
            frame_problem_close(&tried);
            if (!fine) return false;
        }
    }
    return true;
}

static double weight_of_set(const frame_choice *c, const frame_choice_question *q, const size_t walls[])
{
    double weight = 0;
    for (size_t part = 0; part < q->parts; part++) weight += c->weights[part * q->wall_count + walls[part]];
    return weight;
}

/* ---- one set ----------------------------------------------------------------------------------------------- */

static void work_out(frame_set *set, const frame_choice_question *q)
{
    frame_problem tried;
    set->status = frame_problem_copy(&tried, q->problem) ? frame_choice_apply(&tried, q, set->walls) : RBOW_NO_MEMORY;
    if (set->status == RBOW_OK) set->status = frame_problem_margin(&tried, INFINITY, &set->lowest);
    frame_problem_close(&tried);
}

typedef struct candidate { /* a set to be tried */
    size_t *walls;
    rbow_status status;
    size_t short_run; /* run_count for none: it holds */
} candidate;

typedef struct block {
    const frame_choice_question *question;
    candidate at[BLOCK];
    size_t count;
    size_t first_run; /* to begin with: the one that a set was short in last */
} block;

static void try_candidate(void *context, size_t i)
{
    block *b = context;
    candidate *c = &b->at[i];
    frame_problem tried;
    c->short_run = b->question->problem->run_count;
    c->status = frame_problem_copy(&tried, b->question->problem) ? frame_choice_apply(&tried, b->question, c->walls)
                                                                 : RBOW_NO_MEMORY;
    if (c->status == RBOW_OK) c->status = frame_problem_holds(&tried, 0, b->first_run, &c->short_run);
    frame_problem_close(&tried);
}

/* Returned: the first of the block that holds; count for none. */
static size_t try_block(block *b, frame_choice *answer)
{
    const size_t runs = b->question->problem->run_count;
    parallel_for(b->count, b->question->jobs, try_candidate, b);
    for (size_t i = 0; i < b->count; i++) {
        answer->failed = answer->failed || b->at[i].status == RBOW_NO_MEMORY;
        if (b->at[i].status != RBOW_OK) answer->without_answer++;
        else if (b->at[i].short_run == runs) return i;
        else b->first_run = b->at[i].short_run;
    }
    return b->count;
}

static bool block_open(block *b, const frame_choice_question *q)
{
    size_t *walls = calloc(BLOCK * q->parts + 1, sizeof *walls);
    *b = (block){.question = q};
    for (size_t i = 0; i < BLOCK; i++) b->at[i].walls = walls != NULL ? walls + i * q->parts : NULL;
    return walls != NULL;
}

static void block_close(block *b)
{
    free(b->at[0].walls);
}

static bool set_take(frame_set *to, const frame_choice *c, const frame_choice_question *q, const size_t walls[])
{
    if (to->walls == NULL) to->walls = malloc((q->parts + 1) * sizeof *to->walls);
    if (to->walls == NULL) return false;
    memcpy(to->walls, walls, q->parts * sizeof *walls);
    to->weight = weight_of_set(c, q, walls);
    return true;
}

/* ---- every set, the lightest first ------------------------------------------------------------------------- */

typedef struct numbered_set { /* number: its walls as digits, the first part's first */
    double weight;
    size_t number;
} numbered_set;

static int lightest_first(const void *a, const void *b)
{
    const numbered_set *x = a, *y = b;
    if (x->weight < y->weight || x->weight > y->weight) return x->weight < y->weight ? -1 : 1;
    return (x->number > y->number) - (x->number < y->number);
}

static void walls_of(const frame_choice_question *q, size_t number, size_t walls[])
{
    for (size_t part = q->parts; part-- > 0; number /= q->wall_count) walls[part] = number % q->wall_count;
}

/* wall_count to the power of parts; SIZE_MAX where that is beyond the most. */
static size_t sets_of(const frame_choice_question *q)
{
    size_t sets = 1;
    for (size_t part = 0; part < q->parts; part++) {
        sets *= q->wall_count;
        if (sets > FRAME_CHOICE_SETS_MOST) return SIZE_MAX;
    }
    return sets;
}

/* Returned: how many sets are possible; they are sorted. */
static size_t list_sets(const frame_choice *c, const frame_choice_question *q, size_t sets, size_t walls[], numbered_set list[])
{
    size_t count = 0;
    for (size_t number = 0; number < sets; number++) {
        walls_of(q, number, walls);
        const double weight = weight_of_set(c, q, walls);
        if (!isnan(weight)) list[count++] = (numbered_set){weight, number};
    }
    qsort(list, count, sizeof *list, lightest_first);
    return count;
}

static bool take_pick(frame_choice *c, const frame_choice_question *q, const numbered_set list[], size_t at, size_t walls[])
{
    walls_of(q, list[at].number, walls);
    if (!set_take(&c->pick, c, q, walls)) return false;
    if (at == 0) return true;
    walls_of(q, list[at - 1].number, walls);
    return set_take(&c->next, c, q, walls);
}

static bool go_through(frame_choice *c, const frame_choice_question *q, const numbered_set list[], block *b)
{
    for (size_t at = 0; at < c->sets && !c->stopped; at += b->count) {
        b->count = c->sets - at < BLOCK ? c->sets - at : BLOCK;
        for (size_t i = 0; i < b->count; i++) walls_of(q, list[at + i].number, b->at[i].walls);
        const size_t holds = try_block(b, c);
        if (holds < b->count) return take_pick(c, q, list, at + holds, b->at[0].walls);
        c->stopped = !q->go_on(q->context, at + b->count, c->sets);
    }
    return true;
}

static bool exhaust(frame_choice *c, const frame_choice_question *q, block *b)
{
    const size_t sets = sets_of(q);
    numbered_set *list = malloc((sets + 1) * sizeof *list);
    bool fine = list != NULL;
    if (fine) {
        c->sets = list_sets(c, q, sets, b->at[0].walls, list);
        fine = go_through(c, q, list, b);
    }
    free(list);
    return fine;
}

/* ---- downward, one part at a time -------------------------------------------------------------------------- */

typedef struct lighter_step { /* one part with a lighter wall */
    double saved;
    size_t part, wall;
} lighter_step;

static int most_saved_first(const void *a, const void *b)
{
    const lighter_step *x = a, *y = b;
    if (x->saved < y->saved || x->saved > y->saved) return x->saved > y->saved ? -1 : 1;
    return x->part != y->part ? (x->part > y->part) - (x->part < y->part) : (x->wall > y->wall) - (x->wall < y->wall);
}

static size_t list_steps(const frame_choice *c, const frame_choice_question *q, lighter_step list[])
{
    size_t count = 0;
    for (size_t part = 0; part < q->parts; part++)
        for (size_t wall = 0; wall < q->wall_count; wall++) {
            const double *weights = c->weights + part * q->wall_count, saved = weights[c->pick.walls[part]] - weights[wall];
            if (saved > 0) list[count++] = (lighter_step){saved, part, wall};
        }
    qsort(list, count, sizeof *list, most_saved_first);
    return count;
}

/* The first step that holds is taken. Returned: whether there was one; `next` is the last step that was not. */
static bool step_down(frame_choice *c, const frame_choice_question *q, const lighter_step list[], size_t count, block *b)
{
    for (size_t at = 0; at < count && !c->stopped; at += b->count) {
        b->count = count - at < BLOCK ? count - at : BLOCK;
        for (size_t i = 0; i < b->count; i++) {
            memcpy(b->at[i].walls, c->pick.walls, q->parts * sizeof *c->pick.walls);
            b->at[i].walls[list[at + i].part] = list[at + i].wall;
        }
        const size_t holds = try_block(b, c);
        if (holds < b->count) return set_take(&c->pick, c, q, b->at[holds].walls);
        if (at + b->count == count && !set_take(&c->next, c, q, b->at[b->count - 1].walls)) c->failed = true;
    }
    return false;
}

/* The heaviest wall that holds for all tubes, else the heaviest wall of each part. Returned: false where that is short. */
static bool find_start(frame_choice *c, const frame_choice_question *q, block *b)
{
    const frame_set *heaviest = NULL;
    size_t *walls = b->at[0].walls;
    for (size_t wall = 0; wall < q->wall_count; wall++) {
        const frame_set *s = &c->all[wall];
        if (s->status == RBOW_OK && s->lowest.lowest.margin >= 0 && (heaviest == NULL || s->weight > heaviest->weight)) heaviest = s;
    }
    if (heaviest != NULL) return set_take(&c->pick, c, q, heaviest->walls);
    for (size_t part = 0; part < q->parts; part++) {
        const double *weights = c->weights + part * q->wall_count;
        walls[part] = 0;
        for (size_t wall = 1; wall < q->wall_count; wall++)
            if (!(weights[wall] <= weights[walls[part]]) && !isnan(weights[wall])) walls[part] = wall;
    }
    b->count = 1;
    return !isnan(weight_of_set(c, q, walls)) && try_block(b, c) == 0 && set_take(&c->pick, c, q, walls);
}

static bool descend(frame_choice *c, const frame_choice_question *q, block *b)
{
    const size_t most = q->parts * q->wall_count;
    lighter_step *list = malloc((most + 1) * sizeof *list);
    c->descended = true;
    c->sets = SIZE_MAX;
    if (list != NULL && find_start(c, q, b)) {
        size_t count = list_steps(c, q, list), steps = 0;
        while (step_down(c, q, list, count, b) && !c->stopped) {
            count = list_steps(c, q, list);
            c->stopped = !q->go_on(q->context, ++steps, most);
        }
    }
    free(list);
    return list != NULL && !c->failed;
}

/* ---- all --------------------------------------------------------------------------------------------------- */

typedef struct wall_task {
    frame_choice *choice;
    const frame_choice_question *question;
} wall_task;

static void try_wall(void *context, size_t wall)
{
    const wall_task *t = context;
    const frame_choice_question *q = t->question;
    frame_set *set = &t->choice->all[wall];
    for (size_t part = 0; part < q->parts; part++) {
        const rbow_status refusal = t->choice->refusals[part * q->wall_count + wall];
        if (refusal != RBOW_OK && set->status == RBOW_OK) set->status = refusal;
    }
    if (set->status == RBOW_OK) work_out(set, q);
}

static bool make_room(frame_choice *c, const frame_choice_question *q)
{
    const size_t both = q->parts * q->wall_count + 1;
    size_t *walls = calloc(both, sizeof *walls);
    c->weights = calloc(both, sizeof *c->weights);
    c->refusals = calloc(both, sizeof *c->refusals);
    c->given = calloc(q->parts + 1, sizeof *c->given);
    c->all = calloc(q->wall_count + 1, sizeof *c->all);
    if (c->all != NULL) c->all[0].walls = walls;
    else free(walls);
    if (walls == NULL || c->weights == NULL || c->refusals == NULL || c->given == NULL || c->all == NULL) return false;
    for (size_t wall = 0; wall < q->wall_count; wall++) {
        c->all[wall].walls = walls + wall * q->parts;
        for (size_t part = 0; part < q->parts; part++) c->all[wall].walls[part] = wall;
    }
    return true;
}

void frame_choice_find(frame_choice *c, const frame_choice_question *q)
{
    block b;
    *c = (frame_choice){.failed = false};
    bool fine = block_open(&b, q) && make_room(c, q) && weigh(c, q);
    if (fine) {
        wall_task task = {c, q};
        for (size_t wall = 0; wall < q->wall_count; wall++) c->all[wall].weight = weight_of_set(c, q, c->all[wall].walls);
        parallel_for(q->wall_count, q->jobs, try_wall, &task);
        fine = (sets_of(q) <= FRAME_CHOICE_SETS_MOST ? exhaust : descend)(c, q, &b);
    }
    if (fine && c->pick.walls != NULL) work_out(&c->pick, q);
    if (fine && c->next.walls != NULL) work_out(&c->next, q);
    c->without_answer += c->pick.status != RBOW_OK;
    c->without_answer += c->next.status != RBOW_OK;
    for (size_t wall = 0; wall < q->wall_count && fine; wall++) {
        c->without_answer += c->all[wall].status == RBOW_NO_CONVERGENCE;
        c->failed = c->failed || c->all[wall].status == RBOW_NO_MEMORY;
    }
    c->failed = c->failed || c->pick.status == RBOW_NO_MEMORY || c->next.status == RBOW_NO_MEMORY;
    c->failed = c->failed || !fine;
    block_close(&b);
}

void frame_choice_close(frame_choice *c)
{
    if (c->all != NULL) free(c->all[0].walls);
    free(c->all);
    free(c->weights);
    free(c->refusals);
    free(c->given);
    free(c->pick.walls);
    free(c->next.walls);
}
