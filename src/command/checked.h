/* One load case checked: from the row of a file to the row of an answer. */
#ifndef RAILBOW_COMMAND_CHECKED_H
#define RAILBOW_COMMAND_CHECKED_H

#include "command/case_table.h"
#include "command/materials.h"
#include "report/check_table.h"

typedef struct checked {
    check_row row;
    const rbow_material *material;
    rbow_result result;
    char remarks[320]; /* room for all of them at once */
} checked;

/* All that is wrong with a case, as messages that name its columns. Returned: the material, or NULL. */
const rbow_material *case_material(const materials *m, const load_case *c, const place *at, text *complaints);

/* Given:    a case as read. Returned: ALL_HOLD, SOME_SHORT, or NO_VERDICT with complaints. */
int check_case(const materials *m, const load_case *c, const place *at, checked *answer, text *complaints);

#endif
