#include "command/commands.h"

#include "command/checked.h"
#include "command/say.h"
#include "report/check_text.h"

static int answer_case(const void *given, const place *at, const void *record, rows *answers, text *complaints)
{
    checked answer;
    const int status = check_case(given, record, at, &answer, complaints);
    if (status != NO_VERDICT) rows_add(answers, &answer.row);
    return status;
}

static bool write_text(output *out, const rows *kept, bool faults)
{
    text t = {0};
    check_text(&t, (const void *)kept->kept, kept->count, faults, out->units, out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}

static int check_files(const options *o, const materials *m, output *out)
{
    load_case prototype;
    rows kept = rows_for(out, &check_list);
    field_defaults(&case_list, &prototype);
    prototype.member.factor = o->factor;
    const pipeline p = {
        .list = &case_list,
        .prototype = &prototype,
        .results = &check_list,
        .jobs = o->jobs,
        .out = out,
        .kept = &kept,
        .context = m,
        .answer = answer_case,
    };
    int status = rows_begin(out, &check_list) ? pipeline_run(&p, o->operands, o->operand_count) : NO_VERDICT;
    if (out->format == FORMAT_TEXT && !write_text(out, &kept, status == NO_VERDICT)) status = NO_VERDICT;
    if (!rows_end(out)) status = NO_VERDICT;
    rows_free(&kept);
    return status;
}

int command_check(const options *o)
{
    output out;
    materials m;
    int status = NO_VERDICT;
    if (o->operand_count == 0) {
        say("check: name a file of load cases, or - for standard input; see 'railbow help check'");
        return NO_VERDICT;
    }
    if (materials_open(&m, o->materials) && output_open(&out, o)) {
        status = check_files(o, &m, &out);
        const bool keep = status != NO_VERDICT || out.answered; /* no answer is no reason to lose the old one */
        if (!output_close(&out, keep)) status = NO_VERDICT;
    }
    materials_close(&m);
    return status;
}
