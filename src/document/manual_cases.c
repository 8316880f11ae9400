#define _POSIX_C_SOURCE 200809L
#include "document/document.h"

#include "cases/list/table_list.h"
#include "document/roff.h"
#include "program/say.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

static void put_column(text *out, const field *f, bool input)
{
    text tag = {0}, meaning = {0};
    const unit *u = unit_shown(f->dimension, UNITS_US);
    text_put(&tag, f->name);
    if (u != NULL) text_format(&tag, " [%s]", u->name);
    text_put(&meaning, f->meaning);
    if (input && (f->rule & FIELD_REQUIRED) != 0)
        text_put(&meaning, "; required");
    else if (input && *table_default(f) != '\0')
        text_format(&meaning, "; default: %s", table_default(f));
    roff_entry(out, text_string(&tag, &out->failed), text_string(&meaning, &out->failed));
    text_free(&tag);
    text_free(&meaning);
}

static void put_tables(text *out, bool input)
{
    tables all;
    tables_fill(&all);
    for (size_t i = 0; i < all.count; i++) {
        const table *t = &all.at[i];
        if (t->input != input) continue;
        text_format(out, ".SS %s\n", t->title);
        for (size_t k = 0; k < t->list->count; k++) put_column(out, &t->list->fields[k], input);
    }
}

static void put_units(text *out)
{
    roff_section(out, "UNITS");
    roff_paragraph(out, "A header may name any of these units in brackets:");
    for (dimension d = DIM_LENGTH; d < DIM_HEADER_COUNT; d++) {
        text names = {0};
        unit_say_names(&names, d);
        roff_paragraph(out, text_string(&names, &out->failed));
        text_free(&names);
    }
}

/* The first line of the example file is its name, as a comment. */
static const char example_file[] = "rails.csv";
static const char example[] = "# rails.csv\n"
                              "case,od [in],wall [in],material,length [mm],end_a,end_b,compression [lbf],miss_a [in],"
                              "weld_zone [in]\n"
                              "in line,1.25,0.058,4130,610,welded,welded,4600,,1\n"
                              "forced,1.25,0.058,4130,610,welded,welded,4600,0.5,1\n";

static bool write_example(void)
{
    FILE *file = fopen(example_file, "w");
    const bool fine = file != NULL && fputs(example, file) >= 0;
    if (file != NULL && fclose(file) == 0 && fine) return true;
    say("%s: cannot write: %s", example_file, strerror(errno));
    return false;
}

static const char *const description[] = {
    "A table is a CSV file in UTF-8 with a header row. Lines before the header that start with # are comments. Columns may "
    "have any order, and upper and lower case are the same in their names. The header of a column names its unit in "
    "brackets, as in \"length [in]\" or \"length [mm]\". An angle without brackets is in degrees. The column of an end "
    "needs a unit only if a number stands in it.",
    "A number has a decimal point and fills the whole cell. An empty cell takes the default. If a row has an error, a "
    "message names the file, the line, the column and the values that are allowed; the other rows are still checked.",
    "Clocks are seen from joint A toward joint B: 0 is up, 90 is to the right. The unit in brackets below is the unit of "
    "answers in US units; a file may name any other unit of the same kind.",
    "With --format csv numbers have ten digits, inf means that there is no limit, and a value that does not exist is empty. "
    "With --format json the answer is {\"units\": {...}, \"rows\": [{...}, ...]}, and in both cases the value is null; that of a "
    "frame has such an object for each of its three tables. The "
    "schema is share/railbow/railbow.schema.json, with the answer of each command under $defs.",
};

bool manual_cases(text *out, const char *program)
{
    roff_title(out, "RAILBOW\\-CASES", 5);
    roff_section(out, "NAME");
    text_put(out, "railbow\\-cases \\- the tables that railbow reads and writes\n");
    roff_section(out, "DESCRIPTION");
    for (size_t i = 0; i < sizeof description / sizeof *description; i++) roff_paragraph(out, description[i]);
    roff_section(out, "INPUT TABLES");
    put_tables(out, true);
    roff_section(out, "OUTPUT TABLES");
    put_tables(out, false);
    put_units(out);
    roff_section(out, "EXAMPLE");
    roff_paragraph(out, "A file of two cases, and its check:");
    roff_lines(out, example);
    const bool fine = write_example() && roff_example(out, program, "railbow check --format text rails.csv");
    roff_section(out, "SEE ALSO");
    text_put(out, ".BR railbow (1)\n");
    return fine;
}
