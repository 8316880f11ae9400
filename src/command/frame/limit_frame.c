#include "command/frame/studies.h"

#include "command/frame/frame_study.h"
#include "program/case_columns.h"
#include "program/exit_status.h"
#include "program/say.h"
#include "report/page/frame/frame_study_page.h"
#include "report/text/frame/frame_study_text.h"
#include "study/frame_limit.h"
#include "study/limit.h"

#include <math.h>
#include <string.h>

typedef struct limit_state {
    frame_place place;
    frame_column column;
    frame_limit_question question;
    frame_limit_columns results;
    frame_limit_row row;
    frame_limit_asked asked;
} limit_state;

/* ---- asking ------------------------------------------------------------------------------------------------ */

static bool read_ends(const frame_study *s, limit_state *l)
{
    const options *o = s->options;
    const field *f = l->column.field;
    frame_limit_question *q = &l->question;
    measure from = {.at = NULL}, to;
    l->column.unit.option = "to";
    if (o->from != NULL && !case_measure("from", f, o->from, strlen(o->from), &from)) return false;
    if (!case_measure("to", f, o->to, strlen(o->to), &to)) return false;
    if (from.at != NULL && from.has_unit != to.has_unit) {
        say("limit: --from %s and --to %s: either both have their unit, or none", o->from, o->to);
        return false;
    }
    if (!to.has_unit && !frame_column_needs_unit(&l->column, &s->build, &l->place)) return false;
    q->from = isfinite(f->least) ? f->least : 0;
    if (from.at != NULL && !case_measure_in(&l->column.unit, &from, &q->from)) return false;
    if (!case_measure_in(&l->column.unit, &to, &q->to)) return false;
    if (q->to > q->from || q->to < q->from) return true;
    say("limit: --from and --to must differ");
    return false;
}

static bool ask(frame_study *s)
{
    limit_state *l = s->state;
    const options *o = s->options;
    if (o->find == NULL || o->to == NULL) {
        say("limit: name a column with --find and the end of its range with --to; see 'railbow help limit'");
        return false;
    }
    if (!frame_place_find(&l->place, &s->build, o, "limit")) return false;
    if (!frame_column_open(&l->column, &s->build, &s->problem, &l->place, "find", o->find, strlen(o->find)) || !read_ends(s, l)) return false;
    l->question.target = (frame_target){l->column.at, l->column.count};
    l->question.margin = o->margin;
    l->question.jobs = o->jobs;
    l->question.go_on = frame_study_go_on;
    l->question.context = s;
    frame_limit_columns_fill(&l->results, l->column.field, l->place.table == FRAME_LOADS ? "loads" : l->place.what);
    return true;
}

/* ---- answering --------------------------------------------------------------------------------------------- */

static void say_start(const frame_study *s, const limit_state *l, rbow_status status)
{
    text words = {0};
    bool lost = false;
    frame_study_put_status(&words, status);
    text_put(&words, " (at the start of the range, ");
    case_value_say(&words, l->column.field, l->question.from);
    text_put(&words, "; begin elsewhere with --from)");
    frame_study_refuse(s, &l->place, &l->column, "%s", text_string(&words, &lost));
    text_free(&words);
}

/* A message, but not an error: the answer is valid. */
static void note_end(const frame_study *s, const limit_state *l, const limit_answer *a)
{
    text words = {0};
    bool lost = false;
    text_put(&words, "the range ends at ");
    case_value_say(&words, l->column.field, a->ends_at);
    text_put(&words, "; beyond it: ");
    frame_study_put_status(&words, a->refusal);
    frame_study_refuse(s, &l->place, &l->column, "%s", text_string(&words, &lost));
    text_free(&words);
}

static void say_contradiction(const frame_study *s, const limit_state *l, const limit_answer *a, double margin)
{
    text words = {0};
    bool lost = false;
    text_put(&words, "the range is too wide to be searched: a limit of ");
    case_value_say(&words, l->column.field, a->limit);
    text_put(&words, ", but as it is, at ");
    case_value_say(&words, l->column.field, l->column.now);
    text_format(&words, ", the frame %s; narrow the range with --from and --to", margin >= l->question.margin ? "holds" : "is SHORT");
    frame_study_refuse(s, &l->place, &l->column, "%s", text_string(&words, &lost));
    text_free(&words);
}

