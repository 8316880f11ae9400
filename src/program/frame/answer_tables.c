#include "program/frame/answer_tables.h"

#include "program/rows.h"
#include "report/json/json.h"
#include "table/writer.h"

static bool put_text(output *out, text *t)
{
    const bool fine = output_text(out, t);
    text_free(t);
    return fine;
}

static bool put_rows(output *out, const answer_table *t)
{
    rows r = rows_for(out, t->list);
    r.stream = out;
    for (size_t i = 0; i < t->count && !r.stopped; i++)
        if (t->has == NULL || t->has(t->context, i)) rows_add(&r, (const char *)t->records + i * t->list->record_size);
    const bool fine = !r.stopped && output_text(out, &r.written);
    rows_free(&r);
    return fine;
}

static bool write_csv(output *out, const answer_table *t)
{
    text head = {0};
    csv_header(&head, t->list, out->units);
    return put_text(out, &head) && put_rows(out, t);
}

static bool write_json(output *out, const answer_table tables[], size_t count, const answer_flag *flag, const run_facts *facts, size_t refused)
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
    if (flag != NULL) json_flag(&end, flag->name, flag->set);
    json_close_tables(&end, refused);
    return put_text(out, &end) && fine;
}

bool answer_tables_write(output *out, const answer_table tables[], size_t count, size_t of, const answer_flag *flag, const run_facts *facts,
                         size_t refused)
{
    return out->format == FORMAT_JSON ? write_json(out, tables, count, flag, facts, refused) : write_csv(out, &tables[of]);
}

bool answer_table_write(output *out, const answer_table *t, const run_facts *facts)
{
    return rows_begin(out, t->list, facts) && put_rows(out, t) && rows_end(out, 0, NULL, NULL);
}
