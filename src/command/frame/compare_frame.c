#include "command/frame/studies.h"

#include "cases/part_groups.h"
#include "command/frame/frame_study.h"
#include "program/case_columns.h"
#include "program/exit_status.h"
#include "program/say.h"
#include "report/page/frame/frame_study_page.h"
#include "report/text/frame/frame_study_text.h"
#include "study/frame_choice.h"
#include "study/parallel.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct compare_state {
    measures typed;
    double *walls;
    size_t *part_of;
    size_t *first;          /* tube of each part */
    frame_choice_question question;
    frame_choice choice;
    frame_compare_row *rows;
    text *verdicts;         /* of the rows of all tubes */
    frame_comparison whole;
    double *next_walls;
    rbow_status fails;      /* of the frame as given */
    frame_lowest given;
} compare_state;

/* ---- asking ------------------------------------------------------------------------------------------------ */

/* Bare walls are in the unit of tubes.csv. */
static bool read_walls(frame_study *s, compare_state *c)
{
    const options *o = s->options;
    const frame_place place = {.table = FRAME_TUBES};
    frame_column wall = {.field = field_find(&frame_tube_list, "wall")};
    wall.unit = (column_unit){.option = "walls", .field = wall.field};
    if (!measures_read(&c->typed, "walls", o->walls != NULL ? o->walls : options_stock_walls, DIM_LENGTH)) return false;
    if (!c->typed.have_units && !frame_column_needs_unit(&wall, &s->build, &place)) return false;
    c->walls = malloc((c->typed.count + 1) * sizeof *c->walls);
    for (size_t i = 0; c->walls != NULL && i < c->typed.count; i++)
        if (!case_measure_in(&wall.unit, &c->typed.at[i], &c->walls[i])) return false;
    if (c->walls == NULL) say("out of memory");
    return c->walls != NULL;
}

static bool number_parts(frame_study *s, compare_state *c)
{
    const frame_model *m = &s->build.model;
    const char **names = malloc((m->tube_count + 1) * sizeof *names);
    c->part_of = malloc((m->tube_count + 1) * sizeof *c->part_of);
    bool fine = names != NULL && c->part_of != NULL;
    for (size_t i = 0; i < m->tube_count && fine; i++) names[i] = frame_tube_part(&m->tubes[i]);
    fine = fine && part_groups(names, m->tube_count, c->part_of, &c->question.parts);
    free(names);
    c->first = fine ? malloc((c->question.parts + 1) * sizeof *c->first) : NULL;
    for (size_t i = m->tube_count; c->first != NULL && i-- > 0;) c->first[c->part_of[i]] = i;
    if (c->first == NULL) say("out of memory");
    return c->first != NULL;
}

static bool ask(frame_study *s)
{
    compare_state *c = s->state;
    if (s->options->ods != NULL) {
        say("compare: --ods: the diameters of a frame stay as they are; only its walls are compared");
        return false;
    }
    return read_walls(s, c) && number_parts(s, c);
}

/* ---- rows -------------------------------------------------------------------------------------------------- */

static const char *const verdicts[] = {"short", "holds"};

static double given_weight(const compare_state *c)
{
    double weight = 0;
    for (size_t part = 0; part < c->question.parts; part++) weight += c->choice.given[part];
    return weight;
}

/* words->failed: without it */
static const char *why_not(text *words, const frame_study *s, const compare_state *c, size_t wall)
{
    const frame_choice_question *q = &c->question;
    size_t part = 0;
    while (part + 1 < q->parts && c->choice.refusals[part * q->wall_count + wall] == RBOW_OK) part++;
    text_put(words, "not possible: ");
    if (c->choice.refusals[part * q->wall_count + wall] != RBOW_OK) {
        text_format(words, "part %s: ", frame_tube_part(&s->build.model.tubes[c->first[part]]));
    }
    frame_study_put_status(words, c->choice.all[wall].status);
    return words->failed ? "" : words->at;
}