static void note_short(const frame_study *s, const limit_state *l)
{
    text words = {0};
    bool lost = false;
    text_put(&words, "the present value, ");
    case_value_say(&words, l->column.field, l->column.now);
    text_put(&words, ", lies outside the range, and the frame is SHORT there: it has no room");
    frame_study_refuse(s, &l->place, &l->column, "%s", text_string(&words, &lost));
    text_free(&words);
}

/* Given: margin  of the frame as it is */
static int take_row(frame_study *s, limit_state *l, const frame_limit_answer *a, double margin)
{
    const frame_limit_question *q = &l->question;
    const double now = l->column.now;
    const bool goes_up = q->to > q->from;
    const bool before = goes_up ? now < q->from : now > q->from, beyond = goes_up ? now > q->to : now < q->to;
    const bool short_now = (before || beyond) && margin < q->margin;
    const double room = goes_up ? a->found.limit - now : now - a->found.limit;
    if (!isnan(a->found.ends_at)) note_end(s, l, &a->found);
    if (short_now && room > 0) note_short(s, l);
    l->row = (frame_limit_row){
        .name = l->place.name,
        .column = l->column.field->name,
        .found = a->found,
        .now = now,
        .room = short_now && room > 0 ? (double)NAN : room,
        .weakest = frame_study_weakest(s, &a->gives_way),
        .before = before,
        .short_now = short_now,
    };
    l->asked = (frame_limit_asked){l->place.what, l->column.field, q->from, q->to, q->margin, &l->results.list};
    s->list = &l->results.list;
    s->rows = &l->row;
    s->count = 1;
    return frame_limit_is_past(&l->row) ? SOME_SHORT : ALL_HOLD;
}

static int answer(frame_study *s)
{
    limit_state *l = s->state;
    frame_limit_answer a;
    frame_lowest now;
    s->progress = progress_begin_of(l->place.name, FRAME_LIMIT_STEPS, "steps");
    const rbow_status status = frame_limit_find(&s->problem, &l->question, &a);
    const rbow_status as_is = frame_problem_margin(&s->problem, INFINITY, &now);
    progress_end(&s->progress);
    if (status == RBOW_NO_MEMORY || as_is == RBOW_NO_MEMORY) say("out of memory");
    else if (status == RBOW_NO_CONVERGENCE || as_is == RBOW_NO_CONVERGENCE)
        frame_study_refuse(s, &l->place, &l->column, "the frame cannot be worked out for some value of the range, or as it is; narrow the "
                                                     "range with --from and --to");
    else if (status != RBOW_OK) say_start(s, l, status);
    else if (a.stopped) frame_study_say_stopped(s);
    if (status != RBOW_OK || as_is == RBOW_NO_CONVERGENCE || as_is == RBOW_NO_MEMORY || a.stopped) return NO_VERDICT;
    const double margin = as_is == RBOW_OK ? now.lowest.margin : (double)NAN;
    const limit_question q = {.from = l->question.from, .to = l->question.to, .margin = l->question.margin};
    if (!isnan(l->column.now) && limit_contradicts(&q, &a.found, l->column.now, margin)) {
        say_contradiction(s, l, &a.found, margin);
        return NO_VERDICT;
    }
    return take_row(s, l, &a, margin);
}

static void put_text(const frame_study *s, text *out, const screen *shown_on)
{
    const limit_state *l = s->state;
    frame_limit_text(out, &l->row, &l->asked, shown_on);
}

static void put_page(const frame_study *s, text *out, const page_head *head)
{
    const limit_state *l = s->state;
    page_frame_limit(out, head, &l->row, &l->asked);
}

int limit_frame(const options *o, const char *folder)
{
    limit_state l = {.column = {.at = NULL}};
    frame_study s = {.command = "limit", .title = "Limit on a frame", .options = o, .state = &l, .ask = ask, .answer = answer, .text = put_text, .page = put_page};
    const int status = frame_study_run(&s, folder);
    frame_column_close(&l.column);
    return status;
}
