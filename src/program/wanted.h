/* Which load cases are meant: --case, --part and --row. */
#ifndef RAILBOW_PROGRAM_WANTED_H
#define RAILBOW_PROGRAM_WANTED_H

#include "cases/case_table.h"
#include "program/options.h"

#include <stdatomic.h>

typedef struct wanted {
    const options *options;
    const char *what;   /* is picked: case, tube; set by wanted_open to case */
    const char *by;     /* the option with its patterns: case, tube; likewise */
    atomic_bool *found; /* whether a case met the pattern: those of --case, of --part, of --row */
} wanted;

/* Returned: false after a message. wanted_close either way. */
bool wanted_open(wanted *w, const options *o);
void wanted_close(wanted *w);

/* Whether the case in that line meets one value of each option that was given. From any thread. A case without a part is its
 * own. */
bool wanted_is(const wanted *w, const load_case *c, size_t line);

/* The same of what has that name and belongs to that part. */
bool wanted_named(const wanted *w, const char *name, const char *part);

/* Whether every pattern and line was met. Returned: false after a message for each that was not. */
bool wanted_all_found(const wanted *w);

#endif
