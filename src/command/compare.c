#include "command/commands.h"

#include "command/case_run.h"
#include "command/checked.h"
#include "command/measure.h"
#include "command/report.h"
#include "command/say.h"
#include "report/page_study.h"
#include "report/study_text.h"
#include "study/compare.h"

#include <math.h>
#include <stdlib.h>

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
    for (size_t i = 0; t->at != NULL && i < diameters; i++)
        for (size_t k = 0; k < walls.count; k++)
            t->at[t->count++] = (tube){ods.count > 0 ? ods.at[i] : 0, walls.at[k]};
    measures_free(&ods);
    measures_free(&walls);
    return t->at != NULL;
}

static compare_row row_of(const load_case *c, const compared *a, text *verdict)
{
    compare_row answer = {
        .name = c->name, .od = a->od, .wall = a->wall, .weight = a->weight, .weight_change = a->weight_change,
        .stiffness_change = a->stiffness_change, .margin = NAN, .governs = GOVERNS_NONE, .pick = "",
    };
    if (a->status != RBOW_OK) {
        answer.outcome = COMPARE_NOT_POSSIBLE;
        const char *input = rbow_status_input(a->status);
        text_format(verdict, "not possible: %s%s%s", input, *input != '\0' ? " " : "", rbow_status_text(a->status));
        answer.verdict = verdict->at != NULL ? verdict->at : "not possible";
        return answer;
    }
    answer.margin = a->result.margin;
    answer.governs = a->result.governs;
    answer.outcome = a->result.verdict == RBOW_HOLDS ? COMPARE_HOLDS : COMPARE_SHORT;
    answer.verdict = verdict_words[a->result.verdict].word;
    return answer;
}

static int answer_case(const case_run *run, const place *at, const void *record, rows *answers, text *complaints)
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
    const size_t lightest = compare_lightest(tried, t->count);
    for (size_t i = 0; i < t->count; i++) {
        text verdict = {0};
        compare_row answer = row_of(c, &tried[i], &verdict);
        answer.tube = i;
        answer.tubes = t->count;
        if (i == lightest) answer.pick = "lightest";
        rows_add(answers, &answer);
        text_free(&verdict);
    }
    free(tried);
    return ALL_HOLD;
}

/* Some one tube holds in all cases. */
static bool one_holds(const compare_row *answers, size_t count)
{
    const size_t tubes_tried = count > 0 ? answers[0].tubes : 0;
    for (size_t t = 0; t < tubes_tried; t++) {
        bool all = true;
        for (size_t i = t; i < count; i += tubes_tried) all = all && answers[i].outcome == COMPARE_HOLDS;
        if (all) return true;
    }
    return false;
}

static bool write_answer(const case_run *run, output *out, const rows *kept, int *status)
{
    const compare_row *answers = (const void *)kept->kept;
    if (*status == ALL_HOLD && !one_holds(answers, kept->count)) *status = SOME_SHORT;
    if (out->format != FORMAT_TEXT) return rows_write(out, kept);
    text t = {0};
    compare_text(&t, answers, kept->count, run->options->ods == NULL, *status == NO_VERDICT, out->units, out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
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
        .results = &compare_list,
        .jobs = o->jobs,
        .hold = true,
        .context = &t,
        .answer = answer_case,
        .write = write_answer,
        .report = write_page,
    };
    if (tubes_open(&t, &with_walls)) status = case_run_all(&run);
    free(t.at);
    return status;
}
