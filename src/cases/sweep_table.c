#include "cases/sweep_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#include <string.h>

#define RESULT(at, dimension_, meaning_) NUMBER(sweep_row, #at, result.at, dimension_, meaning_)

static const field sweep_answers[] = {
    RESULT(margin, DIM_NONE, "as in check"),
    TEXT(sweep_row, "governs", governs, "as in check"),
    WORD(sweep_row, "verdict", result.verdict, verdict_words, "as in check"),
    RESULT(yield_factor, DIM_NONE, "as in check"),
    RESULT(column_factor, DIM_NONE, "as in check"),
    RESULT(interaction_factor, DIM_NONE, "as in check"),
    RESULT(fit_stress, DIM_STRESS, "as in check"),
    RESULT(peak_stress, DIM_STRESS, "as in check"),
    RESULT(deflection, DIM_LENGTH, "as in check"),
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
                               .offset = offsetof(sweep_row, value) + i * sizeof(double), .meaning = "value tried"};
        n++;
    }
    memcpy(&s->fields[n], sweep_answers, sizeof sweep_answers);
    n += sizeof sweep_answers / sizeof *sweep_answers;
    s->list = (field_list){"sweep", s->fields, n, sizeof(sweep_row)};
}
