#include "command/commands.h"

#include "cases/case_table.h"
#include "program/case_check.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/screen_of.h"
#include "report/text/cells.h"
#include "report/text/working_text.h"
#include "table/text.h"

#include <math.h>

/* What no command could take is refused here too, so that the rows are those of check. A rigid surrounding is the default, and
 * no number. */
static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    listed_case answer = {.given = *(const load_case *)record, .line = (double)at->line};
    rbow_member *m = &answer.given.member;
    const rbow_material *material = case_material(&run->materials, &answer.given, at, complaints);
    if (material == NULL) return NO_VERDICT;
    *m = rbow_member_resolved(m, material);
    if (isinf(m->gap_stiffness)) m->gap_stiffness = NAN;
    rows_add(answers, &answer);
    return ALL_HOLD;
}

/* Every column differs from a record without values: all are printed. */
static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    for (size_t i = 0; i < kept->count; i++) {
        const load_case *c = (const void *)(kept->kept + i * kept->list->record_size);
        if (i > 0) text_char(&t, '\n');
        record_text(&t, &case_list, c, &s);
    }
    put_end(&t, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

int command_cases(const options *o)
{
    listed_columns listed;
    listed_columns_fill(&listed);
    case_run run = {
        .options = o,
        .name = "cases",
        .results = o->format == FORMAT_JSON ? &listed.list : &case_list,
        .jobs = o->jobs,
        .answer = answer_case,
        .write = write_text,
    };
    return case_run_all(&run);
}
