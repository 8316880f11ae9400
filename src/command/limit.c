#include "command/commands.h"

#include "command/frame/studies.h"
#include "program/case_check.h"
#include "program/case_columns.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/screen_of.h"
#include "program/say.h"
#include "report/page/limit_page.h"
#include "report/text/limit_text.h"
#include "study/limit.h"
#include "table/messages.h"

#include <math.h>
#include <string.h>

typedef struct limit_run {
    const field *column;
    limit_question question;
    limit_columns results;
    measure from, to; /* as typed; from.at NULL: the column's bound */
    column_unit unit;
} limit_run;

/* The ends of the range in the unit of the column. */
static bool set_ends(limit_run *l)
{
    limit_question *q = &l->question;
    if (l->from.at != NULL && !case_measure_in(&l->unit, &l->from, &q->from)) return false;
    if (!case_measure_in(&l->unit, &l->to, &q->to)) return false;
    if (q->to > q->from || q->to < q->from) return true;
    say("limit: --from and --to must differ");
    return false;
}

/* Bare ends are in the unit that the file names. */
static bool begin_file(const case_run *run, const char *file, const reader *from)
{
    limit_run *l = run->state;
    return l->to.has_unit || (column_unit_take(&l->unit, file, from) && set_ends(l));
}

static bool read_limit(limit_run *l, const options *o)
{
    if (o->find == NULL || o->to == NULL) {
        say("limit: name a column with --find and the end of its range with --to; see 'railbow help limit'");
        return false;
    }
    const field *f = case_column("find", o->find, strlen(o->find));
    if (f == NULL) return false;
    limit_question *q = &l->question;
    *q = (limit_question){.column = case_parameter(f), .margin = o->margin};
    q->from = isfinite(f->least) ? f->least : 0;
    l->column = f;
    l->from = (measure){.at = NULL};
    l->unit = (column_unit){.option = "to", .field = f, .unit = unit_at(f->dimension, 0)}; /* until the file names one */
    if (o->from != NULL && !case_measure("from", f, o->from, strlen(o->from), &l->from)) return false;
    if (!case_measure("to", f, o->to, strlen(o->to), &l->to)) return false;
    if (l->from.at != NULL && l->from.has_unit != l->to.has_unit) {
        say("limit: --from %s and --to %s: either both have their unit, or none", o->from, o->to);
        return false;
    }
    if (!set_ends(l)) return false;
    l->unit.unit = NULL;
    limit_columns_fill(&l->results, f);
    return true;
}

static void complain(const limit_run *l, const source_line *at, rbow_status status, text *complaints)
{
    text where = {0};
    text_format(&where, " (at the start of the range, %s ", l->column->name);
    case_value_say(&where, l->column, l->question.from);
    text_put(&where, "; begin elsewhere with --from)");
    case_refused(complaints, at, status, where.at != NULL ? where.at : "");
    text_free(&where);
}

/* A message, but not an error: the answer is valid. */
static void note_end(const limit_run *l, const source_line *at, const limit_answer *a, text *complaints)
{
    text value = {0};
    case_value_say(&value, l->column, a->ends_at);
    message_add(complaints, at->file, at->line, l->column->name, "the range ends at %s; beyond it: %s%s%s",
                text_string(&value, &complaints->failed),
                rbow_status_input(a->refusal), *rbow_status_input(a->refusal) != '\0' ? " " : "",
                rbow_status_text(a->refusal));
    text_free(&value);
}

/* Of the case as it is; NaN where the model refuses it (a wall that no row of the material serves). */
static double margin_now(const problem *p)
{
    rbow_margin answer;
    return problem_margin(p, &p->member, &answer) == RBOW_OK ? answer.margin : (double)NAN;
}

static void complain_of_range(const limit_run *l, const source_line *at, const limit_answer *a, double now, double margin,
                              text *complaints)
{
    text limit = {0}, value = {0};
    case_value_say(&limit, l->column, a->limit);
    case_value_say(&value, l->column, now);
    message_add(complaints, at->file, at->line, l->column->name, "the range is too wide to be searched: a limit of %s, but as it "
                "is, at %s, the case %s; narrow the range with --from and --to", text_string(&limit, &complaints->failed),
                text_string(&value, &complaints->failed), margin >= l->question.margin ? "holds" : "is SHORT");
    text_free(&limit);
    text_free(&value);
}

