#include "command/commands.h"

#include "cases/case_words.h"
#include "cases/compare_sum.h"
#include "command/frame/studies.h"
#include "program/case_check.h"
#include "program/case_columns.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/screen_of.h"
#include "program/say.h"
#include "report/page/compare_page.h"
#include "report/text/compare_text.h"
#include "study/compare.h"

#include <stdlib.h>
#include <string.h>

typedef struct tubes {
    tube *at;
    size_t count;
    measures ods, walls; /* as typed */
    column_unit od_unit, wall_unit;
} tubes;

/* Every outside diameter with every wall, in the units of their columns. Returned: false after a message. */
static bool set_tubes(tubes *t)
{
    const size_t diameters = t->ods.count > 0 ? t->ods.count : 1;
    t->count = 0;
    for (size_t i = 0; i < diameters; i++)
        for (size_t k = 0; k < t->walls.count; k++) {
            tube *next = &t->at[t->count++];
            *next = (tube){.od = 0};
            if (t->ods.count > 0 && !case_measure_in(&t->od_unit, &t->ods.at[i], &next->od)) return false;
            if (!case_measure_in(&t->wall_unit, &t->walls.at[k], &next->wall)) return false;
        }
    return true;
}

/* Bare sizes are in the unit that the file names; the stock walls have theirs. */
static bool begin_file(const case_run *run, const char *file, const reader *from)
{
    tubes *t = run->state;
    if (t->ods.count > 0 && !t->ods.have_units && !column_unit_take(&t->od_unit, file, from)) return false;
    if (!t->walls.have_units && !column_unit_take(&t->wall_unit, file, from)) return false;
    return set_tubes(t);
}

static bool tubes_open(tubes *t, const options *o)
{
    *t = (tubes){.od_unit = {.option = "ods", .field = case_column("ods", "od", 2)},
                 .wall_unit = {.option = "walls", .field = case_column("walls", "wall", 4)}};
    if (!measures_read(&t->walls, "walls", o->walls != NULL ? o->walls : options_stock_walls, DIM_LENGTH)) return false;
    if (o->ods != NULL && !measures_read(&t->ods, "ods", o->ods, DIM_LENGTH)) return false;
    t->at = malloc((t->ods.count + 1) * t->walls.count * sizeof *t->at);
    if (t->at == NULL) say("out of memory");
    return t->at != NULL;
}

static void tubes_close(tubes *t)
{
    measures_free(&t->ods);
    measures_free(&t->walls);
    free(t->at);
}

static const char *verdict_of(const compared *tried, text *words)
{
    if (tried->status == RBOW_OK) return verdict_words[tried->result.verdict].word;
    const char *input = rbow_status_input(tried->status);
    text_format(words, "not possible: %s%s%s", input, *input != '\0' ? " " : "", rbow_status_text(tried->status));
    return words->at != NULL ? words->at : "not possible";
}

static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    const tubes *t = run->context;
    const problem p = {c->member, c->material, run->materials.list, run->materials.count, c->details};
    if (case_material(&run->materials, c, at, complaints) == NULL) return NO_VERDICT;
    compared *tried = malloc(t->count * sizeof *tried);
    if (tried == NULL) {
        complaints->failed = true;
        return NO_VERDICT;
    }
    for (size_t i = 0; i < t->count; i++) tried[i] = compare_tube(&p, t->at[i]);
    for (size_t i = 0; i < t->count; i++) {
        text verdict = {0};
        const compare_row answer = {
            .name = c->name,
            .tried = tried[i],
            .governs = governs_name(c->details, tried[i].result.governs),
            .verdict = verdict_of(&tried[i], &verdict),
            .part = case_part(c),
            .tube = i,
            .tubes = t->count,
        };
        rows_add(answers, &answer);
        complaints->failed = complaints->failed || verdict.failed;
        text_free(&verdict);
    }
    free(tried);
    return complaints->failed ? NO_VERDICT : ALL_HOLD;
}

/* Whether at least one tube holds in all cases. */
static bool one_holds(const compare_row *answers, size_t count)
{
    return count > 0 && lightest_tube(answers, count) < answers[0].tubes;
}

static void say_unlike_parts(const compare_row *answers, size_t count)
{
    size_t unlike = 0;
    const compare_row *first = NULL;
    for (size_t i = 0; i < count; i++) {
        if (!answers[i].unlike) continue;
        unlike++;
        if (first == NULL) first = &answers[i];
    }
    if (first == NULL) return;
    text name = {0};
    text_quote(&name, first->part, strlen(first->part));
    say("part %s: case '%.60s' differs in length, material or tube from the other cases of this part, although a part is one tube; its weight "
        "is that of the heaviest (%zu such case%s in all)", name.at != NULL ? name.at : "", first->name, unlike,
        unlike == 1 ? "" : "s");
    text_free(&name);
}

static bool write_answer(const case_run *run, output *out, const rows *kept, int *status)
{
    compare_row *answers = (void *)kept->kept;
    if (!compare_parts(answers, kept->count)) {
        say("out of memory");
        return false;
    }
    say_unlike_parts(answers, kept->count);
    if (*status == ALL_HOLD && !one_holds(answers, kept->count)) *status = SOME_SHORT;
    if (out->format != FORMAT_TEXT) {
        rows shown = *kept;
        shown.list = &compare_list;
        return rows_write(out, &shown);
    }
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    compare_text(&t, answers, kept->count, run->options->ods == NULL, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    text body = {0};
    const page_head head = report_head(run, page, status);
    page_compare(&body, &head, (const void *)kept->kept, kept->count, run->options->ods == NULL);
    return report_write(page, &head, &body);
}

static int compare_cases(const options *o)
{
    tubes t;
    int status = NO_VERDICT;
    case_run run = {
        .options = o,
        .name = "compare",
        .results = &compare_kept_list,
        .shown = &compare_list,
        .jobs = o->jobs,
        .writes_whole = true,
        .context = &t,
        .state = &t,
        .begin = begin_file,
        .answer = answer_case,
        .write = write_answer,
        .report = write_page,
    };
    if (tubes_open(&t, o)) status = case_run_all(&run);
    tubes_close(&t);
    return status;
}

int command_compare(const options *o)
{
    const char *folder = frame_operand(o);
    return folder != NULL ? compare_frame(o, folder) : is_of_cases("compare", o) ? compare_cases(o) : NO_VERDICT;
}
