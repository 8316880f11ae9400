#include "command/commands.h"

#include "cases/case_table.h"
#include "program/exit_status.h"
#include "program/output.h"
#include "program/say.h"
#include "table/writer.h"

#include <string.h>

enum { ROWS = 2 };

typedef struct starter { /* a column of a new file, and its cells in the two rows in each system of units */
    const char *column;
    const char *cells[2][ROWS];
} starter;

#define BOTH(first, second) {{first, second}, {first, second}}

static const starter starters[] = {
    {"case", BOTH("upper rail", "new rail")},
    {"od", {{"1.25", "1.25"}, {"32", "32"}}},
    {"wall", {{"0.058", "0.058"}, {"1.5", "1.5"}}},
    {"material", BOTH("4130", "4130")},
    {"length", {{"42", "24"}, {"1070", "610"}}},
    {"end_a", BOTH("welded", "welded")},
    {"end_b", BOTH("welded", "welded")},
    {"compression", {{"2600", "4600"}, {"11600", "20500"}}},
    {"spread_load", {{"1.5", ""}, {"0.25", ""}}},
    {"spread_clock", BOTH("180", "")},
    {"point_load", {{"", "150"}, {"", "670"}}},
    {"point_at", {{"", "12"}, {"", "305"}}},
    {"point_clock", BOTH("", "180")},
    {"vertical_g", BOTH("1", "4")},
    {"bow", {{"0.03", "0.025"}, {"0.75", "0.6"}}},
    {"bow_clock", BOTH("90", "180")},
    {"miss_a", {{"", "0.0625"}, {"", "1.5"}}},
    {"miss_a_clock", BOTH("", "180")},
    {"weld_zone", {{"1", "1"}, {"25", "25"}}},
    {"factor", BOTH("1.5", "1.5")},
    {"note", BOTH("air load on the panel", "socket off by a sixteenth")},
};

static const starter *starter_of(const field *f)
{
    for (size_t i = 0; i < sizeof starters / sizeof *starters; i++)
        if (strcmp(starters[i].column, f->name) == 0) return &starters[i];
    return NULL;
}

/* Comment lines have no commas, semicolons or quotes: a spreadsheet then keeps each in one cell and saves it unchanged. */
static void put_front(text *out)
{
    text_put(out, "# Load cases for railbow: each row is one tube under one load. Units are in brackets. An empty cell "
                  "takes the default.\n"
                  "# To see what each column means: railbow columns. To check the rows: railbow check.\n");
}

/* An angle without a bracket is in degrees. An end may be a word, so its header needs a unit only if a number stands in
 * the column. */
static void put_head(text *out, const field *f, bool all, unit_system units)
{
    const unit *u = unit_shown(f->dimension, units);
    text_put(out, f->name);
    if (u != NULL && f->dimension != DIM_ANGLE && (f->kind == FIELD_NUMBER || all)) text_format(out, " [%s]", u->name);
}

static void put_table(text *out, bool all, unit_system units)
{
    put_front(out);
    for (int row = -1; row < ROWS; row++) {
        const char *comma = "";
        for (size_t i = 0; i < case_list.count; i++) {
            const field *f = &case_list.fields[i];
            const starter *s = starter_of(f);
            if (s == NULL && !all) continue;
            text_put(out, comma);
            comma = ",";
            if (row < 0)
                put_head(out, f, all, units);
            else if (s != NULL)
                csv_text(out, s->cells[units][row]);
        }
        text_char(out, '\n');
    }
}

int command_new(const options *o)
{
    if (o->operand_count != 1) {
        say("new: name one file to write, or - for standard output; see 'railbow help new'");
        return NO_VERDICT;
    }
    output out;
    text t = {0};
    const char *file = o->operands[0];
    const bool standard = strcmp(file, "-") == 0;
    const options plain = {0};
    if (!(standard ? output_open(&out, &plain) : output_open_fresh(&out, file))) return NO_VERDICT;
    put_table(&t, o->all, o->units);
    bool fine = output_text(&out, &t);
    fine = output_close(&out, fine) && fine;
    text_free(&t);
    return fine ? ALL_HOLD : NO_VERDICT;
}
