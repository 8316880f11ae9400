/* The unit of bare values on the command line: that of their column in the file's header. */
#ifndef RAILBOW_PROGRAM_COLUMN_UNIT_H
#define RAILBOW_PROGRAM_COLUMN_UNIT_H

#include "table/reader.h"

typedef struct column_unit {
    const char *option;  /* for messages */
    const field *field;
    const unit *unit;    /* of the files so far; NULL before the first, and for a plain number */
    const char *file;    /* the first */
} column_unit;

/* Takes the unit from a file whose header was read; an angle without a column is in degrees.
 * Returned: false after a message: the file has no such column, or it names no unit, or an earlier file another one. */
bool column_unit_take(column_unit *c, const char *file, const reader *from);

#endif