/* Returned: false where memory ran out. */
static bool fill_all(const frame_study *s, compare_state *c)
{
    for (size_t wall = 0; wall < c->question.wall_count; wall++) {
        const frame_set *set = &c->choice.all[wall];
        frame_compare_row *r = &c->rows[wall];
        *r = (frame_compare_row){.set = FRAME_SET_ALL, .part = "", .wall = c->walls[wall], .weight = set->weight,
                                 .weight_change = set->weight - given_weight(c), .possible = set->status == RBOW_OK,
                                 .wall_given = NAN, .tubes = s->build.model.tube_count};
        r->weakest = (frame_weakest){.margin = NAN, .tube = "", .run = "", .governs = frame_governs_name(NULL, RBOW_FRAME_BY_NONE), .verdict = RBOW_SHORT};
        if (r->possible) r->weakest = frame_study_weakest(s, &set->lowest);
        r->verdict = r->possible ? verdicts[r->weakest.verdict == RBOW_HOLDS] : why_not(&c->verdicts[wall], s, c, wall);
        if (c->verdicts[wall].failed) return false;
    }
    return true;
}

/* The lowest margin of each part of the pick, run by run. */
static bool fill_margins(const frame_study *s, compare_state *c, frame_compare_row *parts)
{
    const frame_model *m = &s->build.model;
    frame_problem picked;
    rbow_frame_tube_result *tubes = malloc((m->tube_count + 1) * sizeof *tubes);
    rbow_frame_run_result whole;
    rbow_status status = frame_problem_copy(&picked, &s->problem) && tubes != NULL ? RBOW_OK : RBOW_NO_MEMORY;
    if (status == RBOW_OK) status = frame_choice_apply(&picked, &c->question, c->choice.pick.walls);
    for (size_t run = 0; run < m->run_count && status == RBOW_OK; run++) {
        status = frame_problem_check(&picked, run, tubes, &whole);
        for (size_t i = 0; i < m->tube_count && status == RBOW_OK; i++) {
            frame_weakest *w = &parts[c->part_of[i]].weakest;
            if (!(tubes[i].margin < w->margin)) continue;
            *w = (frame_weakest){tubes[i].margin, m->tubes[i].name, m->runs[run].name, frame_governs_name(s->problem.details, tubes[i].governs), RBOW_HOLDS};
        }
    }
    frame_problem_close(&picked);
    free(tubes);
    if (status == RBOW_NO_MEMORY) say("out of memory");
    else if (status != RBOW_OK) say("compare: the margins of the pick could not be worked out");
    return status == RBOW_OK;
}

static double wall_given(const frame_study *s, const compare_state *c, size_t part)
{
    const double wall = s->problem.tubes[c->first[part]].wall;
    for (size_t i = 0; i < s->problem.tube_count; i++)
        if (c->part_of[i] == part && (s->problem.tubes[i].wall < wall || s->problem.tubes[i].wall > wall)) return NAN;
    return wall;
}

static bool fill_pick(const frame_study *s, compare_state *c)
{
    const frame_choice_question *q = &c->question;
    frame_compare_row *parts = c->rows + q->wall_count;
    for (size_t part = 0; part < q->parts; part++) {
        const size_t wall = c->choice.pick.walls[part];
        const double weight = c->choice.weights[part * q->wall_count + wall];
        parts[part] = (frame_compare_row){
            .set = FRAME_SET_PICK, .part = frame_tube_part(&s->build.model.tubes[c->first[part]]), .wall = c->walls[wall], .weight = weight,
            .weight_change = weight - c->choice.given[part], .verdict = verdicts[1], .wall_given = wall_given(s, c, part),
            .possible = true,
            .weakest = {.margin = INFINITY, .tube = "", .run = "", .governs = frame_governs_name(NULL, RBOW_FRAME_BY_NONE), .verdict = RBOW_HOLDS}};
        for (size_t i = 0; i < s->problem.tube_count; i++) parts[part].tubes += c->part_of[i] == part;
    }
    return fill_margins(s, c, parts);
}

static frame_compare_set set_of(const frame_study *s, const frame_set *from)
{
    const bool known = from->walls != NULL && from->status == RBOW_OK;
    return (frame_compare_set){from->weight, known ? frame_study_weakest(s, &from->lowest) : (frame_weakest){.margin = NAN, .tube = "", .run = "", .governs = ""}, known};
}

