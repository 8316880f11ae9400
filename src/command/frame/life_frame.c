#include "command/frame/life_frame.h"

#include "cases/detail/life_table.h"
#include "program/detail/curves.h"
#include "program/exit_status.h"
#include "program/frame/answer_tables.h"
#include "program/frame/folder_study.h"
#include "program/frame/frame_solve.h"
#include "program/say.h"
#include "report/page/detail/life_page.h"
#include "report/text/life_text.h"
#include "study/parallel.h"
#include "table/messages.h"

#include <stdlib.h>

typedef struct question { /* one detail */
    rbow_detail detail;
    const rbow_sn_curve *curve;
    rbow_status status;
    rbow_life_result result, unforced;
    char remarks[LIFE_REMARKS_ROOM];
} question;

typedef struct life_data {
    const folder_study *study;
    curves curves;
    rbow_frame_life_row *runs;
    rbow_frame_tube *straight; /* the tubes without misses and gap */
    question *questions;
    life_row *rows;
    life_place *order;
    const char **bare;         /* tubes without a detail */
    size_t bare_count;
    bool lacking;              /* a detail has no number, or the table of curves is not whole */
} life_data;

static bool is_usual(const frame_detail *d)
{
    return *d->row->sn == '\0';
}

/* ---- before it is solved ----------------------------------------------------------------------------------- */

static bool make_room(life_data *l, const frame_build *b)
{
    const size_t count = b->details.count + 1;
    l->runs = malloc((b->model.run_count + 1) * sizeof *l->runs);
    l->straight = malloc((b->model.tube_count + 1) * sizeof *l->straight);
    l->questions = calloc(count, sizeof *l->questions);
    l->rows = calloc(count, sizeof *l->rows);
    l->order = malloc(count * sizeof *l->order);
    l->bare = malloc((b->model.tube_count + 1) * sizeof *l->bare);
    return l->runs != NULL && l->straight != NULL && l->questions != NULL && l->rows != NULL && l->order != NULL && l->bare != NULL;
}

static void set_runs(life_data *l, const frame_build *b, text *complaints)
{
    for (size_t i = 0; i < b->model.run_count; i++) {
        const frame_run_row *r = &b->model.runs[i];
        l->runs[i] = (rbow_frame_life_row){&r->run, r->cycles, r->cycle_low, r->cycle_high};
        if (!(r->cycle_high > r->cycle_low))
            message_add(complaints, b->tables.paths[FRAME_LOADS], r->line, rbow_status_input(RBOW_BAD_CYCLE_HIGH), "%s",
                        rbow_status_text(RBOW_BAD_CYCLE_HIGH));
    }
    for (size_t i = 0; i < b->model.tube_count; i++) {
        l->straight[i] = b->tubes[i];
        l->straight[i].miss_a = l->straight[i].miss_b = l->straight[i].gap = 0;
    }
}

static const char *usual_curve(const frame_build *b, const frame_detail *d, const rbow_detail *detail)
{
    const rbow_frame_tube *t = &b->tubes[d->tube];
    rbow_member m = rbow_member_default();
    m.od = t->od;
    m.wall = t->wall;
    m.length = frame_detail_length(d, &b->model.frame);
    m.weld_zone = t->weld_zone;
    m.dressed = t->dressed;
    return rbow_life_usual_curve(detail, &m);
}

static void set_questions(life_data *l, const frame_build *b, text *complaints)
{
    for (size_t i = 0; i < b->details.count; i++) {
        const frame_detail *d = &b->details.at[i];
        const source_line at = {b->detail_path, d->row->line};
        question *q = &l->questions[i];
        q->detail = frame_detail_on(d, &b->model.frame).detail;
        q->curve = curves_find(&l->curves, is_usual(d) ? usual_curve(b, d, &q->detail) : d->row->sn, &at, "sn", complaints);
    }
    for (size_t i = 0; i < b->model.tube_count; i++) {
        bool has = false;
        for (size_t k = 0; k < b->details.count && !has; k++) has = b->details.at[k].tube == i;
        if (!has) l->bare[l->bare_count++] = b->model.tubes[i].name;
    }
}

/* ---- lives ------------------------------------------------------------------------------------------------- */

static rbow_status life_in(const life_data *l, const rbow_frame *frame, size_t i, rbow_life_result *result)
{
    const question *q = &l->questions[i];
    rbow_frame_solver *solver;
    void *memory = frame_room(frame);
    rbow_status status = memory != NULL ? rbow_frame_open(frame, memory, &solver, NULL) : RBOW_NO_MEMORY;
    if (status == RBOW_OK)
        status = rbow_frame_life_of(solver, l->runs, l->study->build.model.run_count, l->study->build.details.at[i].tube, &q->detail, q->curve, result);
    free(memory);
    return status;
}

