#include "study/frame_advice.h"

#include "study/parallel.h"

#include <math.h>
#include <stdlib.h>

static const double holding = 1e-5; /* margins are known to 1e-6 */
static const double asked = 2e-5;   /* where only the holding is: no margin is searched beyond it */
static const double ranked = 1;     /* changes that help more are alike */

enum { GRID = 16, FITS_TRIED = 3, ODS_TRIED = 3, WAYS_MOST = FITS_TRIED + 2, SIZES_MOST = 32 };

/* Margins times tubes times runs, and margins at the least. Measured: a margin of 50 tubes in 5 runs takes 30 ms, of one tube 28 ms; the
 * full check of a frame takes as long as 60 of its margins. */
enum { BUDGET = 40000, BUDGET_LEAST = 60 };

/* ---- margins with one number changed ------------------------------------------------------------------------ */

typedef struct change { /* a number of a tube */
    size_t on;
    int column;
    double now, step; /* step 0: a size, of which there are no multiples */
    double margin;    /* of the short tube without it (0) */
} change;

typedef struct trial {
    const change *of;
    double value, most; /* most: as in frame_problem_margin */
    bool whole;       /* all tubes are asked */
    bool tried;
    rbow_status status;
    double margin;    /* of the short tube, or of the frame */
    frame_lowest lowest; /* where all are asked */
} trial;

typedef struct search {
    const frame_advice_question *question;
    trial *trials; /* of the batch at work */
    size_t left;   /* margins */
    frame_advice *answer;
} search;

static size_t offset_of(int column)
{
    switch (column) {
        case ADVICE_MISS_A: return offsetof(frame_tube_row, tube.miss_a);
        case ADVICE_MISS_B: return offsetof(frame_tube_row, tube.miss_b);
        case ADVICE_GAP: return offsetof(frame_tube_row, tube.gap);
        case ADVICE_BOW: return offsetof(frame_tube_row, tube.bow);
        case ADVICE_WALL: return offsetof(frame_tube_row, tube.wall);
        default: return offsetof(frame_tube_row, tube.od);
    }
}

static void try_one(void *context, size_t i)
{
    const search *s = context;
    const frame_advice_question *q = s->question;
    trial *t = &s->trials[i];
    frame_problem tried;
    t->status = frame_problem_copy(&tried, q->problem) ? RBOW_OK : RBOW_NO_MEMORY;
    if (t->status == RBOW_OK) t->status = frame_parameter_set(&tried, (frame_parameter){FRAME_TUBES, t->of->on, offset_of(t->of->column)}, t->value);
    if (t->status == RBOW_OK && t->whole) {
        t->status = frame_problem_margin(&tried, t->most, &t->lowest);
        t->margin = t->lowest.lowest.margin;
    } else if (t->status == RBOW_OK) {
        t->status = frame_problem_tube_margin(&tried, q->tube, t->most, &t->margin);
    }
    t->tried = true;
    frame_problem_close(&tried);
}

/* As many as there is budget for, the first ones; the others stay untried. */
static void try_all(search *s, trial trials[], size_t count)
{
    const size_t now = count < s->left ? count : s->left;
    s->left -= now;
    s->trials = trials;
    s->answer->cut_short = s->answer->cut_short || now < count;
    parallel_for(now, s->question->jobs, try_one, s);
    for (size_t i = 0; i < now; i++) s->answer->lost = s->answer->lost || trials[i].status == RBOW_NO_MEMORY;
}

static bool holds(const trial *t)
{
    return t->tried && t->status == RBOW_OK && t->margin >= holding;
}

static trial tried_at(search *s, const change *c, double value, bool whole)
{
    trial t = {.of = c, .value = value, .most = INFINITY, .whole = whole};
    try_all(s, &t, 1);
    return t;
}

/* ---- the largest multiple of a step -------------------------------------------------------------------------- */

static double value_at(const change *c, size_t multiple)
{
    return copysign((double)multiple * c->step, c->now);
}

static bool holds_at(search *s, const change *c, size_t multiple, bool whole)
{
    trial t = {.of = c, .value = value_at(c, multiple), .most = asked, .whole = whole};
    try_all(s, &t, 1);
    return holds(&t);
}

/* Of multiples above 0 and below the present value. */
static size_t multiples_below(const change *c)
{
    const double most = 1e6, count = ceil(fabs(c->now) / c->step - 1e-6) - 1;
    return count > 0 ? (size_t)fmin(count, most) : 0;
}

typedef struct grid { /* multiples that were tried, and below the first that is short held */
    size_t at[GRID], count;
    size_t holding; /* how many, from the first on */
} grid;

static grid grid_of(search *s, const change *c, size_t most, bool whole)
{
    grid g = {.count = most < GRID ? most : GRID};
    trial trials[GRID];
    for (size_t i = 0; i < g.count; i++) {
        g.at[i] = (i + 1) * most / g.count;
        trials[i] = (trial){.of = c, .value = value_at(c, g.at[i]), .most = asked, .whole = whole};
    }
    try_all(s, trials, g.count);
    while (g.holding < g.count && holds(&trials[g.holding])) g.holding++;
    return g;
}

