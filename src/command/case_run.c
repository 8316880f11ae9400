#include "command/case_run.h"

#include "command/measure.h"
#include "command/say.h"
#include "command/shop_table.h"

#include <float.h>
#include <math.h>
#include <string.h>

static int answer_row(const void *context, const place *at, const void *record, rows *answers, text *complaints)
{
    const case_run *run = context;
    return run->answer(run, at, record, answers, complaints);
}

typedef union record_room { /* a record of any list that a command reads */
    load_case load_case;
    cut_row cut;
    pull_row pull;
} record_room;

/* What was kept, as the format wants it. */
static bool write_kept(const case_run *run, output *out, const rows *kept, int *status)
{
    return run->hold || out->format == FORMAT_TEXT ? run->write(run, out, kept, status) : rows_write(out, kept);
}

static int run_files(case_run *run, output *out, output *page, bool *whole)
{
    const options *o = run->options;
    record_room prototype;
    const field_list *list = run->list != NULL ? run->list : &case_list;
    output memory = {.format = FORMAT_TEXT};
    const bool hold = run->hold || page != NULL;
    output *rows_to = hold ? &memory : out;
    rows kept = rows_for(rows_to, run->results);
    field_defaults(list, &prototype);
    if (list == &case_list) prototype.load_case.member.factor = o->factor;
    const pipeline p = {
        .list = list,
        .prototype = &prototype,
        .results = run->results,
        .jobs = run->jobs,
        .out = rows_to,
        .kept = &kept,
        .context = run,
        .refused = &run->refused,
        .answer = answer_row,
    };
    int status = rows_begin(out, run->results) ? pipeline_run(&p, o->operands, o->operand_count) : NO_VERDICT;
    out->answered = out->answered || kept.count > 0;
    *whole = !(hold || out->format == FORMAT_TEXT) || write_kept(run, out, &kept, &status);
    *whole = rows_end(out) && *whole;
    if (page != NULL && kept.count > 0) page->answered = run->report(run, page, &kept, status);
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
    if (!output_open_beside(&page, out, to)) {
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
    const options *o = run->options;
    if (o->operand_count == 0) {
        say("%s: name a file of %ss, or - for standard input; see 'railbow help %s'", run->name,
            run->list != NULL ? run->list->what : case_list.what, run->name);
        return NO_VERDICT;
    }
    if (materials_open(&run->materials, o->materials) && output_open(&out, o)) {
        status = run_with_page(run, &out);
        if (!output_close(&out, out.answered)) status = NO_VERDICT; /* no answer: the old one stays */
    }
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

/* ---- columns named on the command line ---------------------------------------------------------------- */

static void say_unknown(const char *option, const char *name)
{
    const char *nearest = field_nearest(&case_list, name);
    if (nearest != NULL)
        say("--%s: there is no column '%s'; did you mean '%s'?", option, name, nearest);
    else
        say("--%s: there is no column '%s'; see 'railbow columns'", option, name);
}

const field *case_column(const char *option, const char *name, size_t length)
{
    char copy[64];
    if (length >= sizeof copy) length = sizeof copy - 1;
    memcpy(copy, name, length);
    copy[length] = '\0';
    const field *f = field_find(&case_list, copy);
    if (f == NULL) {
        say_unknown(option, copy);
        return NULL;
    }
    if (f->kind == FIELD_NUMBER || f->kind == FIELD_EITHER) return f;
    say("--%s: column '%s' is not a number", option, f->name);
    return NULL;
}

bool case_value(const char *option, const field *f, const char *at, size_t length, double *value)
{
    if (measure_read(at, length, f->dimension, value)) return true;
    text names = {0};
    if (f->dimension != DIM_NONE) {
        text_put(&names, ", alone or with its unit: ");
        unit_say_names(&names, f->dimension);
    }
    say("--%s: %s: '%.*s' is not a number%s", option, f->name, (int)length, at, names.at != NULL ? names.at : "");
    text_free(&names);
    return false;
}

bool case_is_wall(const field *f)
{
    return f->offset == offsetof(load_case, member.wall);
}

bool case_is_served(const case_run *run, const load_case *c, bool varies_wall, const place *at, text *complaints)
{
    int known;
    rbow_material_find(run->materials.list, run->materials.count, c->material, c->member.wall, &known);
    return (known && varies_wall)
        || materials_for(&run->materials, c->material, c->member.wall, at, complaints) != NULL;
}

void case_refused(text *complaints, const place *at, rbow_status status, const char *where)
{
    const char *input = rbow_status_input(status);
    message_add(complaints, at->file, at->line, *input != '\0' ? input : NULL, "%s%s", rbow_status_text(status), where);
}

void case_value_say(text *out, const field *f, double value)
{
    const unit *u = unit_shown(f->dimension, UNITS_US);
    text_format(out, "%.6g", u != NULL ? unit_from_own(u, value) : value);
    if (u != NULL) text_format(out, " %s", u->name);
}

double case_present(const load_case *c, const field *f)
{
    const double value = field_get(f, c);
    if (isinf(value) || fabs(value) < DBL_MAX / 4) return value; /* fixed and rigid are infinite */
    if (f->offset == offsetof(load_case, member.point_at) || f->offset == offsetof(load_case, member.bow_at))
        return c->member.length / 2;
    if (f->offset == offsetof(load_case, member.factor_yield)) return c->member.factor;
    return NAN;
}
