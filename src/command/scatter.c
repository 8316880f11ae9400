#define _POSIX_C_SOURCE 200809L
#include "command/commands.h"

#include "command/frame/frame_spread.h"
#include "program/case_check.h"
#include "program/case_columns.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/frame/frame_read.h"
#include "program/progress.h"
#include "program/report_file.h"
#include "program/screen_of.h"
#include "program/say.h"
#include "program/tolerances.h"
#include "report/page/scatter_page.h"
#include "report/text/scatter_text.h"
#include "study/scatter.h"
#include "table/messages.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct scatter_run_data {
    tolerances tolerances;
} scatter_run_data;

/* ---- the tolerance file ------------------------------------------------------------------------------ */

static const field *field_of(const scatter_run_data *s, const tolerance_row *given)
{
    return tolerance_field(&s->tolerances, given, NULL);
}

static bool tolerances_are_apart(const scatter_run_data *s)
{
    const tolerance_row *t = (const void *)s->tolerances.rows.kept;
    for (size_t i = 0; i < s->tolerances.rows.count; i++)
        for (size_t k = 0; k < i; k++)
            if (field_of(s, &t[i]) == field_of(s, &t[k])) {
                say("%s: column: '%s' stands in two rows", s->tolerances.file, t[i].column);
                return false;
            }
    if (s->tolerances.rows.count <= SCATTER_COLUMNS_MOST) return true;
    say("%s: more than %d columns", s->tolerances.file, (int)SCATTER_COLUMNS_MOST);
    return false;
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
    *ready = (tolerance){.column = case_parameter(f), .nominal = now, .shape = (tolerance_shape)t->shape};
    tolerance_sides(t, f, now, &ready->minus, &ready->plus);
    return true;
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
    const tolerance_row *t = (const void *)s->tolerances.rows.kept;
    size_t order[SCATTER_COLUMNS_MOST];
    rank_drivers(a, s->tolerances.rows.count, order);
    scatter_row answer = {
        .name = c->name,
        .margins = a->statistics,
        .refused_column = a->statistics.refused > 0 ? rbow_status_input(a->refusal) : "",
        .refused_why = a->statistics.refused > 0 ? rbow_status_text(a->refusal) : "",
        .nominal = nominal,
    };
    scatter_fill_bars(&answer, a->margins, a->finite);
    fill_drivers(&answer, a, t, order, s->tolerances.rows.count);
    const bool moves = a->finite > 0 && a->driver_share[order[0]] > 0;
    const size_t listed = run->options->drivers ? s->tolerances.rows.count : 1;
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
    const problem p = {c->member, c->material, run->materials.list, run->materials.count, c->details};
    const rbow_material *material = case_material(&run->materials, c, at, complaints);
    tolerance ready[SCATTER_COLUMNS_MOST];
    const tolerance_row *t = (const void *)s->tolerances.rows.kept;
    bool fine = material != NULL;
    for (size_t i = 0; i < s->tolerances.rows.count; i++) fine = tolerance_for(&t[i], c, at, &ready[i], complaints) && fine;
    if (!fine) return NO_VERDICT;

    progress shown = progress_begin(c->name, (size_t)run->options->samples);
    const scatter_question q = {ready, s->tolerances.rows.count, (size_t)run->options->samples,
                                (unsigned long)run->options->seed, run->options->jobs, go_on, &shown};
    scatter_answer a;
    rbow_margin nominal;
    const scatter_status status = scatter_run(&p, &q, &a);
    progress_end(&shown);
    if (status == SCATTER_NO_MEMORY) complaints->failed = true;
    if (status == SCATTER_STOPPED) say_stopped(c, at, &a, &q, complaints);
    if (status != SCATTER_OK) return NO_VERDICT;
    const bool nominal_known = problem_margin(&p, &p.member, &nominal) == RBOW_OK;
    add_answer(run, c, nominal_known ? nominal.margin : (double)NAN, &a, answers);
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
    page_scatter(&body, &head, (const void *)kept->kept, kept->count);
    return report_write(page, &head, &body);
}

int command_scatter(const options *o)
{
    static const field_list *const lists[] = {&case_list};
    scatter_run_data s = {.tolerances = {.lists = lists, .list_count = 1, .may_vary = case_is_of_member, .where = "the load cases"}};
    int status = NO_VERDICT;
    for (int i = 0; i < o->operand_count; i++)
        if (is_folder(o->operands[i])) return scatter_frame(o, o->operands[i]);
    if (o->scatter_of_given || o->samples_before > 0) {
        say("scatter: --of and --samples FROM:TO are for a frame: name its folder");
        return NO_VERDICT;
    }
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
    if (tolerances_open(&s.tolerances, o) && tolerances_are_apart(&s)) status = case_run_all(&run);
    tolerances_close(&s.tolerances);
    return status;
}
