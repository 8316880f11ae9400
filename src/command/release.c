#include "command/commands.h"

#include "cases/release_table.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/screen_of.h"
#include "report/page/shop/shop_pages.h"
#include "report/text/release_text.h"
#include "table/messages.h"

static int answer_cut(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const cut_row *c = record;
    rbow_cut cut = c->cut;
    release_row answer = {.name = c->name, .basis = cut.turned >= 0 ? BASIS_TURN_READ : BASIS_LEAST_ENERGY};
    const rbow_material *material = materials_for(&run->materials, c->material, cut.wall, at, complaints);
    if (material == NULL) return NO_VERDICT;
    cut.elastic_modulus = material->elastic_modulus;
    const rbow_status status = rbow_release(&cut, &answer.found);
    if (status != RBOW_OK) {
        message_add(complaints, at->file, at->line, rbow_status_input(status), "%s", rbow_status_text(status));
        return NO_VERDICT;
    }
    answer.yield_use = answer.found.fit_stress / material->yield;
    rows_add(answers, &answer);
    return ALL_HOLD;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    release_text(&t, (const void *)kept->kept, kept->count, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    text body = {0};
    page_head head = report_head(run, page, status);
    head.tolerance = "the closed forms to nine digits; readings and materials are as given";
    page_release(&body, &head, (const void *)kept->kept, kept->count);
    return report_write(page, &head, &body);
}

int command_release(const options *o)
{
    case_run run = {
        .options = o,
        .name = "release",
        .list = &cut_list,
        .results = &release_list,
        .jobs = o->jobs,
        .answer = answer_cut,
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}
