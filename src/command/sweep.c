#include "command/commands.h"

#include "program/case_check.h"
#include "program/case_columns.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/screen_of.h"
#include "program/say.h"
#include "report/page/sweep_page.h"
#include "report/text/sweep_text.h"
#include "study/problem.h"
#include "study/range.h"

#include <math.h>
#include <string.h>

enum { VALUES_MOST = 100000 }; /* the answers of a case stay in memory until it is done */

typedef struct sweep {
    const field *columns[SWEEP_COLUMNS_MOST];
    range ranges[SWEEP_COLUMNS_MOST];
    size_t counts[SWEEP_COLUMNS_MOST];
    size_t count; /* of columns */
    sweep_columns results;
} sweep;

/* "COLUMN=FROM:TO:STEP" */
static bool read_vary(sweep *s, const char *given)
{
    const char *equals = strchr(given, '=');
    if (equals == NULL) {
        say("--vary: '%s' is not COLUMN=FROM:TO:STEP", given);
        return false;
    }
    const field *f = case_column("vary", given, (size_t)(equals - given));
    if (f == NULL) return false;
    double numbers[3];
    const char *at = equals + 1;
    for (int i = 0; i < 3; i++) {
        const size_t length = strcspn(at, ":");
        if ((at[length] == ':') != (i < 2)) {
            say("--vary: '%s' is not COLUMN=FROM:TO:STEP", given);
            return false;
        }
        if (!case_value("vary", f, at, length, &numbers[i])) return false;
        at += length + (at[length] == ':');
    }
    range *r = &s->ranges[s->count];
    *r = (range){numbers[0], numbers[1], numbers[2]};
    s->counts[s->count] = range_count(r);
    s->columns[s->count] = f;
    if (s->counts[s->count] == 0) say("--vary: '%s': the step must lead from FROM to TO", given);
    return s->counts[s->count++] > 0;
}

static bool read_sweep(sweep *s, const options *o)
{
    if (o->vary_count == 0) {
        say("sweep: name a column with --vary COLUMN=FROM:TO:STEP; see 'railbow help sweep'");
        return false;
    }
    for (int i = 0; i < o->vary_count; i++)
        if (!read_vary(s, o->vary[i])) return false;
    if (s->count == 2 && s->columns[0] == s->columns[1]) {
        say("--vary: '%s' is named twice", s->columns[0]->name);
        return false;
    }
    if (s->counts[0] * (s->count == 2 ? s->counts[1] : 1) > VALUES_MOST) {
        say("--vary: more than %d values for each case; make the step larger", (int)VALUES_MOST);
        return false;
    }
    sweep_columns_fill(&s->results, s->columns, s->count);
    return true;
}

/* Consecutive refusals for the same reason become one message. */
typedef struct refusals {
    rbow_status status; /* RBOW_OK: none */
    size_t count;
    double first[SWEEP_COLUMNS_MOST], last[SWEEP_COLUMNS_MOST];
} refusals;

static void say_values(text *out, const sweep *s, const double values[])
{
    for (size_t i = 0; i < s->count; i++) {
        text_format(out, "%s%s ", i > 0 ? ", " : "", s->columns[i]->name);
        case_value_say(out, s->columns[i], values[i]);
    }
}

static void refusals_say(refusals *r, const sweep *s, const source_line *at, text *complaints)
{
    if (r->status == RBOW_OK) return;
    text where = {0};
    text_put(&where, " (at ");
    say_values(&where, s, r->first);
    if (r->count > 1) {
        text_put(&where, " to ");
        say_values(&where, s, r->last);
        text_format(&where, ": %zu values", r->count);
    }
    text_put(&where, ")");
    case_refused(complaints, at, r->status, where.at != NULL ? where.at : "");
    text_free(&where);
    *r = (refusals){.status = RBOW_OK};
}

static void refusals_add(refusals *r, rbow_status status, const double values[])
{
    if (r->count++ == 0) memcpy(r->first, values, sizeof r->first);
    memcpy(r->last, values, sizeof r->last);
    r->status = status;
}

static sweep_row row_of(const sweep *s, const load_case *c, const rbow_member *tried, const double values[], const rbow_result *r)
{
    return (sweep_row){
        .name = c->name,
        .value = {values[0], values[1]},
        .result = *r,
        .now = {case_present(c, s->columns[0]), s->count > 1 ? case_present(c, s->columns[1]) : (double)NAN},
        .factor = tried->factor,
        .factor_yield = tried->factor_yield <= RBOW_UNSET ? tried->factor : tried->factor_yield,
    };
}

typedef struct sweep_tally { /* of one case */
    refusals refused;
    bool begun;
    int worst;
} sweep_tally;

static void answer_values(const case_run *run, const load_case *c, const double values[], size_t number, const source_line *at,
                          sweep_tally *tally, rows *answers, text *complaints)
{
    const sweep *s = run->context;
    problem p = {c->member, c->material, run->materials.list, run->materials.count};
    rbow_result r;
    for (size_t i = 0; i < s->count; i++) parameter_set(&p.member, case_parameter(s->columns[i]), values[i]);
    const rbow_status status = problem_check(&p, &p.member, &r);
    if (status != tally->refused.status) refusals_say(&tally->refused, s, at, complaints);
    if (status != RBOW_OK) {
        refusals_add(&tally->refused, status, values);
        tally->worst = NO_VERDICT;
        return;
    }
    sweep_row answer = row_of(s, c, &p.member, values, &r);
    answer.at = number;
    answer.begins = !tally->begun;
    tally->begun = true;
    rows_add(answers, &answer);
    if (r.verdict != RBOW_HOLDS && tally->worst == ALL_HOLD) tally->worst = SOME_SHORT;
}

static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    const sweep *s = run->context;
    bool varies_wall = false;
    for (size_t i = 0; i < s->count; i++) varies_wall = varies_wall || case_is_wall(s->columns[i]);
    if (!case_is_served(&run->materials, c, varies_wall, at, complaints)) return NO_VERDICT;
    sweep_tally tally = {.worst = ALL_HOLD};
    const size_t inner = s->count > 1 ? s->counts[1] : 1;
    for (size_t i = 0; i < s->counts[0] * inner; i++) {
        const double second = s->count > 1 ? range_at(&s->ranges[1], i % inner) : (double)NAN;
        const double values[SWEEP_COLUMNS_MOST] = {range_at(&s->ranges[0], i / inner), second};
        answer_values(run, c, values, i, at, &tally, answers, complaints);
    }
    refusals_say(&tally.refused, s, at, complaints);
    return tally.worst;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    const sweep *s = run->context;
    text t = {0}, words = {0};
    const screen shown_on = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    sweep_text(&t, (const void *)kept->kept, kept->count, s->columns, s->count, &shown_on);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static double value_at(const void *context, size_t column, size_t i)
{
    const sweep *s = context;
    return range_at(&s->ranges[column], i);
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    const sweep *s = run->context;
    text body = {0};
    const page_head head = report_head(run, page, status);
    const sweep_asked asked = {{s->columns[0], s->columns[1]}, s->count, {s->counts[0], s->counts[1]}, value_at, s, kept->list};
    page_sweep(&body, &head, (const void *)kept->kept, kept->count, &asked);
    return report_write(page, &head, &body);
}

int command_sweep(const options *o)
{
    sweep s = {0};
    if (!read_sweep(&s, o)) return NO_VERDICT;
    case_run run = {
        .options = o,
        .name = "sweep",
        .results = &s.results.list,
        .jobs = o->jobs,
        .context = &s,
        .answer = answer_case,
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}