/* The largest of the grid that holds and lies below a multiple; 0 for none. */
static size_t grid_below(const grid *g, size_t multiple)
{
    size_t below = 0;
    for (size_t i = 0; i < g->holding && g->at[i] < multiple; i++) below = g->at[i];
    return below;
}

/* Given: 0 holds; most  the largest that is asked. Returned: the largest multiple that holds, with those tried below it; 0 for none */
static size_t largest_multiple(search *s, const change *c, size_t most, bool whole)
{
    const grid g = grid_of(s, c, most, whole);
    size_t good = grid_below(&g, most + 1), past = g.holding < g.count ? g.at[g.holding] : most + 1;
    for (;;) {
        while (past - good > 1) {
            const size_t middle = good + (past - good) / 2;
            if (holds_at(s, c, middle, whole)) good = middle;
            else past = middle;
        }
        if (good < 2 || grid_below(&g, good) == good - 1 || holds_at(s, c, good - 1, whole)) return good;
        past = good - 1;
        good = grid_below(&g, past);
    }
}

/* ---- ways ---------------------------------------------------------------------------------------------------- */

typedef struct ways {
    frame_advice_row at[WAYS_MOST];
    size_t count, enough;
} ways;

/* Whether a tube holds in the frame as given. */
static bool holds_already(search *s, size_t tube)
{
    double margin;
    const rbow_status status = frame_problem_tube_margin(s->question->problem, tube, 0, &margin);
    s->answer->lost = s->answer->lost || status == RBOW_NO_MEMORY;
    return status == RBOW_OK && margin >= 0;
}

/* Given: whole  tried at the value; it has an answer */
static void add(search *s, ways *w, const trial *whole)
{
    const frame_advice_question *q = s->question;
    const change *c = whole->of;
    const size_t lowest = whole->lowest.lowest.tube;
    const trial alone = lowest == q->tube ? *whole : tried_at(s, c, whole->value, false);
    if (!holds(&alone) || w->count == WAYS_MOST) return;
    frame_advice_row *r = &w->at[w->count++];
    *r = (frame_advice_row){.tube = q->model->tubes[q->tube].name, .changed = q->model->tubes[c->on].name, .column = c->column, .now = c->now,
                            .to = whole->value, .margin = alone.margin, .frame_margin = whole->margin, .enough = holds(whole),
                            .still_short = ""};
    w->enough += holds(whole);
    if (holds(whole)) return;
    r->still_short = q->model->tubes[lowest].name;
    r->fell = holds_already(s, lowest);
}

static void add_fit(search *s, ways *w, const change *c)
{
    size_t good = largest_multiple(s, c, multiples_below(c), false);
    if (good == 0) return;
    const bool at_0 = holds_at(s, c, 0, true);
    if (at_0) good = largest_multiple(s, c, good, true);
    if (good == 0) return;
    const trial whole = tried_at(s, c, value_at(c, good), true);
    if (holds(&whole) && !at_0) return; /* whoever does more than is said would make another tube short */
    if (whole.tried && whole.status == RBOW_OK) add(s, w, &whole);
}

/* The smallest size with which the whole frame holds, else the smallest with which the tube does.
 * Given: sizes  ascending, count at most SIZES_MOST */
static void add_size(search *s, ways *w, const change *c, const double sizes[], size_t count)
{
    trial trials[SIZES_MOST], first = {.tried = false};
    for (size_t i = 0; i < count; i++) trials[i] = (trial){.of = c, .value = sizes[i], .most = asked};
    try_all(s, trials, count);
    for (size_t i = 0; i < count; i++) {
        if (!holds(&trials[i])) continue;
        const trial whole = tried_at(s, c, sizes[i], true);
        if (!whole.tried || whole.status != RBOW_OK) continue;
        if (!first.tried || holds(&whole)) first = whole;
        if (holds(&whole)) break;
    }
    if (first.tried) add(s, w, &first);
}

static size_t sizes_above(double size, const double listed[], size_t count, size_t most, double to[])
{
    size_t found = 0;
    for (size_t i = 0; i < count && found < most; i++)
        if (listed[i] > size + 1e-9) to[found++] = listed[i];
    return found;
}

static void add_walls(search *s, ways *w)
{
    const frame_advice_question *q = s->question;
    const change wall = {.on = q->tube, .column = ADVICE_WALL, .now = q->problem->tubes[q->tube].wall};
    double sizes[SIZES_MOST];
    add_size(s, w, &wall, sizes, sizes_above(wall.now, q->walls, q->wall_count, SIZES_MOST, sizes));
}

static bool has_detail(const frame_problem *p, size_t tube)
{
    for (size_t i = 0; p->details != NULL && i < p->details->count; i++)
        if (p->details->at[i].tube == tube) return true;
    return false;
}

