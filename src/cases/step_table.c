#include "cases/step_table.h"

#include "cases/field_lines.h"

static const field step_fields[] = {
    TEXT(step_row, "case", name, "name of the row"),
    TEXT(step_row, "part", part, "which part of the working"),
    TEXT(step_row, "step", step, "what is worked out"),
    TEXT(step_row, "formula", formula, "by which formula"),
    TEXT(step_row, "numbers", numbers, "the same with its numbers; angles with \u00b0 are degrees, all others radians"),
    NUMBER(step_row, "result", result, DIM_NONE, "in the unit of the next column"),
    TEXT(step_row, "unit", unit, "of the result; empty for a plain number"),
    TEXT(step_row, "source", source, "where the formula or the input comes from"),
};
const field_list step_list = FIELD_LIST("step", step_fields, step_row);
