#include "cases/sweep_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#include <string.h>

static const field sweep_answers[] = {
    NUMBER(sweep_row, "margin", result.margin, DIM_NONE, "as in check"),
    WORD(sweep_row, "governs", result.governs, governs_words, "as in check"),
    WORD(sweep_row, "verdict", result.verdict, verdict_words, "as in check"),
    NUMBER(sweep_row, "yield_factor", result.yield_factor, DIM_NONE, "as in check"),
    NUMBER(sweep_row, "column_factor", result.column_factor, DIM_NONE, "as in check"),
    NUMBER(sweep_row, "interaction_factor", result.interaction_factor, DIM_NONE, "as in check"),
    NUMBER(sweep_row, "fit_stress", result.fit_stress, DIM_STRESS, "as in check"),
    NUMBER(sweep_row, "peak_stress", result.peak_stress, DIM_STRESS, "as in check"),
    NUMBER(sweep_row, "deflection", result.deflection, DIM_LENGTH, "as in check"),
};

_Static_assert(1 + SWEEP_COLUMNS_MOST + sizeof sweep_answers / sizeof *sweep_answers <= SWEEP_FIELDS_MOST,
               "every column has room");

void sweep_columns_fill(sweep_columns *s, const field *const varied[], size_t count)
{
    static const field name = TEXT(sweep_row, "case", name, "name of the row");
    size_t n = 0;
    s->fields[n++] = name;
    for (size_t i = 0; i < count; i++) {
        s->fields[n] = (field){.name = varied[i]->name, .kind = FIELD_NUMBER, .dimension = varied[i]->dimension,
                               .offset = offsetof(sweep_row, value) + i * sizeof(double), .meaning = "varied"};
        n++;
    }
    memcpy(&s->fields[n], sweep_answers, sizeof sweep_answers);
    n += sizeof sweep_answers / sizeof *sweep_answers;
    s->list = (field_list){"sweep", s->fields, n, sizeof(sweep_row)};
}
