#include "cases/orientation_table.h"

#include "cases/field_lines.h"

#define FOUND(at, dimension_, meaning_) NUMBER(orientation_row, #at, found.at, dimension_, meaning_)

static const field orientation_fields[] = {
    TEXT(orientation_row, "case", name, "name of the row"),
    FOUND(margin_as_marked, DIM_NONE, "with the bow's clock as the case has it"),
    FOUND(best_clock, DIM_ANGLE, "where the bow should point"),
    FOUND(best_margin, DIM_NONE, "the margin there"),
    FOUND(worst_clock, DIM_ANGLE, "where it must not point"),
    FOUND(worst_margin, DIM_NONE, "the margin there"),
};
const field_list orientation_list = FIELD_LIST("index", orientation_fields, orientation_row);
