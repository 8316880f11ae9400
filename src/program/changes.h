/* --set COLUMN=VALUE: what is changed in the load cases that are chosen, before the command sees them. */
#ifndef RAILBOW_PROGRAM_CHANGES_H
#define RAILBOW_PROGRAM_CHANGES_H

#include "cases/case_table.h"
#include "program/column_unit.h"
#include "program/measure.h"
#include "program/options.h"

typedef struct change change;

typedef struct case_changes {
    change *at;
    size_t count;
    load_case prototype; /* an empty value is the default: that of this record */
} case_changes;

/* Reads every --set.
 * Returned: false after a message that names the column and what is allowed. changes_close either way. */
bool changes_open(case_changes *c, const options *o);
void changes_close(case_changes *c);

/* Takes from a file's header the units of values without one. Returned: false after a message. */
bool changes_begin(case_changes *c, const char *file, const reader *from);

/* Puts the values into a case. The texts are those of the command line. */
void changes_make(const case_changes *c, load_case *to);

#endif