static void add_ods(search *s, ways *w)
{
    const frame_advice_question *q = s->question;
    const change od = {.on = q->tube, .column = ADVICE_OD, .now = q->problem->tubes[q->tube].od};
    double sizes[SIZES_MOST];
    if (s->answer->detailed) return;
    add_size(s, w, &od, sizes, sizes_above(od.now, q->ods, q->od_count, ODS_TRIED, sizes));
}

/* ---- what may be changed in the fit -------------------------------------------------------------------------- */

typedef struct changes {
    change *at;
    size_t count;
} changes;

static void add_change(changes *l, size_t on, int column, double now, double step)
{
    if (fabs(now) > 0) l->at[l->count++] = (change){.on = on, .column = column, .now = now, .step = step, .margin = NAN};
}

static void add_forced(changes *l, const frame_advice_question *q, size_t on)
{
    const rbow_frame_tube *t = &q->problem->tubes[on];
    add_change(l, on, ADVICE_MISS_A, t->miss_a, q->miss_step);
    add_change(l, on, ADVICE_MISS_B, t->miss_b, q->miss_step);
    add_change(l, on, ADVICE_GAP, t->gap, q->step);
}

/* 0: the tube itself, 1: it shares a joint, 2: any other */
static int nearness(const frame_problem *p, size_t tube, size_t other)
{
    const rbow_frame_tube *a = &p->tubes[tube], *b = &p->tubes[other];
    if (tube == other) return 0;
    return a->from == b->from || a->from == b->to || a->to == b->from || a->to == b->to ? 1 : 2;
}

/* Those of the tube first, then those of its neighbours: where the budget ends, the others are left. */
static void list_changes(changes *l, const frame_advice_question *q)
{
    const frame_problem *p = q->problem;
    add_change(l, q->tube, ADVICE_BOW, p->tubes[q->tube].bow, q->step);
    for (int near = 0; near <= 2; near++)
        for (size_t i = 0; i < p->tube_count; i++)
            if (nearness(p, q->tube, i) == near) add_forced(l, q, i);
}

static int most_help_first(const void *a, const void *b)
{
    const change *x = a, *y = b;
    if (x->margin > y->margin || x->margin < y->margin) return x->margin > y->margin ? -1 : 1;
    return x->on != y->on ? (x->on > y->on) - (x->on < y->on) : x->column - y->column;
}

/* Keeps those with which the tube holds if they are 0, the one that helps most first. */
static void rank(search *s, changes *l)
{
    trial *trials = malloc((l->count + 1) * sizeof *trials);
    size_t kept = 0;
    s->answer->lost = s->answer->lost || trials == NULL;
    if (trials != NULL) {
        const size_t most = s->left / 2, count = l->count < most ? l->count : most;
        for (size_t i = 0; i < count; i++) trials[i] = (trial){.of = &l->at[i], .value = 0, .most = ranked};
        try_all(s, trials, count);
        s->answer->cut_short = s->answer->cut_short || count < l->count;
        for (size_t i = 0; i < count; i++) {
            l->at[i].margin = trials[i].margin;
            if (holds(&trials[i])) l->at[kept++] = l->at[i];
        }
        qsort(l->at, kept, sizeof *l->at, most_help_first);
    }
    l->count = kept;
    free(trials);
}

/* ---- all ----------------------------------------------------------------------------------------------------- */

/* Those that are enough, in the order in which they were found; if none is, the others. */
static void choose(frame_advice *a, const ways *w)
{
    for (size_t i = 0; i < w->count && a->count < FRAME_ADVICE_MOST; i++)
        if (w->at[i].enough || w->enough == 0) a->rows[a->count++] = w->at[i];
}

static void look(search *s, changes *l)
{
    ways w = {.count = 0};
    size_t fits = 0;
    rank(s, l);
    for (; fits < l->count && fits < FITS_TRIED && w.enough == 0; fits++) add_fit(s, &w, &l->at[fits]);
    add_walls(s, &w);
    if (w.enough < FRAME_ADVICE_MOST) add_ods(s, &w);
    for (; fits < l->count && fits < FITS_TRIED && w.enough < FRAME_ADVICE_MOST; fits++) add_fit(s, &w, &l->at[fits]);
    if (w.enough == 0 && fits < l->count) s->answer->cut_short = true;
    choose(s->answer, &w);
}

void frame_advice_find(frame_advice *a, const frame_advice_question *q)
{
    const frame_problem *p = q->problem;
    const size_t size = p->tube_count * p->run_count, budget = BUDGET / (size > 0 ? size : 1);
    search s = {.question = q, .left = budget > BUDGET_LEAST ? budget : BUDGET_LEAST, .answer = a};
    changes l = {.at = malloc((3 * p->tube_count + 1) * sizeof *l.at)};
    *a = (frame_advice){.tube = NULL, .lost = l.at == NULL};
    if (l.at != NULL && !holds_already(&s, q->tube)) {
        a->tube = q->model->tubes[q->tube].name;
        a->detailed = has_detail(p, q->tube);
        list_changes(&l, q);
        look(&s, &l);
    }
    if (a->lost) a->count = 0;
    free(l.at);
}
