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

enum { CASE_FIELDS_MOST = 48 };

typedef struct listed_case { /* a load case as it was read, for the command cases */
    load_case given;
    double line; /* of the file */
} listed_case;

typedef struct listed_columns {
    field fields[CASE_FIELDS_MOST];
    field_list list; /* of listed_case: the columns of load cases, then line */
} listed_columns;

/* A filled list points into itself: do not copy it. */
void listed_columns_fill(listed_columns *l);
/* Whether a number column is one of the member; on the others no margin depends. */
bool case_is_of_member(const field *f);

/* Which tube the row is about: its part, or its own name where none is given. */
const char *case_part(const load_case *c);

#endif
