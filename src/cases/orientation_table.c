#include "cases/orientation_table.h"

#include "cases/field_lines.h"

#define FOUND(at, dimension_, meaning_) NUMBER(orientation_row, #at, found.at, dimension_, meaning_)

static const field orientation_fields[] = {
    TEXT(orientation_row, "case", name, "name of the row; empty for a part over all its cases"),
    TEXT(orientation_row, "part", part, "which tube it is about"),
    FOUND(margin_as_marked, DIM_NONE, "with the bow's clock as the case has it; of a part the lowest"),
    FOUND(best_clock, DIM_ANGLE, "where the bow should point"),
    FOUND(best_margin, DIM_NONE, "the margin there"),
    FOUND(worst_clock, DIM_ANGLE, "where it must not point"),
    FOUND(worst_margin, DIM_NONE, "the margin there"),
};
const field_list orientation_list = FIELD_LIST("index", orientation_fields, orientation_row);

size_t orientation_parts(const orientation_row *rows, size_t count)
{
    size_t parts = 0;
    while (parts < count && rows[parts].is_part) parts++;
    return parts;
}

bool orientation_shares(const orientation_row *rows, size_t count)
{
    for (size_t i = 0; i < count && rows[i].is_part; i++)
        if (rows[i].cases > 1) return true;
    return false;
}
