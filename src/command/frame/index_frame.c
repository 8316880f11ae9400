#include "command/frame/frame_spread.h"

#include "cases/frame_spread_table.h"
#include "program/exit_status.h"
#include "program/frame/answer_tables.h"
#include "program/frame/folder_study.h"
#include "program/progress.h"
#include "program/say.h"
#include "report/page/frame/frame_spread_page.h"
#include "report/text/frame/frame_spread_text.h"
#include "study/frame_index.h"

#include <stdlib.h>

typedef struct index_data {
    frame_index_answer found;
    frame_index_row *rows;
    progress shown;
    size_t round; /* that the line tells of; 0 for none */
} index_data;

static bool go_on(void *context, size_t round, size_t done, size_t all)
{
    static const char *const names[] = {"first round", "second round", "third round", "a further round"};
    index_data *d = context;
    if (round != d->round) {
        if (d->round > 0) progress_end(&d->shown);
        d->shown = progress_begin_of(names[round < 4 ? round - 1 : 3], all, "tubes");
        d->round = round;
    }
    return progress_show(&d->shown, done);
}

static bool make_rows(index_data *d, const folder_study *s)
{
    const frame_index_answer *a = &d->found;
    d->rows = malloc((a->count + 1) * sizeof *d->rows);
    for (size_t i = 0; i < a->count && d->rows != NULL; i++) {
        const frame_turn *t = &a->turns[i];
        const frame_tube_row *tube = &s->build.model.tubes[t->tube];
        d->rows[i] = (frame_index_row){
            .tube = tube->name,
            .part = frame_tube_part(tube),
            .bow = tube->tube.bow,
            .marked_clock = t->marked,
            .best_clock = t->best,
            .gained = t->gained,
            .margin_as_marked = a->before.lowest.margin,
            .best_margin = a->after.lowest.margin,
        };
    }
    if (d->rows == NULL) say("out of memory");
    return d->rows != NULL;
}

static int answer(folder_study *s)
{
    index_data *d = s->context;
    const frame_index_question q = {s->options->jobs, go_on, d};
    const rbow_status status = frame_index_find(&s->problem, &q, &d->found);
    if (d->round > 0) progress_end(&d->shown);
    if (status != RBOW_OK) {
        if (status == RBOW_NO_MEMORY) say("out of memory");
        else say("%s: %s %s", s->build.tables.folder, rbow_status_input(status), rbow_status_text(status));
        return NO_VERDICT;
    }
    if (d->found.stopped) {
        say("%s: stopped in round %zu; no answer is given", s->build.tables.folder, d->found.rounds);
        return NO_VERDICT;
    }
    if (!make_rows(d, s)) return NO_VERDICT;
    return d->found.before.lowest.margin >= 0 ? ALL_HOLD : SOME_SHORT;
}

static frame_index_shown shown_of(const folder_study *s)
{
    const index_data *d = s->context;
    const frame_model *m = &s->build.model;
    const frame_lowest *before = &d->found.before, *after = &d->found.after;
    return (frame_index_shown){
        .rows = d->rows,
        .count = d->found.count,
        .rounds = d->found.rounds,
        .before = before->lowest.margin,
        .after = after->lowest.margin,
        .worst_before = before->lowest.tube < m->tube_count ? m->tubes[before->lowest.tube].name : "",
        .worst_after = after->lowest.tube < m->tube_count ? m->tubes[after->lowest.tube].name : "",
        .run_before = m->runs[before->run].name,
        .run_after = m->runs[after->run].name,
    };
}

static void put_text(folder_study *s, text *out, const screen *seen)
{
    const frame_index_shown told = shown_of(s);
    frame_index_text(out, &told, seen);
}

static void put_page(folder_study *s, text *body, const page_head *head)
{
    const frame_index_shown told = shown_of(s);
    page_frame_index(body, head, &told);
}

static bool write_tables(folder_study *s)
{
    const index_data *d = s->context;
    const answer_table tables[] = {{"bows", &frame_index_list, d->rows, d->found.count, NULL, NULL}};
    return answer_tables_write(&s->out, tables, 1, 0, NULL, &s->facts, 0);
}

int index_frame(const options *o, const char *folder)
{
    index_data d = {.rows = NULL};
    folder_study s = {
        .command = "index",
        .title = "Bows of a frame",
        .context = &d,
        .answer = answer,
        .text = put_text,
        .write = write_tables,
        .page = put_page,
    };
    const int status = folder_study_run(&s, o, folder);
    frame_index_free(&d.found);
    free(d.rows);
    return status;
}
