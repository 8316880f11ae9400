#include "study/frame_limit.h"

#include "study/parallel.h"

#include <math.h>
#include <stdatomic.h>

enum { BLOCK = 8 };

typedef struct tried { /* one value */
    rbow_status status;
    frame_lowest lowest;
} tried;

typedef struct search {
    const frame_problem *problem;
    const frame_limit_question *question;
    tried steps[FRAME_LIMIT_STEPS + 1]; /* those below `known` */
    size_t known;
    atomic_bool broken, no_memory; /* a value was without an answer for another reason than the value: there is no limit to tell */
} search;

static double value_at(const frame_limit_question *q, double share)
{
    return share < 1 ? q->from + share * (q->to - q->from) : q->to;
}

static tried try_share(search *s, double share, double most)
{
    tried t;
    const double value = value_at(s->question, share);
    t.status = frame_try(s->problem, &s->question->target, &value, 1, most, &t.lowest);
    if (t.status == RBOW_NO_CONVERGENCE) atomic_store(&s->broken, true);
    if (t.status == RBOW_NO_MEMORY) atomic_store(&s->no_memory, true);
    return t;
}

/* NaN where the model refuses the value; what has no limit becomes large. */
static double height_of(const search *s, const tried *t)
{
    return t->status == RBOW_OK ? fmin(t->lowest.lowest.margin - s->question->margin, 1e6) : (double)NAN;
}

static double share_of(size_t step)
{
    return (double)step / FRAME_LIMIT_STEPS;
}

static void try_step(void *context, size_t i)
{
    search *s = context;
    s->steps[s->known + i] = try_share(s, share_of(s->known + i), INFINITY);
}

/* A block of steps more. Returned: false once the search is to stop. */
static bool know_more(search *s)
{
    const size_t left = FRAME_LIMIT_STEPS + 1 - s->known, count = left < BLOCK ? left : BLOCK;
    parallel_for(count, s->question->jobs, try_step, s);
    s->known += count;
    return s->question->go_on(s->question->context, s->known < FRAME_LIMIT_STEPS ? s->known : FRAME_LIMIT_STEPS);
}

static double height_at(const search *s, size_t step)
{
    return height_of(s, &s->steps[step]);
}

/* Given: three shares, the middle one with the smallest margin. Returned: a share whose margin is below the target, or NaN.
 * The golden section: margins of a frame have corners where another tube takes over. */
static double dip_under(search *s, double left, double right)
{
    const double golden = 0.6180339887498949, near = 1e-7;
    double low = left, high = right, a = high - golden * (high - low), b = low + golden * (high - low);
    tried at_a = try_share(s, a, INFINITY), at_b = try_share(s, b, INFINITY);
    while (high - low > near) {
        const double height_a = height_of(s, &at_a), height_b = height_of(s, &at_b);
        if (!(height_a >= 0)) return a;
        if (!(height_b >= 0)) return b;
        if (height_a < height_b) {
            high = b;
            b = a;
            at_b = at_a;
            a = high - golden * (high - low);
            at_a = try_share(s, a, INFINITY);
        } else {
            low = a;
            a = b;
            at_a = at_b;
            b = low + golden * (high - low);
            at_b = try_share(s, b, INFINITY);
        }
    }
    return NAN;
}

/* From a share that holds to one that does not. */
static void bisect(search *s, double holds, double past, frame_limit_answer *answer)
{
    const frame_limit_question *q = s->question;
    const double near = 1e-7;
    while (past - holds > near) {
        const double middle = (holds + past) / 2;
        const tried t = try_share(s, middle, q->margin);
        if (height_of(s, &t) >= 0) holds = middle;
        else past = middle;
    }
    const tried end = try_share(s, past, INFINITY);
    const double value = value_at(q, holds), resolution = near * fabs(q->to - q->from);
    answer->found = end.status == RBOW_OK ? (limit_answer){LIMIT_FOUND, value, NAN, RBOW_OK, resolution}
                                          : (limit_answer){LIMIT_NEVER, value, value, end.status, resolution};
    if (end.status == RBOW_OK) answer->gives_way = end.lowest;
}

/* Whether the margin dips about the step before `step`, which holds, and goes under the target there. Then the answer is there. */
static bool ends_in_dip(search *s, size_t step, frame_limit_answer *answer)
{
    if (step < 2) return false;
    const double before = height_at(s, step - 2), middle = height_at(s, step - 1), after = height_at(s, step);
    if (!(middle < before && middle <= after)) return false;
    const double dip = dip_under(s, share_of(step - 2), share_of(step));
    if (isnan(dip)) return false;
    bisect(s, dip > share_of(step - 1) ? share_of(step - 1) : share_of(step - 2), dip, answer);
    return true;
}

static void scan(search *s, frame_limit_answer *answer)
{
    const frame_limit_question *q = s->question;
    for (size_t step = 1; step <= FRAME_LIMIT_STEPS; step++) {
        if (step == s->known && !know_more(s)) {
            answer->stopped = true;
            return;
        }
        const bool goes_on = height_at(s, step) >= 0;
        if (goes_on && ends_in_dip(s, step, answer)) return;
        if (goes_on) continue;
        bisect(s, share_of(step - 1), share_of(step), answer);
        return;
    }
    answer->found = (limit_answer){LIMIT_NEVER, q->to, NAN, RBOW_OK, 1e-7 * fabs(q->to - q->from)};
}

rbow_status frame_limit_find(const frame_problem *p, const frame_limit_question *q, frame_limit_answer *answer)
{
    frame_problem begins = *p; /* its lists stay those of p */
    search s = {.problem = &begins, .question = q};
    const frame_lowest nothing = {.lowest = {.margin = INFINITY, .governs_at = NAN, .tube = p->tube_count, .governs = RBOW_FRAME_BY_NONE}};
    *answer = (frame_limit_answer){.found = {LIMIT_ALREADY, q->from, NAN, RBOW_OK, 0}, .gives_way = nothing};
    s.steps[s.known++] = try_share(&s, 0, INFINITY);
    if (s.steps[0].status != RBOW_OK) return s.steps[0].status;
    begins.first_run = s.steps[0].lowest.run;
    if (height_at(&s, 0) >= 0) scan(&s, answer);
    else answer->gives_way = s.steps[0].lowest;
    if (atomic_load(&s.no_memory)) return RBOW_NO_MEMORY;
    return atomic_load(&s.broken) ? RBOW_NO_CONVERGENCE : RBOW_OK;
}
