#include "cases/orientation_table.h"

#include "cases/field_lines.h"

static const field orientation_fields[] = {
    TEXT(orientation_row, "case", name, "name of the row"),
    NUMBER(orientation_row, "margin_as_marked", found.margin_as_marked, DIM_NONE, "with the bow's clock as the case has it"),
    NUMBER(orientation_row, "best_clock", found.best_clock, DIM_ANGLE, "where the bow should point"),
    NUMBER(orientation_row, "best_margin", found.best_margin, DIM_NONE, "the margin there"),
    NUMBER(orientation_row, "worst_clock", found.worst_clock, DIM_ANGLE, "where it must not point"),
    NUMBER(orientation_row, "worst_margin", found.worst_margin, DIM_NONE, "the margin there"),
};
const field_list orientation_list = FIELD_LIST("index", orientation_fields, orientation_row);
