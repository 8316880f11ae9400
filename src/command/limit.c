#include "command/commands.h"

#include "command/case_run.h"
#include "command/checked.h"
#include "command/say.h"
#include "report/study_text.h"
#include "study/limit.h"

#include <math.h>
#include <string.h>

typedef struct limit_run {
    const field *column;
    limit_question question;
    limit_columns results;
} limit_run;

static bool read_limit(limit_run *l, const options *o)
{
    if (o->find == NULL || o->to == NULL) {
        say("limit: name a column with --find and where to end with --to; see 'railbow help limit'");
        return false;
    }
    const field *f = case_column("find", o->find, strlen(o->find));
    if (f == NULL) return false;
    limit_question *q = &l->question;
    *q = (limit_question){.column = f->offset - offsetof(load_case, member), .margin = o->margin};
    q->from = isfinite(f->least) ? f->least : 0;
    if (o->from != NULL && !case_value("from", f, o->from, strlen(o->from), &q->from)) return false;
    if (!case_value("to", f, o->to, strlen(o->to), &q->to)) return false;
    if (!(q->to > q->from || q->to < q->from)) {
        say("limit: --from and --to must differ");
        return false;
    }
    l->column = f;
    limit_columns_fill(&l->results, f);
    return true;
}

static void put_value(text *out, const field *f, double value)
{
    const unit *u = unit_shown(f->dimension, UNITS_US);
    text_format(out, "%.6g%s%s", u != NULL ? unit_from_own(u, value) : value, u != NULL ? " " : "", u != NULL ? u->name : "");
}

static void complain(const limit_run *l, const place *at, rbow_status status, text *complaints)
{
    text value = {0};
    put_value(&value, l->column, l->question.from);
    message_add(complaints, at->file, at->line, rbow_status_input(status), "%s (at the start, %s %s; --from begins "
                "elsewhere)", rbow_status_text(status), l->column->name, value.at);
    text_free(&value);
}

/* Said, but no fault: the answer stands. */
static void note_end(const limit_run *l, const place *at, const limit_answer *a, text *complaints)
{
    text value = {0};
    put_value(&value, l->column, a->ends_at);
    message_add(complaints, at->file, at->line, l->column->name, "the range ends at %s: beyond it %s %s", value.at,
                rbow_status_input(a->refusal), rbow_status_text(a->refusal));
    text_free(&value);
}

static int answer_case(const case_run *run, const place *at, const load_case *c, rows *answers, text *complaints)
{
    const limit_run *l = run->context;
    const problem p = {c->member, c->material, run->materials.list, run->materials.count};
    limit_answer a;
    if (materials_for(&run->materials, c->material, c->member.wall, at, complaints) == NULL) return NO_VERDICT;
    const rbow_status status = limit_find(&p, &l->question, &a);
    if (status != RBOW_OK) {
        complain(l, at, status, complaints);
        return NO_VERDICT;
    }
    if (!isnan(a.ends_at)) note_end(l, at, &a, complaints);
    const double now = case_present(c, l->column);
    const limit_row answer = {
        .name = c->name,
        .column = l->column->name,
        .limit = a.limit,
        .now = now,
        .room = a.limit - now,
        .state = (int)a.state,
    };
    rows_add(answers, &answer);
    const bool past = l->question.to > l->question.from ? answer.room < 0 : answer.room > 0;
    return a.state == LIMIT_ALREADY || (a.state == LIMIT_FOUND && past) ? SOME_SHORT : ALL_HOLD;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    const limit_run *l = run->context;
    text t = {0};
    limit_text(&t, (const void *)kept->kept, kept->count, l->column, l->question.margin, *status == NO_VERDICT,
               out->units, out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}

int command_limit(const options *o)
{
    limit_run l;
    if (!read_limit(&l, o)) return NO_VERDICT;
    case_run run = {
        .options = o,
        .name = "limit",
        .results = &l.results.list,
        .jobs = o->jobs,
        .context = &l,
        .answer = answer_case,
        .write = write_text,
    };
    return case_run_all(&run);
}
