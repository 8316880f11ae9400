/* The rows of files that have no answer: how many, and where the first of them stand. */
#ifndef RAILBOW_PROGRAM_REFUSED_H
#define RAILBOW_PROGRAM_REFUSED_H

#include "table/text.h"

#include <stdbool.h>

enum { REFUSED_NAMED = 8 };

typedef struct refused_rows {
    bool names_files; /* more than one file is read */
    size_t count;
    size_t lines[REFUSED_NAMED];
    const char *files[REFUSED_NAMED]; /* names of the command line, which outlive the run */
} refused_rows;

void refused_add(refused_rows *r, const char *file, size_t line);

/* "line 5", "lines 5 and 6", "line 5 of a.csv and line 6 of b.csv", "lines 2, 3 ... and 4 more"; nothing for none. */
void refused_say(text *out, const refused_rows *r);

#endif
