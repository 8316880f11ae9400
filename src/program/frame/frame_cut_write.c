#include "program/frame/frame_cut_write.h"

#include "program/rows.h"
#include "report/json/json.h"

typedef struct shown_table {
    const char *name; /* in JSON, where several stand together */
    const field_list *list;
    const void *records;
    size_t count;
} shown_table;

static bool put_text(output *out, text *t)
{
    const bool fine = output_text(out, t);
    text_free(t);
    return fine;
}

static bool put_rows(output *out, const shown_table *t)
{
    rows r = rows_for(out, t->list);
    r.stream = out;
    for (size_t i = 0; i < t->count && !r.stopped; i++) rows_add(&r, (const char *)t->records + i * t->list->record_size);
    const bool fine = !r.stopped && output_text(out, &r.written);
    rows_free(&r);
    return fine;
}

/* One table, as CSV or JSON. */
static bool write_table(output *out, const shown_table *t, const run_facts *facts)
{
    return rows_begin(out, t->list, facts) && put_rows(out, t) && rows_end(out, 0);
}

static bool write_tables(output *out, const shown_table *tables, size_t count, const run_facts *facts)
{
    text head = {0}, end = {0};
    json_open_tables(&head, facts);
    bool fine = put_text(out, &head);
    for (size_t i = 0; i < count && fine; i++) {
        text open = {0}, close = {0};
        json_open_table(&open, tables[i].name, tables[i].list, out->units);
        fine = put_text(out, &open);
        out->drop_comma = true;
        fine = fine && put_rows(out, &tables[i]);
        out->drop_comma = false;
        json_close_table(&close);
        fine = put_text(out, &close) && fine;
    }
    json_close_tables(&end, 0);
    return put_text(out, &end) && fine;
}

bool frame_cut_write(output *out, const frame_cut_answer *a, int of, const run_facts *facts)
{
    const shown_table tables[] = {[OF_CUTS] = {"cuts", &frame_cuts_list, a->cuts, a->cut_count},
                                  [OF_CUT_JOINTS] = {"joints", &frame_cut_joints_list, a->joints, a->joint_count}};
    return out->format == FORMAT_JSON ? write_tables(out, tables, 2, facts) : write_table(out, &tables[of], facts);
}

bool frame_cut_locked_write(output *out, const frame_cut_locked_row *r, const run_facts *facts)
{
    const shown_table table = {NULL, &frame_cut_locked_list, r, 1};
    return write_table(out, &table, facts);
}
