#include "program/case_run.h"

#include "cases/case_table.h"
#include "cases/pull_table.h"
#include "cases/release_table.h"
#include "cases/shop/sight_table.h"
#include "cases/shop/sticks_table.h"
#include "program/case_check.h"
#include "program/exit_status.h"
#include "program/say.h"
#include "report/lines.h"
#include "study/member_details.h"

#include <stdlib.h>

static int answer_case(const case_run *run, const source_line *at, const load_case *c, rows *answers, text *complaints)
{
    if (!wanted_is(&run->wanted, c, at->line)) return ALL_HOLD;
    load_case changed = *c;
    changes_make(&run->changes, &changed);
    if (case_has_own_factor(&changed, run->options)) atomic_fetch_add(run->own_factors, 1);
    return run->answer(run, at, &changed, answers, complaints);
}

enum { GUESSED_LINES = 10000 }; /* of a file: the names in them are compared with those of details that are not met */

/* A case that is not wanted meets its details all the same. */
static int answer_detailed(const case_run *run, const source_line *at, const load_case *given, rows *answers, text *complaints)
{
    const size_t count = details_meet(&run->details, given->name, case_part(given));
    const detail_row **picked = malloc((count + 1) * sizeof *picked);
    if (at->line <= GUESSED_LINES) details_guess(&run->details, given->name, case_part(given));
    if (picked == NULL) {
        complaints->failed = true;
        return NO_VERDICT;
    }
    details_pick(&run->details, given->name, case_part(given), picked);
    const member_details of = {picked, count, run->details.file};
    load_case c = *given;
    c.details = &of;
    const int status = answer_case(run, at, &c, answers, complaints);
    free(picked);
    return status;
}

static int answer_row(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const case_run *run = context;
    if (run->list != NULL) return run->answer(run, at, record, answers, complaints);
    return run->details.count > 0 ? answer_detailed(run, at, record, answers, complaints) : answer_case(run, at, record, answers, complaints);
}

static bool begin_file(const void *context, const char *file, const reader *from)
{
    case_run *run = (case_run *)context;
    return changes_begin(&run->changes, file, from) && (run->begin == NULL || run->begin(run, file, from));
}

typedef union record_room { /* a record of any list that a command reads */
    load_case load_case;
    cut_row cut;
    pull_row pull;
    sight_reading_row reading;
    part_row part;
} record_room;

/* A text must not pass for an answer to the file as it stands. */
static bool write_changes(const case_run *run, output *out)
{
    text t = {0};
    for (size_t i = 0; i < run->options->set_count; i++) {
        text_put(&t, i == 0 ? "Not as in the file, but with " : ", ");
        put_printable(&t, run->options->sets[i]);
    }
    if (t.length > 0) text_put(&t, ":\n\n");
    const bool fine = output_text(out, &t);
    text_free(&t);
    return fine;
}

/* What was kept, as the format wants it. */
static bool write_kept(const case_run *run, output *out, const rows *kept, int *status)
{
    if (out->format == FORMAT_TEXT && !write_changes(run, out)) return false;
    return run->writes_whole || run->kept != NULL || out->format == FORMAT_TEXT ? run->write(run, out, kept, status) : rows_write(out, kept);
}

static bool end_rows(const case_run *run, output *out, const rows *kept)
{
    const size_t refused = run->refused.count + run->lost;
    if (out->format != FORMAT_JSON || run->beside == NULL) return rows_end(out, refused, NULL, NULL);
    rows beside = run->beside(run, out->units, kept);
    const bool fine = rows_end(out, refused, &beside, run->beside_name);
    rows_free(&beside);
    return fine;
}

