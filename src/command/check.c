#include "command/commands.h"

#include "command/case_run.h"
#include "command/checked.h"
#include "command/say.h"
#include "report/check_text.h"

static int answer_case(const case_run *run, const place *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    checked answer;
    const int status = check_case(&run->materials, c, at, &answer, complaints);
    if (status != NO_VERDICT) rows_add(answers, &answer.row);
    return status;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    (void)run;
    text t = {0};
    check_text(&t, (const void *)kept->kept, kept->count, *status == NO_VERDICT, out->units, out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}

int command_check(const options *o)
{
    case_run run = {
        .options = o,
        .name = "check",
        .results = &check_list,
        .jobs = o->jobs,
        .answer = answer_case,
        .write = write_text,
    };
    return case_run_all(&run);
}
