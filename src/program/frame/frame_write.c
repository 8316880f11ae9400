#include "program/frame/frame_write.h"

#include "program/rows.h"
#include "report/json/json.h"
#include "table/writer.h"

static const struct {
    const char *name;
    const field_list *list;
} tables[] = {
    [OF_TUBES] = {"tubes", &frame_tubes_list},
    [OF_JOINTS] = {"joints", &frame_joints_list},
    [OF_RUNS] = {"runs", &frame_runs_list},
    [OF_ARCH] = {"arch", &frame_arch_list},
};
enum { TABLE_COUNT = sizeof tables / sizeof *tables };

/* Every joint has one place to be welded at, whatever the runs. */
static size_t parts_of(const frame_answers *a, int of)
{
    return of != OF_ARCH ? a->run_count : a->arch != NULL;
}

/* The records that one run has in a table. */
static const void *records_of(const frame_answers *a, int of, size_t run, size_t *count)
{
    switch (of) {
        case OF_TUBES: *count = a->judged; return frame_tubes_of(a, run);
        case OF_JOINTS: *count = a->model->joint_count; return a->joints + run * a->model->joint_count;
        case OF_ARCH: *count = a->model->joint_count; return a->arch;
        default: *count = 1; return &a->runs[run];
    }
}

static bool put_rows(output *out, const frame_answers *a, int of)
{
    rows r = rows_for(out, tables[of].list);
    r.stream = out;
    for (size_t run = 0; run < parts_of(a, of) && !r.stopped; run++) {
        size_t count;
        const char *records = records_of(a, of, run, &count);
        for (size_t i = 0; i < count && (of == OF_ARCH || a->runs[run].solved) && !r.stopped; i++) rows_add(&r, records + i * tables[of].list->record_size);
    }
    const bool fine = !r.stopped && output_text(out, &r.written);
    rows_free(&r);
    return fine;
}

static bool put_text(output *out, text *t)
{
    const bool fine = output_text(out, t);
    text_free(t);
    return fine;
}

static bool write_csv(output *out, const frame_answers *a, int of)
{
    text head = {0};
    csv_header(&head, tables[of].list, out->units);
    return put_text(out, &head) && put_rows(out, a, of);
}

static bool write_json(output *out, const frame_answers *a, const run_facts *facts, size_t refused)
{
    text head = {0}, end = {0};
    json_open_tables(&head, facts);
    bool fine = put_text(out, &head);
    for (int of = 0; of < TABLE_COUNT && fine; of++) {
        if (of == OF_ARCH && a->arch == NULL) continue;
        text open = {0}, close = {0};
        json_open_table(&open, tables[of].name, tables[of].list, out->units);
        fine = put_text(out, &open);
        out->drop_comma = true;
        fine = fine && put_rows(out, a, of);
        out->drop_comma = false;
        json_close_table(&close);
        fine = put_text(out, &close) && fine;
    }
    json_close_tables(&end, refused);
    return put_text(out, &end) && fine;
}

bool frame_write(output *out, const frame_answers *a, int of, const run_facts *facts, size_t refused)
{
    return out->format == FORMAT_JSON ? write_json(out, a, facts, refused) : write_csv(out, a, of);
}
