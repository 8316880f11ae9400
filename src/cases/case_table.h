/* Load cases as a table. */
#ifndef RAILBOW_CASES_CASE_TABLE_H
#define RAILBOW_CASES_CASE_TABLE_H

#include "table/field.h"

#include <railbow/member.h>

typedef struct load_case {
    const char *name, *note, *part, *material;
    rbow_member member;
    double cycles, cycle_low, cycle_high; /* for life: how often the load comes in a run, and between which load factors it swings */
    const struct member_details *details; /* of its tube, from another table; NULL: none; no column */
} load_case;

extern const field_list case_list; /* of load_case */

/* Whether a number column is one of the member; on the others no margin depends. */
bool case_is_of_member(const field *f);

/* Which tube the row is about: its part, or its own name where none is given. */
const char *case_part(const load_case *c);

#endif
