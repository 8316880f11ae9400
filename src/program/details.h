/* The table of details (--details), and the details of each tube. */
#ifndef RAILBOW_PROGRAM_DETAILS_H
#define RAILBOW_PROGRAM_DETAILS_H

#include "cases/detail/detail_table.h"
#include "program/rows.h"

#include <stdatomic.h>

typedef struct details {
    const char *file; /* NULL: none was named */
    const field_list *list;
    rows rows;        /* of detail_row, in the order of the file */
    const detail_row **sorted; /* by what they sit on, then by line */
    size_t count;
    atomic_bool *met; /* of each of the sorted ones: whether what it sits on was read */
    struct detail_guesses *guesses;
} details;

/* Reads a table of details. With one at fault none is used: a detail that is left out would make its tube look stronger.
 * Given:    file  NULL: no table; list  case_detail_list or frame_detail_list
 * Returned: false after messages on all that is wrong. details_close either way */
bool details_open(details *d, const char *file, const field_list *list);
void details_close(details *d);

/* Counts the details that sit on a tube of that name, or of that part, as met. From any thread. Returned: how many they are. */
size_t details_meet(const details *d, const char *name, const char *part);

/* A name and part that were read, for the message on a detail that is not met. From any thread, in any order. */
void details_guess(const details *d, const char *name, const char *part);

/* The same details. Given: picked  room for so many */
void details_pick(const details *d, const char *name, const char *part, const detail_row **picked);

/* Whether every detail was met. Returned: false after a message for each that was not, with the nearest name guessed; `where` is what was read. */
bool details_all_met(const details *d, const char *where);

#endif
