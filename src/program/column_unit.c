#include "program/column_unit.h"

#include "program/say.h"

bool column_unit_take(column_unit *c, const char *file, const reader *from)
{
    if (c->field->dimension == DIM_NONE) return true;
    const unit *here = reader_unit(from, c->field);
    if (here == NULL && c->field->dimension == DIM_ANGLE) here = unit_find(DIM_ANGLE, "deg", 3);
    if (here == NULL) {
        say("%s: names no unit of %s, which the values of --%s would be in: write it behind each, as in 1%s", file,
            c->field->name, c->option, unit_at(c->field->dimension, 0)->name);
        return false;
    }
    if (c->unit != NULL && here != c->unit) {
        say("%s: %s is in %s here and in %s in %s: write its unit behind each value of --%s", file, c->field->name, here->name,
            c->unit->name, c->file, c->option);
        return false;
    }
    if (c->unit == NULL) c->file = file;
    c->unit = here;
    return true;
}
