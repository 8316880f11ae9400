#define _POSIX_C_SOURCE 200809L
#include "command/commands.h"

#include "command/checked.h"
#include "command/results.h"
#include "command/say.h"
#include "report/check_text.h"

#include <stdlib.h>
#include <string.h>

typedef struct kept_rows { /* the text holds what its summary needs */
    checked *rows;
    size_t count, room;
} kept_rows;

typedef struct context {
    const materials *materials;
    const output *out;
} context;

static int answer_row(const void *given, const place *at, const void *record, void *result, text *written,
                      text *complaints)
{
    const context *c = given;
    checked *answer = result;
    const int status = check_case(c->materials, record, at, answer, complaints);
    if (status != NO_VERDICT) results_row(written, c->out, &check_list, &answer->row);
    return status;
}

static bool keep_row(void *kept, const void *result)
{
    kept_rows *k = kept;
    if (k->count == k->room) {
        const size_t room = k->room == 0 ? 64 : 2 * k->room;
        checked *more = realloc(k->rows, room * sizeof *more);
        if (more == NULL) return false;
        k->rows = more;
        k->room = room;
    }
    checked *to = &k->rows[k->count];
    *to = *(const checked *)result;
    to->row.name = strdup(to->row.name); /* the batch that it points into is used again */
    to->row.material = to->row.note = "";
    if (to->row.name == NULL) return false;
    k->count++;
    return true;
}

static bool write_text(output *out, kept_rows *k, bool faults)
{
    check_row *rows = malloc((k->count + 1) * sizeof *rows);
    text t = {.failed = rows == NULL};
    for (size_t i = 0; i < k->count && rows != NULL; i++) {
        rows[i] = k->rows[i].row;
        rows[i].remarks = k->rows[i].remarks;
    }
    if (rows != NULL) check_text(&t, rows, k->count, faults, out->units, out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
    free(rows);
    return fine;
}

static void free_rows(kept_rows *k)
{
    for (size_t i = 0; i < k->count; i++) free((char *)k->rows[i].row.name);
    free(k->rows);
}

static int check_files(const options *o, const materials *m, output *out)
{
    load_case prototype;
    kept_rows kept = {0};
    const context c = {m, out};
    field_defaults(&case_list, &prototype);
    prototype.member.factor = o->factor;
    const bool as_text = out->format == FORMAT_TEXT;
    const pipeline p = {
        .list = &case_list,
        .prototype = &prototype,
        .result_size = sizeof(checked),
        .jobs = o->jobs,
        .out = out,
        .context = &c,
        .answer = answer_row,
        .keep = as_text ? keep_row : NULL,
        .kept = &kept,
    };
    int status = results_open(out, &check_list) ? pipeline_run(&p, o->operands, o->operand_count) : NO_VERDICT;
    if (as_text && !write_text(out, &kept, status == NO_VERDICT)) status = NO_VERDICT;
    if (!results_close(out)) status = NO_VERDICT;
    free_rows(&kept);
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
        if (!output_close(&out, true)) status = NO_VERDICT;
    }
    materials_close(&m);
    return status;
}