static void solve(void *context, size_t i)
{
    life_data *l = context;
    question *q = &l->questions[i];
    const frame_model *m = &l->study->build.model;
    rbow_frame unforced = m->frame;
    unforced.tubes = l->straight;
    q->status = life_in(l, &m->frame, i, &q->result);
    q->unforced = q->result;
    if (q->status == RBOW_OK && l->study->options->report != NULL && frame_has_fit(m)) q->status = life_in(l, &unforced, i, &q->unforced);
}

static void set_row(life_data *l, size_t i)
{
    const frame_build *b = &l->study->build;
    const frame_detail *d = &b->details.at[i];
    question *q = &l->questions[i];
    l->rows[i] = (life_row){
        .of = b->model.tubes[d->tube].name,
        .detail = d->row->name,
        .curve = q->curve->name,
        .most = b->model.runs[q->result.row].name,
        .remarks = q->remarks,
        .result = q->result,
        .sn = q->curve,
        .usual = is_usual(d),
        .forced = frame_has_fit(&b->model),
        .loads = b->model.run_count,
        .given = q->detail,
        .unforced = q->unforced,
    };
    life_remarks_write(q->remarks, &l->rows[i]);
}

/* Each detail that has no life is said, with its line. */
static void set_rows(life_data *l, text *complaints)
{
    const frame_build *b = &l->study->build;
    for (size_t i = 0; i < b->details.count; i++) {
        const rbow_status status = l->questions[i].status;
        if (status == RBOW_OK) {
            set_row(l, i);
            continue;
        }
        complaints->failed = complaints->failed || status == RBOW_NO_MEMORY;
        const char *input = rbow_status_input(status);
        message_add(complaints, b->detail_path, b->details.at[i].row->line, *input != '\0' ? input : NULL, "%s", rbow_status_text(status));
    }
    life_rank(l->rows, b->details.count, l->order);
}

/* Returned: whether nothing was complained of; the complaints are said. */
static bool is_fine(text *complaints)
{
    const bool fine = !complaints->failed && complaints->length == 0;
    if (complaints->failed) say("out of memory");
    else if (!fine) say_lines(complaints->at);
    text_free(complaints);
    return fine;
}

static int answer(folder_study *s)
{
    life_data *l = s->context;
    text complaints = {0};
    l->study = s;
    if (s->build.details.count == 0) {
        say("life: %s: has no details.csv: a table of details says which weld, hole, sleeve or place of which tube. Its columns are tube, detail, "
            "kind, at and the sizes; --details FILE names another; see 'railbow help life'", s->build.tables.folder);
        return NO_VERDICT;
    }
    if (!make_room(l, &s->build)) {
        say("out of memory");
        return NO_VERDICT;
    }
    set_runs(l, &s->build, &complaints);
    set_questions(l, &s->build, &complaints);
    if (!is_fine(&complaints)) return NO_VERDICT;
    parallel_for(s->build.details.count, s->options->jobs, solve, l);
    set_rows(l, &complaints);
    s->facts.curves = l->curves.file;
    s->facts.curves_sha256 = l->curves.sha256;
    l->lacking = l->curves.faulty || life_unknown(l->rows, s->build.details.count) > 0;
    return is_fine(&complaints) ? ALL_HOLD : NO_VERDICT;
}

/* ---- the answer -------------------------------------------------------------------------------------------- */

static life_told told_of(const folder_study *s)
{
    const life_data *l = s->context;
    return (life_told){l->rows, s->build.details.count, l->order, l->curves.file, l->bare, l->bare_count, true, false};
}

static void put_text(folder_study *s, text *out, const screen *seen)
{
    const life_told told = told_of(s);
    life_text(out, &told, seen);
}

static void put_page(folder_study *s, text *body, const page_head *head)
{
    const life_told told = told_of(s);
    page_life(body, head, &told);
}

static bool write_table(folder_study *s)
{
    const life_data *l = s->context;
    const answer_table t = {.list = &frame_life_list, .records = l->rows, .count = s->build.details.count};
    return answer_table_write(&s->out, &t, &s->facts);
}

int life_frame(const options *o, const char *folder)
{
    life_data l = {.study = NULL};
    folder_study s = {
        .command = "life",
        .title = "Life of details",
        .tolerance = life_accuracy,
        .context = &l,
        .answer = answer,
        .text = put_text,
        .write = write_table,
        .page = put_page,
    };
    int status = curves_open(&l.curves, o->curves) ? folder_study_run(&s, o, folder) : NO_VERDICT;
    if (l.lacking) status = NO_VERDICT; /* what is written is whole all the same */
    free(l.runs);
    free(l.straight);
    free(l.questions);
    free(l.rows);
    free(l.order);
    free(l.bare);
    curves_close(&l.curves);
    return status;
}
