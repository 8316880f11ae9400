#include "command/frame/studies.h"

#include "command/frame/frame_study.h"
#include "program/case_columns.h"
#include "program/exit_status.h"
#include "program/say.h"
#include "report/page/frame/frame_study_page.h"
#include "report/text/frame/frame_study_text.h"
#include "study/parallel.h"
#include "study/range.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { VALUES_MOST = 100000, BLOCK = 32 };

typedef struct tried {
    rbow_status status;
    frame_lowest lowest;
} tried;

typedef struct sweep_state {
    frame_place place;
    frame_column columns[SWEEP_COLUMNS_MOST];
    frame_target targets[SWEEP_COLUMNS_MOST];
    range ranges[SWEEP_COLUMNS_MOST];
    size_t counts[SWEEP_COLUMNS_MOST];
    size_t count;    /* of columns */
    size_t all;      /* values, or pairs of them */
    size_t first;    /* of the block that is tried */
    tried *tried;    /* all of them */
    const frame_study *study;
    sweep_columns results;
    frame_sweep_row *rows;
    frame_sweep_asked asked;
} sweep_state;

/* ---- asking ------------------------------------------------------------------------------------------------ */

static bool read_vary(const frame_study *s, sweep_state *w, const char *given)
{
    const char *equals = strchr(given, '=');
    const size_t i = w->count;
    frame_column *c = &w->columns[i];
    measure three[3];
    double numbers[3];
    if (equals == NULL) return case_range_refuse(given);
    w->count++;
    if (!frame_column_open(c, &s->build, &s->problem, &w->place, "vary", given, (size_t)(equals - given))
        || !case_range(c->field, given, equals + 1, three))
        return false;
    if (!three[0].has_unit && !frame_column_needs_unit(c, &s->build, &w->place)) return false;
    for (int k = 0; k < 3; k++)
        if (!case_measure_in(&c->unit, &three[k], &numbers[k])) return false;
    w->ranges[i] = (range){numbers[0], numbers[1], numbers[2]};
    w->counts[i] = range_count(&w->ranges[i]);
    w->targets[i] = (frame_target){c->at, c->count};
    if (w->counts[i] == 0) say("--vary: '%s': the step must lead from FROM to TO", given);
    return w->counts[i] > 0;
}

static bool ask(frame_study *s)
{
    sweep_state *w = s->state;
    const options *o = s->options;
    const field *fields[SWEEP_COLUMNS_MOST];
    if (o->vary_count == 0) {
        say("sweep: name a column with --vary COLUMN=FROM:TO:STEP; see 'railbow help sweep'");
        return false;
    }
    if (!frame_place_find(&w->place, &s->build, o, "sweep")) return false;
    w->all = 1;
    for (int i = 0; i < o->vary_count; i++) {
        if (!read_vary(s, w, o->vary[i])) return false;
        fields[i] = w->columns[i].field;
        w->all *= w->counts[i];
    }
    if (w->count == 2 && fields[0] == fields[1]) {
        say("--vary: '%s' is named twice", fields[0]->name);
        return false;
    }
    if (w->all > VALUES_MOST) {
        say("--vary: more than %d values; make the step larger", (int)VALUES_MOST);
        return false;
    }
    frame_sweep_columns_fill(&w->results, fields, w->count);
    s->asks_once = w->all == 1;
    return true;
}

/* ---- answering --------------------------------------------------------------------------------------------- */

static void values_at(const sweep_state *w, size_t i, double values[SWEEP_COLUMNS_MOST])
{
    const size_t inner = w->count > 1 ? w->counts[1] : 1;
    values[0] = range_at(&w->ranges[0], i / inner);
    values[1] = w->count > 1 ? range_at(&w->ranges[1], i % inner) : (double)NAN;
}

static void try_value(void *context, size_t i)
{
    sweep_state *w = context;
    double values[SWEEP_COLUMNS_MOST];
    tried *t = &w->tried[w->first + i];
    values_at(w, w->first + i, values);
    t->status = frame_try(&w->study->problem, w->targets, values, w->count, INFINITY, &t->lowest);
}

