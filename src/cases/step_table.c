#include "cases/step_table.h"

#include "cases/field_lines.h"

static const field step_fields[] = {
    TEXT(step_row, "case", name, "name of the row"),
    TEXT(step_row, "part", part, "part of the working"),
    TEXT(step_row, "step", step, "quantity that the step calculates"),
    TEXT(step_row, "formula", formula, "its formula"),
    TEXT(step_row, "numbers", numbers,
         "the formula with its numbers; angles with \u00b0 are in degrees, all others in radians"),
    NUMBER(step_row, "result", result, DIM_NONE, "result in the unit of the next column"),
    TEXT(step_row, "unit", unit, "unit of the result; empty for a plain number"),
    TEXT(step_row, "source", source, "source of the formula or the input"),
};
const field_list step_list = FIELD_LIST("step", step_fields, step_row);
