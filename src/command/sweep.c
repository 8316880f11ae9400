#include "command/commands.h"

#include "command/frame/studies.h"
#include "program/case_check.h"
#include "program/case_columns.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/screen_of.h"
#include "program/say.h"
#include "report/page/sweep_page.h"
#include "report/text/sweep_text.h"
#include "study/parallel.h"
#include "study/problem.h"
#include "study/range.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { VALUES_MOST = 100000, BLOCK = 256, TASK = 16 };

typedef struct sweep {
    const field *columns[SWEEP_COLUMNS_MOST];
    range ranges[SWEEP_COLUMNS_MOST];
    size_t counts[SWEEP_COLUMNS_MOST];
    size_t count; /* of columns */
    measure given[SWEEP_COLUMNS_MOST][3]; /* from, to, step as typed */
    column_unit units[SWEEP_COLUMNS_MOST];
    sweep_columns results;
} sweep;

static size_t values_of(const sweep *s)
{
    return s->counts[0] * (s->count > 1 ? s->counts[1] : 1);
}

/* The range in the unit of the column; its count does not depend on it. */
static bool set_range(sweep *s, size_t column, const char *given)
{
    double numbers[3];
    for (int i = 0; i < 3; i++)
        if (!case_measure_in(&s->units[column], &s->given[column][i], &numbers[i])) return false;
    range *r = &s->ranges[column];
    *r = (range){numbers[0], numbers[1], numbers[2]};
    s->counts[column] = range_count(r);
    if (s->counts[column] == 0) say("--vary: '%s': the step must lead from FROM to TO", given);
    return s->counts[column] > 0;
}

/* "COLUMN=FROM:TO:STEP" */
static bool read_vary(sweep *s, const char *given)
{
    const char *equals = strchr(given, '=');
    if (equals == NULL) return case_range_refuse(given);
    const field *f = case_column("vary", given, (size_t)(equals - given));
    if (f == NULL || !case_range(f, given, equals + 1, s->given[s->count])) return false;
    const unit *stand_in = unit_at(f->dimension, 0); /* until the file names one */
    s->columns[s->count] = f;
    s->units[s->count] = (column_unit){.option = "vary", .field = f, .unit = stand_in};
    const bool fine = set_range(s, s->count, given);
    s->units[s->count++].unit = NULL;
    return fine;
}

/* Bare values are in the unit that the file names. */
static bool begin_file(const case_run *run, const char *file, const reader *from)
{
    sweep *s = run->state;
    for (size_t i = 0; i < s->count; i++)
        if (!s->given[i][0].has_unit
            && !(column_unit_take(&s->units[i], file, from) && set_range(s, i, run->options->vary[i])))
            return false;
    return true;
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
    if (values_of(s) > VALUES_MOST) {
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
        .governs = governs_name(c->details, r->governs),
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

/* A block of values on its way through: worked out by several threads, told in their order by one. */
typedef struct block {
    const case_run *run;
    const load_case *given;
    size_t first, count;
    struct {
        rbow_member tried;
        rbow_status status;
        rbow_result result;
    } at[BLOCK];
} block;

static void values_at(const sweep *s, size_t i, double values[SWEEP_COLUMNS_MOST])
{
    const size_t inner = s->count > 1 ? s->counts[1] : 1;
    values[0] = range_at(&s->ranges[0], i / inner);
    values[1] = s->count > 1 ? range_at(&s->ranges[1], i % inner) : (double)NAN;
}

static void work_out(void *context, size_t task)
{
    block *b = context;
    const sweep *s = b->run->context;
    const problem p = {b->given->member, b->given->material, b->run->materials.list, b->run->materials.count, b->given->details};
    for (size_t i = task * TASK; i < (task + 1) * TASK && i < b->count; i++) {
        double values[SWEEP_COLUMNS_MOST];
        values_at(s, b->first + i, values);
        b->at[i].tried = p.member;
        for (size_t k = 0; k < s->count; k++) parameter_set(&b->at[i].tried, case_parameter(s->columns[k]), values[k]);
        b->at[i].status = problem_check(&p, &b->at[i].tried, &b->at[i].result);
    }
}

static void tell(const block *b, size_t i, const source_line *at, sweep_tally *tally, rows *answers, text *complaints)
{
    const sweep *s = b->run->context;
    const rbow_status status = b->at[i].status;
    double values[SWEEP_COLUMNS_MOST];
    values_at(s, b->first + i, values);
    if (status != tally->refused.status) refusals_say(&tally->refused, s, at, complaints);
    if (status != RBOW_OK) {
        refusals_add(&tally->refused, status, values);
        tally->worst = NO_VERDICT;
        return;
    }
    sweep_row answer = row_of(s, b->given, &b->at[i].tried, values, &b->at[i].result);
    answer.at = b->first + i;
    answer.begins = !tally->begun;
    tally->begun = true;
    rows_add(answers, &answer);
    if (b->at[i].result.verdict != RBOW_HOLDS && tally->worst == ALL_HOLD) tally->worst = SOME_SHORT;
}

/* Every value, block by block. Rows with few values are worked out beside each other, and need no threads here. */
static void answer_blocks(block *b, const source_line *at, sweep_tally *tally, rows *answers, text *complaints)
{
    const sweep *s = b->run->context;
    const size_t all = values_of(s);
    const int jobs = all >= PIPELINE_STREAMS ? b->run->options->jobs : 1;
    for (b->first = 0; b->first < all && !answers->stopped; b->first += BLOCK) {
        b->count = all - b->first < BLOCK ? all - b->first : BLOCK;
        parallel_for((b->count + TASK - 1) / TASK, jobs, work_out, b);
        for (size_t i = 0; i < b->count; i++) tell(b, i, at, tally, answers, complaints);
    }
    refusals_say(&tally->refused, s, at, complaints);
}

static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    const sweep *s = run->context;
    bool varies_wall = false;
    for (size_t i = 0; i < s->count; i++) varies_wall = varies_wall || case_is_wall(s->columns[i]);
    if (!case_is_served(&run->materials, c, varies_wall, at, complaints)) return NO_VERDICT;
    block *b = malloc(sizeof *b);
    if (b == NULL) {
        complaints->failed = true;
        return NO_VERDICT;
    }
    sweep_tally tally = {.worst = ALL_HOLD};
    b->run = run;
    b->given = c;
    answer_blocks(b, at, &tally, answers, complaints);
    free(b);
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

static int sweep_cases(const options *o)
{
    sweep s = {0};
    if (!read_sweep(&s, o)) return NO_VERDICT;
    case_run run = {
        .options = o,
        .name = "sweep",
        .results = &s.results.list,
        .jobs = o->jobs,
        .per_row = values_of(&s),
        .context = &s,
        .state = &s,
        .begin = begin_file,
        .answer = answer_case,
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}

int command_sweep(const options *o)
{
    const char *folder = frame_operand(o);
    return folder != NULL ? sweep_frame(o, folder) : is_of_cases("sweep", o) ? sweep_cases(o) : NO_VERDICT;
}
