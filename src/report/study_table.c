#include "report/study_table.h"

#include "report/result_field.h"

#include <string.h>

#define LIST(what_, fields_, record)                                                                           \
    {.what = what_, .fields = fields_, .count = sizeof fields_ / sizeof *fields_, .record_size = sizeof(record)}

static const field compare_fields[] = {
    TEXT(compare_row, "case", name, "name of the row"),
    NUMBER(compare_row, od, DIM_LENGTH, "outside diameter tried"),
    NUMBER(compare_row, wall, DIM_LENGTH, "wall tried"),
    NUMBER(compare_row, weight, DIM_MASS, "of this length"),
    NUMBER(compare_row, weight_change, DIM_MASS, "against the case's own tube"),
    NUMBER(compare_row, stiffness_change, DIM_NONE, "EI over the case's own, less 1"),
    NUMBER(compare_row, margin, DIM_NONE, "as in check"),
    WORD(compare_row, governs, governs_words, "as in check"),
    TEXT(compare_row, "verdict", verdict, "holds, short, or not possible and why"),
    TEXT(compare_row, "pick", pick, "lightest: the lightest tube that holds this case"),
};
const field_list compare_list = LIST("comparison", compare_fields, compare_row);

static const field sweep_answers[] = {
    NUMBER(sweep_row, margin, DIM_NONE, "as in check"),
    WORD(sweep_row, governs, governs_words, "as in check"),
    WORD(sweep_row, verdict, verdict_words, "as in check"),
    NUMBER(sweep_row, yield_factor, DIM_NONE, "as in check"),
    NUMBER(sweep_row, column_factor, DIM_NONE, "as in check"),
    NUMBER(sweep_row, interaction_factor, DIM_NONE, "as in check"),
    NUMBER(sweep_row, fit_stress, DIM_STRESS, "as in check"),
    NUMBER(sweep_row, peak_stress, DIM_STRESS, "as in check"),
    NUMBER(sweep_row, deflection, DIM_LENGTH, "as in check"),
};

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

static const field_word limit_words[] = {
    {"found", LIMIT_ROW_FOUND}, {"never", LIMIT_ROW_NEVER}, {"already", LIMIT_ROW_ALREADY}, {NULL, 0}};

static const field limit_fields[] = {
    TEXT(limit_row, "case", name, "name of the row"),
    TEXT(limit_row, "column", column, "which was varied"),
    NUMBER(limit_row, limit, DIM_NONE, "where the margin first falls under the target"),
    NUMBER(limit_row, now, DIM_NONE, "its present value"),
    NUMBER(limit_row, room, DIM_NONE, "from now to the limit; negative: already past it; none where it is short outside the range"),
    WORD(limit_row, state, limit_words, "found; never: holds to the end; already: short at the start"),
};

void limit_columns_fill(limit_columns *l, const field *column)
{
    memcpy(l->fields, limit_fields, sizeof limit_fields);
    for (size_t i = 0; i < sizeof limit_fields / sizeof *limit_fields; i++)
        if (l->fields[i].kind == FIELD_NUMBER) l->fields[i].dimension = column->dimension;
    l->list = (field_list){"limit", l->fields, sizeof limit_fields / sizeof *limit_fields, sizeof(limit_row)};
}

bool limit_is_past(const limit_row *r)
{
    return r->short_now || r->state == LIMIT_ROW_ALREADY || (r->state == LIMIT_ROW_FOUND && r->room < 0);
}

static const field index_fields[] = {
    TEXT(index_row, "case", name, "name of the row"),
    NUMBER(index_row, margin_as_marked, DIM_NONE, "with the bow's clock as the case has it"),
    NUMBER(index_row, best_clock, DIM_ANGLE, "where the bow should point"),
    NUMBER(index_row, best_margin, DIM_NONE, "the margin there"),
    NUMBER(index_row, worst_clock, DIM_ANGLE, "where it must not point"),
    NUMBER(index_row, worst_margin, DIM_NONE, "the margin there"),
};
const field_list index_list = LIST("index", index_fields, index_row);

static const field scatter_fields[] = {
    TEXT(scatter_row, "case", name, "name of the row"),
    NUMBER(scatter_row, samples, DIM_NONE, "how many were tried"),
    NUMBER(scatter_row, refused, DIM_NONE, "of them outside the model"),
    NUMBER(scatter_row, short_share, DIM_NONE, "share of the others that is short"),
    NUMBER(scatter_row, short_low, DIM_NONE, "its 95 % interval (Wilson)"),
    NUMBER(scatter_row, short_high, DIM_NONE, "and the upper end"),
    NUMBER(scatter_row, margin_mean, DIM_NONE, "mean of the finite margins"),
    NUMBER(scatter_row, margin_sd, DIM_NONE, "their standard deviation"),
    NUMBER(scatter_row, margin_p01, DIM_NONE, "1 % of them lie below"),
    NUMBER(scatter_row, margin_p05, DIM_NONE, "5 %"),
    NUMBER(scatter_row, margin_p50, DIM_NONE, "half"),
    NUMBER(scatter_row, margin_p95, DIM_NONE, "95 %"),
    TEXT(scatter_row, "driver", driver, "column that moves the margin most"),
    NUMBER(scatter_row, driver_share, DIM_NONE, "its first-order share of the margin's variance"),
};
const field_list scatter_list = LIST("scatter", scatter_fields, scatter_row);
