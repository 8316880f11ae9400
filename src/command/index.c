#include "command/commands.h"

#include "program/case_check.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/screen_of.h"
#include "report/page/orientation_page.h"
#include "report/text/orientation_text.h"
#include "study/orientation.h"

static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    const problem p = {c->member, c->material, run->materials.list, run->materials.count};
    orientation found;
    if (case_material(&run->materials, c, at, complaints) == NULL) return NO_VERDICT;
    const rbow_status status = orientation_find(&p, &found);
    if (status != RBOW_OK) {
        case_refused(complaints, at, status, "");
        return NO_VERDICT;
    }
    orientation_row answer = {
        .name = c->name,
        .found = found,
        .marked_clock = c->member.bow_clock,
        .bow = c->member.bow,
    };
    if (run->options->report != NULL) orientation_margins(&p, answer.round, ORIENTATION_CLOCKS);
    rows_add(answers, &answer);
    return found.margin_as_marked >= 0 ? ALL_HOLD : SOME_SHORT;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    orientation_text(&t, (const void *)kept->kept, kept->count, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    text body = {0};
    const page_head head = report_head(run, page, status);
    page_orientation(&body, &head, (const void *)kept->kept, kept->count);
    return report_write(page, &head, &body);
}

int command_index(const options *o)
{
    case_run run = {
        .options = o,
        .name = "index",
        .results = &orientation_list,
        .jobs = o->jobs,
        .answer = answer_case,
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}
