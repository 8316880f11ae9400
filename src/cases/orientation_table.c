#include "cases/orientation_table.h"

#include "cases/field_lines.h"

#define FOUND(at, dimension_, meaning_) NUMBER(orientation_row, #at, found.at, dimension_, meaning_)

static const field orientation_fields[] = {
    TEXT(orientation_row, "case", name, "name of the row"),
    FOUND(margin_as_marked, DIM_NONE, "margin with the bow_clock of the case"),
    FOUND(best_clock, DIM_ANGLE, "clock of the bow with the largest margin"),
    FOUND(best_margin, DIM_NONE, "the largest margin"),
    FOUND(worst_clock, DIM_ANGLE, "clock of the bow with the smallest margin"),
    FOUND(worst_margin, DIM_NONE, "the smallest margin"),
};
const field_list orientation_list = FIELD_LIST("index", orientation_fields, orientation_row);
