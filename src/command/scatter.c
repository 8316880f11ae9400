#define _POSIX_C_SOURCE 200809L
#include "command/commands.h"

#include "program/case_check.h"
#include "program/case_columns.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/progress.h"
#include "program/report_file.h"
#include "program/screen_of.h"
#include "program/say.h"
#include "report/page/scatter_page.h"
#include "report/text/scatter_text.h"
#include "study/scatter.h"
#include "table/messages.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct scatter_run_data {
    const char *file;
    rows tolerances; /* of tolerance_row */
} scatter_run_data;

/* ---- the tolerance file ------------------------------------------------------------------------------ */

static const unit *unit_of_column(const field *f, const char *name)
{
    return *name == '\0' ? unit_shown(f->dimension, UNITS_US) : unit_find(f->dimension, name, strlen(name));
}

static bool is_percent(const tolerance_row *t)
{
    return strcmp(t->unit, "%") == 0;
}

static int keep_tolerance(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    (void)context;
    const tolerance_row *t = record;
    const field *f = field_find(&case_list, t->column);
    if (f == NULL || (f->kind != FIELD_NUMBER && f->kind != FIELD_EITHER)) {
        const char *nearest = f == NULL ? field_nearest(&case_list, t->column) : NULL;
        message_add(complaints, at->file, at->line, "column", "'%.40s' is not a number column of the load cases%s%s%s",
                    t->column, nearest != NULL ? "; did you mean '" : "", nearest != NULL ? nearest : "",
                    nearest != NULL ? "'?" : "");
        return NO_VERDICT;
    }
    if (!is_percent(t) && unit_of_column(f, t->unit) == NULL && (f->dimension != DIM_NONE || *t->unit != '\0')) {
        text names = {0};
        if (f->dimension != DIM_NONE) unit_say_names(&names, f->dimension);
        message_add(complaints, at->file, at->line, "unit", "'%.20s' is not a unit of %s: %s%s%%", t->unit, f->name,
                    names.at != NULL ? names.at : "", names.at != NULL ? ", or " : "leave it empty, or ");
        text_free(&names);
        return NO_VERDICT;
    }
    rows_add(answers, t);
    return ALL_HOLD;
}

static bool tolerances_are_apart(const scatter_run_data *s)
{
    const tolerance_row *t = (const void *)s->tolerances.kept;
    for (size_t i = 0; i < s->tolerances.count; i++)
        for (size_t k = 0; k < i; k++)
            if (field_find(&case_list, t[i].column) == field_find(&case_list, t[k].column)) {
                say("%s: column: '%s' stands in two rows", s->file, t[i].column);
                return false;
            }
    if (s->tolerances.count <= SCATTER_COLUMNS_MOST) return true;
    say("%s: more than %d columns", s->file, (int)SCATTER_COLUMNS_MOST);
    return false;
}

static bool tolerances_open(scatter_run_data *s, const options *o)
{
    output memory = {.format = FORMAT_TEXT};
    tolerance_row prototype;
    s->tolerances = rows_for(&memory, &tolerance_list);
    s->file = o->tolerances;
    if (o->tolerances == NULL) {
        say("scatter: name a file with --tolerances; see 'railbow help scatter'");
        return false;
    }
    field_defaults(&tolerance_list, &prototype);
    const pipeline p = {
        .list = &tolerance_list,
        .prototype = &prototype,
        .results = &tolerance_list,
        .jobs = 1,
        .out = &memory,
        .kept = &s->tolerances,
        .answer = keep_tolerance,
    };
    char *file[] = {(char *)o->tolerances};
    return pipeline_run(&p, file, 1) == ALL_HOLD && tolerances_are_apart(s);
}

/* ---- one case ---------------------------------------------------------------------------------------- */

/* Converts a row of the file to a tolerance of one case. Returned: false after a message. */
static bool tolerance_for(const tolerance_row *t, const load_case *c, const source_line *at, tolerance *ready, text *complaints)
{
    const field *f = field_find(&case_list, t->column);
    const double now = case_present(c, f);
    if (!isfinite(now)) {
        const char *word = field_text(f, c);
        message_add(complaints, at->file, at->line, f->name, "has no number to vary%s%s%s: give a number", word != NULL ? " ('" : "",
                    word != NULL ? word : "", word != NULL ? "')" : "");
        return false;
    }
    const unit *u = is_percent(t) ? NULL : unit_of_column(f, t->unit);
    const double scale = is_percent(t) ? fabs(now) / 100 : u != NULL ? u->factor : 1;
    *ready = (tolerance){
        .column = case_parameter(f),
        .nominal = now,
        .minus = t->minus * scale,
        .plus = t->plus * scale,
        .shape = (tolerance_shape)t->shape,
    };
    return true;
}

static void fill_bars(scatter_row *answer, const scatter_answer *a)
{
    if (a->finite == 0) return;
    answer->low = a->margins[0];
    answer->high = a->margins[a->finite - 1];
    double width = (answer->high - answer->low) / SCATTER_BARS;
    if (answer->low < 0 && answer->high > 0) { /* 0 is a boundary between bars */
        width = (answer->high - answer->low) / (SCATTER_BARS - 1);
        answer->low = width * floor(answer->low / width);
        answer->high = answer->low + SCATTER_BARS * width;
    }
    for (size_t i = 0; i < a->finite; i++) {
        const double at = width > 0 ? (a->margins[i] - answer->low) / width : 0;
        answer->bars[at < SCATTER_BARS ? (int)at : SCATTER_BARS - 1]++;
    }
}