/* Returned: false where Ctrl-C ended it. */
static bool try_all(frame_study *s, sweep_state *w)
{
    bool goes_on = true;
    s->progress = progress_begin_of(w->place.name, w->all, "values");
    for (w->first = 0; w->first < w->all && goes_on; w->first += BLOCK) {
        const size_t left = w->all - w->first, count = left < BLOCK ? left : BLOCK;
        parallel_for(count, s->options->jobs, try_value, w);
        goes_on = frame_study_go_on(s, w->first + count) || w->first + count == w->all;
    }
    progress_end(&s->progress);
    if (!goes_on) frame_study_say_stopped(s);
    return goes_on;
}

static void put_values(text *out, const sweep_state *w, size_t at)
{
    double values[SWEEP_COLUMNS_MOST];
    values_at(w, at, values);
    for (size_t i = 0; i < w->count; i++) {
        text_format(out, "%s%s ", i > 0 ? ", " : "", w->columns[i].field->name);
        case_value_say(out, w->columns[i].field, values[i]);
    }
}

/* One message for values next to each other that are refused for one reason. */
static void say_refused(const frame_study *s, const sweep_state *w, size_t first, size_t count)
{
    text words = {0};
    bool lost = false;
    text_put(&words, "at ");
    put_values(&words, w, first);
    if (count > 1) {
        text_put(&words, " to ");
        put_values(&words, w, first + count - 1);
        text_format(&words, " (%zu values)", count);
    }
    text_put(&words, ": ");
    frame_study_put_status(&words, w->tried[first].status);
    frame_study_refuse(s, &w->place, &w->columns[0], "%s", text_string(&words, &lost));
    text_free(&words);
}

static int take_rows(frame_study *s, sweep_state *w)
{
    int status = ALL_HOLD;
    size_t same = 0; /* refusals in a row for one reason */
    for (size_t i = 0; i < w->all; i++) {
        if (w->tried[i].status != RBOW_OK) {
            s->refused++;
            same++;
            if (i + 1 < w->all && w->tried[i + 1].status == w->tried[i].status) continue;
            say_refused(s, w, i + 1 - same, same);
            same = 0;
            continue;
        }
        frame_sweep_row *r = &w->rows[s->count++];
        values_at(w, i, r->value);
        r->weakest = frame_study_weakest(s, &w->tried[i].lowest);
        r->at = i;
        if (r->weakest.verdict != RBOW_HOLDS) status = SOME_SHORT;
    }
    return s->refused > 0 ? NO_VERDICT : status;
}

static int answer(frame_study *s)
{
    sweep_state *w = s->state;
    w->study = s;
    w->tried = calloc(w->all + 1, sizeof *w->tried);
    w->rows = calloc(w->all + 1, sizeof *w->rows);
    if (w->tried == NULL || w->rows == NULL) {
        say("out of memory");
        return NO_VERDICT;
    }
    if (!try_all(s, w)) return NO_VERDICT;
    for (size_t i = 0; i < w->all; i++) {
        if (w->tried[i].status != RBOW_NO_MEMORY) continue;
        say("out of memory");
        return NO_VERDICT;
    }
    s->list = &w->results.list;
    s->rows = w->rows;
    w->asked = (frame_sweep_asked){
        .what = w->place.what,
        .name = w->place.name,
        .column = {w->columns[0].field, w->columns[1].field},
        .columns = w->count,
        .now = {w->columns[0].now, w->count > 1 ? w->columns[1].now : (double)NAN},
        .list = s->list,
        .judged = s->judged_count,
        .tubes = s->build.model.tube_count,
    };
    return take_rows(s, w);
}

static void put_text(const frame_study *s, text *out, const screen *shown_on)
{
    const sweep_state *w = s->state;
    frame_sweep_text(out, w->rows, s->count, &w->asked, shown_on);
}

static void put_page(const frame_study *s, text *out, const page_head *head)
{
    const sweep_state *w = s->state;
    page_frame_sweep(out, head, w->rows, s->count, &w->asked);
}

int sweep_frame(const options *o, const char *folder)
{
    sweep_state w = {.count = 0};
    frame_study s = {.command = "sweep", .title = "Sweep of a frame", .options = o, .state = &w, .picks = true, .ask = ask, .answer = answer, .text = put_text, .page = put_page};
    const int status = frame_study_run(&s, folder);
    for (size_t i = 0; i < w.count; i++) frame_column_close(&w.columns[i]);
    free(w.tried);
    free(w.rows);
    return status;
}