static int run_files(case_run *run, output *out, output *page, bool *whole)
{
    const options *o = run->options;
    record_room prototype;
    const field_list *list = run->list != NULL ? run->list : &case_list;
    output memory = {.format = FORMAT_TEXT};
    run->facts.curves = run->curves;
    run->facts.curves_sha256 = run->curves_sha256;
    const bool keeps = run->writes_whole || page != NULL;
    output *rows_to = keeps ? &memory : out;
    run->keeps = keeps || out->format == FORMAT_TEXT;
    const field_list *results = run->keeps && run->kept != NULL ? run->kept : run->results;
    rows kept = rows_for(rows_to, results);
    field_defaults(list, &prototype);
    if (list == &case_list) prototype.load_case.member.factor = o->factor;
    const pipeline p = {
        .list = list,
        .prototype = &prototype,
        .results = results,
        .jobs = run->jobs,
        .per_row = run->per_row,
        .out = rows_to,
        .kept = &kept,
        .prefers = rows_to->format == FORMAT_JSON ? run->prefers : NULL,
        .context = run,
        .refused = &run->refused,
        .lost = &run->lost,
        .begin = run->begin != NULL || run->changes.count > 0 ? begin_file : NULL,
        .answer = answer_row,
    };
    run->refused.names_files = o->operand_count > 1;
    const field_list *shown = run->shown != NULL ? run->shown : run->results;
    const bool begun = rows_begin(out, shown, &run->facts);
    int status = begun ? pipeline_run(&p, o->operands, o->operand_count) : NO_VERDICT;
    if (memory.failed && run->lost == 0) run->lost = 1; /* memory ran out: rows are missing */
    if (run->lost == 0 && !wanted_all_found(&run->wanted)) status = NO_VERDICT;
    const bool read = begun && run->lost == 0; /* else a case may stand where nothing was read */
    if (read && !details_all_met(&run->details, "the load cases, neither as a case nor as a part")) status = NO_VERDICT;
    out->answered = out->answered || kept.count > 0;
    out->incomplete = status == NO_VERDICT;
    if (page != NULL) page->incomplete = out->incomplete;
    const bool all_kept = !memory.failed; /* rows may be missing where memory ran out: an answer over all rows would be wrong */
    *whole = all_kept && (!run->keeps || write_kept(run, out, &kept, &status));
    *whole = end_rows(run, out, &kept) && *whole;
    if (page != NULL && kept.count > 0 && all_kept) page->answered = run->report(run, page, &kept, status);
    if (!*whole) status = NO_VERDICT;
    rows_free(&kept);
    return status;
}

/* Reading into `out` with, if asked for, a page beside it: each whole or not at all. */
static int run_with_page(case_run *run, output *out)
{
    bool whole;
    output page;
    const char *to = run->options->report;
    if (to == NULL || run->report == NULL) {
        const int plain = run_files(run, out, NULL, &whole);
        out->answered = whole && (plain != NO_VERDICT || out->answered);
        return plain;
    }
    if (!output_open_beside(&page, out, run->options)) {
        out->answered = false;
        return NO_VERDICT;
    }
    int status = run_files(run, out, &page, &whole);
    out->answered = whole && (status != NO_VERDICT || out->answered);
    if (!output_close(&page, page.answered)) status = NO_VERDICT;
    return status;
}

int case_run_all(case_run *run)
{
    output out;
    int status = NO_VERDICT;
    atomic_size_t own_factors = 0;
    const options *o = run->options;
    run->own_factors = &own_factors;
    if (o->operand_count == 0) {
        say("%s: name a file of %ss, or - for standard input; see 'railbow help %s'", run->name,
            run->list != NULL ? run->list->what : case_list.what, run->name);
        return NO_VERDICT;
    }
    if (run->list == NULL && o->row_count > 0 && o->operand_count > 1) {
        say("%s: --row names a line of one file: name one file", run->name);
        return NO_VERDICT;
    }
    if (wanted_open(&run->wanted, o) && changes_open(&run->changes, o) && materials_open(&run->materials, o->materials)
        && details_open(&run->details, o->details, &case_detail_list) && facts_fill(&run->facts, o, &run->materials) && output_open(&out, o)) {
        status = run_with_page(run, &out);
        if (!output_close(&out, out.answered)) status = NO_VERDICT; /* no answer: the old one stays */
    }
    changes_close(&run->changes);
    wanted_close(&run->wanted);
    say_own_factors(atomic_load(&own_factors), o);
    facts_free(&run->facts);
    details_close(&run->details);
    materials_close(&run->materials);
    return status;
}

bool rows_write(output *out, const rows *kept)
{
    rows written = rows_for(out, kept->list);
    for (size_t i = 0; i < kept->count; i++) rows_add(&written, kept->kept + i * kept->list->record_size);
    const bool fine = output_text(out, &written.written);
    rows_free(&written);
    return fine;
}
