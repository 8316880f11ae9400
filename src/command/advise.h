/* What to do about the worst of the cases that were checked. */
#ifndef RAILBOW_COMMAND_ADVISE_H
#define RAILBOW_COMMAND_ADVISE_H

#include "cases/check_table.h"
#include "program/details.h"
#include "program/materials.h"
#include "table/unit.h"

/* With the walls that suppliers keep. A permitted miss is a multiple of 1/64 in, gap and bow of 0.001 in; with units si of
 * 0.5 mm and 0.05 mm.
 * Given: worst  NULL for none. Returned: a; without a change where the case holds. The names in it are those of `worst`. */
void advise(advice *a, const check_row *worst, const materials *m, const details *d, unit_system units);

#endif
