#include "command/commands.h"

#include "command/case_run.h"
#include "command/checked.h"
#include "command/report.h"
#include "command/say.h"
#include "report/page_study.h"
#include "report/study_text.h"
#include "study/turn.h"

static int answer_case(const case_run *run, const place *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    const problem p = {c->member, c->material, run->materials.list, run->materials.count};
    turn_answer a;
    if (case_material(&run->materials, c, at, complaints) == NULL) return NO_VERDICT;
    const rbow_status status = turn_bow(&p, &a);
    if (status != RBOW_OK) {
        case_refused(complaints, at, status, "");
        return NO_VERDICT;
    }
    index_row answer = {
        .name = c->name,
        .margin_as_marked = a.as_marked,
        .best_clock = a.best_clock,
        .best_margin = a.best,
        .worst_clock = a.worst_clock,
        .worst_margin = a.worst,
        .marked_clock = c->member.bow_clock,
        .bow = c->member.bow,
    };
    if (run->options->report != NULL) turn_margins(&p, answer.round, INDEX_CLOCKS);
    rows_add(answers, &answer);
    return a.as_marked >= 0 ? ALL_HOLD : SOME_SHORT;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    (void)run;
    text t = {0};
    index_text(&t, (const void *)kept->kept, kept->count, *status == NO_VERDICT, out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    text body = {0};
    const page_head head = report_head(run, page, status);
    page_index(&body, &head, (const void *)kept->kept, kept->count);
    return report_write(page, &head, &body);
}

int command_index(const options *o)
{
    case_run run = {
        .options = o,
        .name = "index",
        .results = &index_list,
        .jobs = o->jobs,
        .answer = answer_case,
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}
