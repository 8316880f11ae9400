/* Load cases and materials as tables: records and their field lists. */
#ifndef RAILBOW_COMMAND_CASE_TABLE_H
#define RAILBOW_COMMAND_CASE_TABLE_H

#include "table/field.h"

#include <railbow/member.h>

typedef struct load_case {
    const char *name, *note, *part, *material;
    rbow_member member;
} load_case;

typedef struct tolerance_row { /* of scatter's tolerance file */
    const char *column, *unit; /* unit: a unit of the column, or % of its value */
    double minus, plus;
    int shape; /* tolerance_shape */
} tolerance_row;

extern const field_list tolerance_list; /* of tolerance_row */
extern const field_list case_list;     /* of load_case     */
extern const field_list material_list; /* of rbow_material */

#endif
