#define _POSIX_C_SOURCE 200809L /* lstat */
#include "program/frame/frame_detail.h"

#include "program/frame/frame_rows.h"
#include "program/say.h"
#include "table/messages.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const char file_name[] = "details.csv";

/* ---- reading ------------------------------------------------------------------------------------------------ */

/* Sets b->detail_path; NULL where there is no table. Returned: false after a message. */
static bool name_table(frame_build *b, const options *o)
{
    struct stat there;
    text path = {0};
    if (o->details != NULL) text_put(&path, o->details);
    else frame_path(&path, b->tables.folder, file_name);
    b->detail_path = path.at;
    if (path.failed) say("out of memory");
    if (path.failed || o->details != NULL || lstat(path.at, &there) == 0) return !path.failed;
    text_free(&path);
    b->detail_path = NULL;
    return true;
}

static void refuse(text *complaints, const frame_build *b, const detail_row *r, const char *column, const char *what)
{
    message_add(complaints, b->detail_path, r->line, *column != '\0' ? column : NULL, "%s", what);
}

static void refuse_tube(text *complaints, frame_build *b, const detail_row *r)
{
    text words = {0};
    frame_put_unknown(&words, b, FRAME_TUBES, r->of);
    refuse(complaints, b, r, frame_detail_list.fields[0].name, text_string(&words, &complaints->failed));
    text_free(&words);
}

static void refuse_faults(text *complaints, const frame_build *b, const frame_detail *d)
{
    enum { MOST = 20 };
    rbow_status faults[MOST];
    const rbow_frame_detail on = frame_detail_on(d, &b->model.frame);
    const size_t count = rbow_frame_detail_faults(&b->model.frame, d->tube, &on.detail, faults, MOST);
    for (size_t i = 0; i < count && i < MOST; i++) refuse(complaints, b, d->row, rbow_status_input(faults[i]), rbow_status_text(faults[i]));
}

static void resolve(frame_build *b, text *complaints)
{
    const detail_row *read = (const void *)b->detail_table.rows.kept;
    b->details = (frame_details){b->detail_list, b->detail_table.count, b->detail_path};
    for (size_t i = 0; i < b->details.count; i++) {
        b->detail_list[i] = (frame_detail){&read[i], frame_names_find(&b->tube_names, read[i].of)};
        if (b->detail_list[i].tube == SIZE_MAX) refuse_tube(complaints, b, &read[i]);
        else refuse_faults(complaints, b, &b->detail_list[i]);
    }
}

bool frame_detail_open(frame_build *b, const options *o)
{
    text complaints = {0};
    if (!name_table(b, o) || !details_open(&b->detail_table, b->detail_path, &frame_detail_list)) return false;
    b->detail_list = malloc((b->detail_table.count + 1) * sizeof *b->detail_list);
    complaints.failed = b->detail_list == NULL;
    if (b->detail_list != NULL) resolve(b, &complaints);
    if (complaints.failed) say("out of memory");
    else if (complaints.length > 0) say_lines(complaints.at);
    const bool sound = !complaints.failed && complaints.length == 0;
    text_free(&complaints);
    return sound;
}

void frame_detail_close(frame_build *b)
{
    details_close(&b->detail_table);
    free(b->detail_list);
    free(b->detail_path);
}

/* ---- answers ------------------------------------------------------------------------------------------------ */

detail_answer frame_detail_answer(const frame_build *b, size_t detail, size_t run, const rbow_detail_result *result,
                                  char remarks[DETAIL_REMARKS_ROOM])
{
    const frame_detail *d = &b->details.at[detail];
    const frame_run_row *r = &b->model.runs[run];
    detail_remarks_write(remarks, result->remarks);
    return (detail_answer){
        .of = d->row->of,
        .run = r->name,
        .name = d->row->name,
        .note = d->row->note,
        .remarks = remarks,
        .detail = frame_detail_on(d, &b->model.frame).detail,
        .result = *result,
        .factor = r->run.factor,
        .factor_yield = r->run.factor_yield > 0 ? r->run.factor_yield : r->run.factor,
    };
}