/* The directions that the case leaves open, as they are taken at the limit. */
static void take_clocks(const limit_run *l, const problem *p, limit_row *answer)
{
    rbow_result r;
    rbow_member m = p->member;
    parameter_set(&m, l->question.column, answer->found.limit);
    const bool fine = problem_check(p, &m, &r) == RBOW_OK;
    const double given[LIMIT_CLOCKS] = {m.bow_clock, m.miss_a_clock, m.miss_b_clock, m.eccentricity_clock};
    const double taken[LIMIT_CLOCKS] = {r.bow_clock_taken, r.miss_a_clock_taken, r.miss_b_clock_taken, r.eccentricity_clock_taken};
    for (int i = 0; i < LIMIT_CLOCKS; i++) answer->clock_taken[i] = fine && given[i] <= RBOW_ANY_CLOCK ? taken[i] : (double)NAN;
}

static void note_short(const limit_run *l, const source_line *at, double now, text *complaints)
{
    text value = {0};
    case_value_say(&value, l->column, now);
    message_add(complaints, at->file, at->line, l->column->name, "the present value, %s, lies outside the range, and the "
                "case is SHORT there: it has no room", text_string(&value, &complaints->failed));
    text_free(&value);
}

static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    const limit_run *l = run->context;
    const problem p = {c->member, c->material, run->materials.list, run->materials.count, c->details};
    limit_answer a;
    if (!case_is_served(&run->materials, c, case_is_wall(l->column), at, complaints)) return NO_VERDICT;
    const rbow_status status = limit_find(&p, &l->question, &a);
    if (status != RBOW_OK) {
        complaints->failed = complaints->failed || status == RBOW_NO_MEMORY;
        complain(l, at, status, complaints);
        return NO_VERDICT;
    }
    const double now = case_present(c, l->column), margin = margin_now(&p);
    if (limit_contradicts(&l->question, &a, now, margin)) {
        complain_of_range(l, at, &a, now, margin, complaints);
        return NO_VERDICT;
    }
    const bool goes_up = l->question.to > l->question.from;
    if (!isnan(a.ends_at)) note_end(l, at, &a, complaints);
    const bool before = goes_up ? now < l->question.from : now > l->question.from;
    const bool beyond = goes_up ? now > l->question.to : now < l->question.to;
    const bool short_now = (before || beyond) && margin < l->question.margin;
    const double room = goes_up ? a.limit - now : now - a.limit;
    if (short_now && room > 0) note_short(l, at, now, complaints);
    limit_row answer = {
        .name = c->name,
        .column = l->column->name,
        .found = a,
        .now = now,
        .room = short_now && room > 0 ? (double)NAN : room,
        .before = before,
        .short_now = short_now,
    };
    take_clocks(l, &p, &answer);
    rows_add(answers, &answer);
    return limit_is_past(&answer) ? SOME_SHORT : ALL_HOLD;
}

static limit_asked asked_by(const limit_run *l)
{
    return (limit_asked){l->column, l->question.from, l->question.to, l->question.margin};
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    const limit_asked asked = asked_by(run->context);
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    limit_text(&t, (const void *)kept->kept, kept->count, &asked, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    const limit_asked asked = asked_by(run->context);
    text body = {0};
    const page_head head = report_head(run, page, status);
    page_limit(&body, &head, (const void *)kept->kept, kept->count, &asked, kept->list);
    return report_write(page, &head, &body);
}

static int limit_cases(const options *o)
{
    limit_run l;
    if (!read_limit(&l, o)) return NO_VERDICT;
    case_run run = {
        .options = o,
        .name = "limit",
        .results = &l.results.list,
        .jobs = o->jobs,
        .context = &l,
        .state = &l,
        .begin = begin_file,
        .answer = answer_case,
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}

int command_limit(const options *o)
{
    const char *folder = frame_operand(o);
    return folder != NULL ? limit_frame(o, folder) : is_of_cases("limit", o) ? limit_cases(o) : NO_VERDICT;
}
