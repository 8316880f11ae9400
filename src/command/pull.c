#include "command/commands.h"

#include "cases/pull_table.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/screen_of.h"
#include "report/page/shop/shop_pages.h"
#include "report/text/pull_text.h"
#include "table/messages.h"

static bool answer_set(const pull_row *p, const rbow_pull *pull, int step, const source_line *at, rows *answers,
                       text *complaints)
{
    pulled_row answer = {.name = p->name, .set = pull->set, .step = step};
    const rbow_status status = rbow_pull_straight(pull, &answer.found);
    if (status != RBOW_OK) {
        message_add(complaints, at->file, at->line, rbow_status_input(status), "%s", rbow_status_text(status));
        return false;
    }
    rows_add(answers, &answer);
    return true;
}

static int answer_pull(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const pull_row *p = record;
    const rbow_material *material = materials_for(&run->materials, p->material, p->pull.wall, at, complaints);
    if (material == NULL) return NO_VERDICT;
    rbow_pull pull = p->pull;
    pull.elastic_modulus = material->elastic_modulus;
    pull.yield = material->yield;
    pull.weld_yield = material->weld_yield;
    const int steps = run->options->steps;
    bool fine = true;
    for (int i = 1; i <= (steps > 0 ? steps : 1) && fine; i++) {
        pull.set = steps > 0 && i < steps ? p->pull.set * i / steps : p->pull.set;
        fine = answer_set(p, &pull, steps > 0 ? i : 0, at, answers, complaints);
    }
    return fine ? ALL_HOLD : NO_VERDICT;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    pull_text(&t, (const void *)kept->kept, kept->count, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    text body = {0};
    page_head head = report_head(run, page, status);
    head.tolerance = "travel and pull to eight digits; readings and materials are as given";
    page_pull(&body, &head, (const void *)kept->kept, kept->count);
    return report_write(page, &head, &body);
}

int command_pull(const options *o)
{
    case_run run = {
        .options = o,
        .name = "pull",
        .list = &pull_list,
        .results = &pulled_list,
        .jobs = o->jobs,
        .per_row = (size_t)o->steps,
        .answer = answer_pull,
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}
