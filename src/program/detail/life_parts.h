/* Load cases by part, with the details of each part, and the life of each detail. */
#ifndef RAILBOW_PROGRAM_DETAIL_LIFE_PARTS_H
#define RAILBOW_PROGRAM_DETAIL_LIFE_PARTS_H

#include "cases/detail/life_table.h"
#include "program/detail/curves.h"
#include "program/details.h"

typedef struct life_case { /* what is kept of a load case */
    const char *name, *part;
    rbow_member member;
    const rbow_material *material; /* NULL: the row is refused */
    double cycles, low, high;
    const char *file;
    size_t line;
} life_case;

extern const field_list life_case_list; /* its texts */

typedef struct life_parts {
    rows lives;         /* of life_row, part by part, in the order of the details' file */
    life_place *order;  /* by life_rank */
    const char **bare;  /* parts without a detail */
    size_t bare_count;
    size_t failed;      /* details that should have a life and have none, after messages */
} life_parts;

typedef struct life_asked {
    bool draws;   /* the results without forcing are needed */
    bool lacking; /* rows are missing of which nobody knows the part */
    int jobs;
} life_asked;

/* Given:    cases, which outlive p; details, read; curves
 * Returned: false after a message: out of memory. life_parts_free either way. */
bool life_parts_answer(life_parts *p, const life_case *cases, size_t count, const details *d, const curves *c, life_asked asked);
void life_parts_free(life_parts *p);

#endif
