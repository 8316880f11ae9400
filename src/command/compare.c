#include "command/commands.h"

#include "cases/case_words.h"
#include "cases/compare_sum.h"
#include "program/case_check.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/measure.h"
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
} tubes;

static bool tubes_open(tubes *t, const options *o)
{
    measures ods = {0}, walls = {0};
    bool fine = measures_read(&walls, "walls", o->walls, DIM_LENGTH)
        && (o->ods == NULL || measures_read(&ods, "ods", o->ods, DIM_LENGTH));
    const size_t diameters = ods.count > 0 ? ods.count : 1;
    t->at = fine ? malloc(diameters * walls.count * sizeof *t->at) : NULL;
    if (fine && t->at == NULL) say("out of memory");
    for (size_t i = 0; t->at != NULL && i < diameters; i++)
        for (size_t k = 0; k < walls.count; k++)
            t->at[t->count++] = (tube){ods.count > 0 ? ods.at[i] : 0, walls.at[k]};
    measures_free(&ods);
    measures_free(&walls);
    return t->at != NULL;
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
    const problem p = {c->member, c->material, run->materials.list, run->materials.count};
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
            .verdict = verdict_of(&tried[i], &verdict),
            .part = case_part(c),
            .tube = i,
            .tubes = t->count,
        };
        rows_add(answers, &answer);
        text_free(&verdict);
    }
    free(tried);
    return ALL_HOLD;
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
    say("part %s: case '%.60s' has another length, material or tube than other cases of the part, which is one tube; its weight "
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

int command_compare(const options *o)
{
    tubes t = {0};
    int status = NO_VERDICT;
    options with_walls = *o;
    if (with_walls.walls == NULL) with_walls.walls = options_stock_walls;
    case_run run = {
        .options = o,
        .name = "compare",
        .results = &compare_kept_list,
        .shown = &compare_list,
        .jobs = o->jobs,
        .writes_whole = true,
        .context = &t,
        .answer = answer_case,
        .write = write_answer,
        .report = write_page,
    };
    if (tubes_open(&t, &with_walls)) status = case_run_all(&run);
    free(t.at);
    return status;
}