/* Indices of the columns by falling share; columns with equal shares stay in the order of the file. */
static void rank_drivers(const scatter_answer *a, size_t count, size_t order[])
{
    for (size_t i = 0; i < count; i++) {
        size_t k = i;
        for (; k > 0 && a->driver_share[order[k - 1]] < a->driver_share[i]; k--) order[k] = order[k - 1];
        order[k] = i;
    }
}

static const char *column_of(const tolerance_row *t)
{
    return field_find(&case_list, t->column)->name;
}

/* Names and shares of the first columns that change the margin at all. */
static void fill_drivers(scatter_row *answer, const scatter_answer *a, const tolerance_row t[], const size_t order[], size_t count)
{
    for (size_t i = 0; i < count && i < SCATTER_DRIVERS && a->finite > 0 && a->driver_share[order[i]] > 0; i++) {
        answer->driver_names[i] = column_of(&t[order[i]]);
        answer->driver_shares[i] = a->driver_share[order[i]];
        answer->drivers++;
    }
}

static void add_answer(const case_run *run, const load_case *c, double nominal, const scatter_answer *a, rows *answers)
{
    const scatter_run_data *s = run->context;
    const tolerance_row *t = (const void *)s->tolerances.kept;
    size_t order[SCATTER_COLUMNS_MOST];
    rank_drivers(a, s->tolerances.count, order);
    scatter_row answer = {
        .name = c->name,
        .margins = a->statistics,
        .refused_column = a->statistics.refused > 0 ? rbow_status_input(a->refusal) : "",
        .refused_why = a->statistics.refused > 0 ? rbow_status_text(a->refusal) : "",
        .nominal = nominal,
    };
    fill_bars(&answer, a);
    fill_drivers(&answer, a, t, order, s->tolerances.count);
    const bool moves = a->finite > 0 && a->driver_share[order[0]] > 0;
    const size_t listed = run->options->drivers ? s->tolerances.count : 1;
    for (size_t i = 0; i < listed; i++) {
        answer.rank = (int)i;
        answer.driver = a->finite > 0 && (moves || listed > 1) ? column_of(&t[order[i]]) : "";
        answer.driver_share = *answer.driver != '\0' ? a->driver_share[order[i]] : (double)NAN;
        rows_add(answers, &answer);
    }
}

static bool go_on(void *context, size_t done)
{
    return progress_show(context, done);
}

static void say_stopped(const load_case *c, const source_line *at, const scatter_answer *a, const scatter_question *q,
                        text *complaints)
{
    text name = {0};
    text_quote(&name, c->name, strlen(c->name));
    message_add(complaints, at->file, at->line, NULL, "stopped in case %s after %.0f of %zu samples; no answer is given",
                name.at != NULL ? name.at : "", a->statistics.samples, q->samples);
    text_free(&name);
}

static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    if (progress_stopped()) return NO_VERDICT;
    const scatter_run_data *s = run->context;
    const problem p = {c->member, c->material, run->materials.list, run->materials.count};
    const rbow_material *material = case_material(&run->materials, c, at, complaints);
    tolerance ready[SCATTER_COLUMNS_MOST];
    const tolerance_row *t = (const void *)s->tolerances.kept;
    bool fine = material != NULL;
    for (size_t i = 0; i < s->tolerances.count; i++) fine = tolerance_for(&t[i], c, at, &ready[i], complaints) && fine;
    if (!fine) return NO_VERDICT;

    progress shown = progress_begin(c->name, (size_t)run->options->samples);
    const scatter_question q = {ready, s->tolerances.count, (size_t)run->options->samples,
                                (unsigned long)run->options->seed, run->options->jobs, go_on, &shown};
    scatter_answer a;
    rbow_margin nominal;
    const scatter_status status = scatter_run(&p, &q, &a);
    progress_end(&shown);
    if (status == SCATTER_NO_MEMORY) complaints->failed = true;
    if (status == SCATTER_STOPPED) say_stopped(c, at, &a, &q, complaints);
    if (status != SCATTER_OK) return NO_VERDICT;
    rbow_member_margin(&c->member, material, &nominal);
    add_answer(run, c, nominal.margin, &a, answers);
    free(a.margins);
    return a.shorts > 0 ? SOME_SHORT : ALL_HOLD;
}

static bool write_answer(const case_run *run, output *out, const rows *kept, int *status)
{
    if (progress_stopped()) return false;
    if (out->format != FORMAT_TEXT) return rows_write(out, kept);
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    scatter_text(&t, (const void *)kept->kept, kept->count, (unsigned)run->options->seed, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    text body = {0};
    const page_head head = report_head(run, page, status);
    page_scatter(&body, &head, (const void *)kept->kept, kept->count, kept->list);
    return report_write(page, &head, &body);
}

int command_scatter(const options *o)
{
    scatter_run_data s;
    int status = NO_VERDICT;
    case_run run = {
        .options = o,
        .name = "scatter",
        .results = &scatter_list,
        .jobs = 1, /* the threads share the samples of one case */
        .writes_whole = true,
        .context = &s,
        .answer = answer_case,
        .write = write_answer,
        .report = write_page,
    };
    if (tolerances_open(&s, o)) status = case_run_all(&run);
    rows_free(&s.tolerances);
    return status;
}
