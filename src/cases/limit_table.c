#include "cases/limit_table.h"

#include "cases/field_lines.h"

#include <math.h>
#include <string.h>

static const field_word limit_words[] = {
    {"found", LIMIT_FOUND}, {"never", LIMIT_NEVER}, {"already", LIMIT_ALREADY}, {NULL, 0}};

static const field limit_fields[] = {
    TEXT(limit_row, "case", name, "name of the row"),
    TEXT(limit_row, "column", column, "column that was varied"),
    NUMBER(limit_row, "limit", found.limit, DIM_NONE, "last value before the margin falls below the target"),
    NUMBER(limit_row, "now", now, DIM_NONE, "present value of the column"),
    NUMBER(limit_row, "room", room, DIM_NONE,
           "from now to the limit; negative if now is past it; empty if the case is short outside the range"),
    WORD(limit_row, "state", found.state, limit_words,
         "found; never: the case holds to the end; already: it is short at the start"),
};

_Static_assert(sizeof limit_fields == sizeof(((limit_columns *)NULL)->fields), "every column has room");

void limit_columns_fill(limit_columns *l, const field *column)
{
    memcpy(l->fields, limit_fields, sizeof limit_fields);
    for (size_t i = 0; i < sizeof limit_fields / sizeof *limit_fields; i++)
        if (l->fields[i].kind == FIELD_NUMBER) l->fields[i].dimension = column->dimension;
    l->list = (field_list){"limit", l->fields, sizeof limit_fields / sizeof *limit_fields, sizeof(limit_row)};
}

const char *const limit_clocks[LIMIT_CLOCKS] = {"bow_clock", "miss_a_clock", "miss_b_clock", "eccentricity_clock"};

bool limit_is_past(const limit_row *r)
{
    return r->short_now || r->found.state == LIMIT_ALREADY || (r->found.state == LIMIT_FOUND && r->room < 0);
}

const limit_row *limit_least_room(const limit_row *rows, size_t count)
{
    const limit_row *least = rows;
    for (size_t i = 1; i < count; i++)
        if (rows[i].room < least->room || (isnan(rows[i].room) && !isnan(least->room))) least = &rows[i];
    return least;
}

bool limit_is_by_tape(const limit_asked *asked)
{
    const char *name = asked->column->name;
    return asked->column->dimension == DIM_LENGTH && strcmp(name, "wall") != 0 && strcmp(name, "dressed") != 0;
}