static void take_next(const frame_study *s, compare_state *c)
{
    const frame_set *next = &c->choice.next;
    if (next->walls == NULL) return;
    c->whole.next = set_of(s, next);
    c->whole.next_walls = c->next_walls;
    for (size_t i = 0; i < c->question.parts; i++) c->next_walls[i] = c->walls[next->walls[i]];
}

static bool fill_rows(frame_study *s, compare_state *c)
{
    const size_t walls = c->question.wall_count, parts = c->choice.pick.walls != NULL ? c->question.parts : 0;
    c->rows = calloc(walls + parts + 1, sizeof *c->rows);
    c->verdicts = calloc(walls + 1, sizeof *c->verdicts);
    c->next_walls = calloc(c->question.parts + 1, sizeof *c->next_walls);
    if (c->rows == NULL || c->verdicts == NULL || c->next_walls == NULL || !fill_all(s, c)) {
        say("out of memory");
        return false;
    }
    if (parts > 0 && !fill_pick(s, c)) return false;
    c->whole = (frame_comparison){
        .rows = c->rows, .walls = walls, .parts = parts, .picked = parts > 0, .descended = c->choice.descended, .sets = c->choice.sets,
        .given = {.weight = given_weight(c), .known = c->fails == RBOW_OK},
        .pick = set_of(s, &c->choice.pick)};
    if (c->whole.given.known) c->whole.given.weakest = frame_study_weakest(s, &c->given);
    take_next(s, c);
    s->list = &frame_compare_list;
    s->rows = c->rows;
    s->count = walls + parts;
    return true;
}

/* ---- answering --------------------------------------------------------------------------------------------- */

static bool go_on(void *context, size_t done, size_t all)
{
    frame_study *s = context;
    s->progress.all = all;
    return frame_study_go_on(s, done);
}

static int answer(frame_study *s)
{
    compare_state *c = s->state;
    const size_t parts = c->question.parts;
    c->question = (frame_choice_question){.problem = &s->problem, .part_of = c->part_of, .parts = parts, .walls = c->walls,
                                          .wall_count = c->typed.count, .jobs = s->options->jobs, .go_on = go_on, .context = s};
    s->progress = progress_begin_of("walls of the frame", 1, "sets");
    c->fails = frame_problem_margin(&s->problem, INFINITY, &c->given);
    frame_choice_find(&c->choice, &c->question);
    progress_end(&s->progress);
    if (c->choice.failed || c->fails == RBOW_NO_MEMORY) say("out of memory");
    else if (c->choice.stopped) frame_study_say_stopped(s);
    else if (c->fails != RBOW_OK) say("compare: the frame as given could not be worked out");
    else if (c->choice.without_answer > 0)
        say("compare: %zu set%s of walls could not be worked out, and a lighter one may hold; no answer is given: leave some walls out",
            c->choice.without_answer, c->choice.without_answer == 1 ? "" : "s");
    if (c->choice.failed || c->choice.stopped || c->fails != RBOW_OK || c->choice.without_answer > 0 || !fill_rows(s, c)) return NO_VERDICT;
    return c->whole.picked ? ALL_HOLD : SOME_SHORT;
}

static void put_text(const frame_study *s, text *out, const screen *shown_on)
{
    const compare_state *c = s->state;
    frame_compare_text(out, &c->whole, shown_on);
}

static void put_page(const frame_study *s, text *out, const page_head *head)
{
    const compare_state *c = s->state;
    page_frame_compare(out, head, &c->whole);
}

int compare_frame(const options *o, const char *folder)
{
    compare_state c = {.walls = NULL};
    frame_study s = {.command = "compare", .title = "Walls of a frame", .options = o, .state = &c, .ask = ask, .answer = answer, .text = put_text, .page = put_page};
    const int status = frame_study_run(&s, folder);
    for (size_t i = 0; c.verdicts != NULL && i < c.typed.count; i++) text_free(&c.verdicts[i]);
    frame_choice_close(&c.choice);
    measures_free(&c.typed);
    free(c.walls);
    free(c.part_of);
    free(c.first);
    free(c.rows);
    free(c.next_walls);
    free(c.verdicts);
    return status;
}
