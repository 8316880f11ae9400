/* The rows of files in batches: read, answered in parallel, handed on in order. */
#ifndef RAILBOW_PROGRAM_PIPELINE_H
#define RAILBOW_PROGRAM_PIPELINE_H

#include "program/refused.h"
#include "program/rows.h"
#include "program/bytes/sha256.h"
#include "table/reader.h"

typedef struct source_line { /* a row of a file, for messages */
    const char *file;
    size_t line;
} source_line;

enum { PIPELINE_STREAMS = 4096 };

typedef struct pipeline {
    const field_list *list;    /* what is read                                        */
    const void *prototype;     /* a record with the defaults of this run              */
    const field_list *results; /* what comes out                                      */
    int jobs;
    size_t per_row;            /* answers that a row may have, where they are many: memory is bounded by it; else 0.
                                  From PIPELINE_STREAMS on rows are answered one by one and pass on as they come:
                                  `answer` may then use threads of its own */
    output *out;
    rows *kept;                /* takes the records where the output's format is text */
    bool (*prefers)(const void *record, const void *kept); /* as in rows.h; NULL for none */
    const void *context;
    refused_rows *refused;     /* takes the rows without an answer; NULL: not wanted  */
    size_t *lost;              /* counts the files that could not be read to their end; likewise */
    sha256 *digest;            /* of the bytes read; NULL: not wanted                 */

    /* Called before the first row of each file is answered, its header read; NULL: not wanted. Returned: false after a
     * message; the file is then not answered. */
    bool (*begin)(const void *context, const char *file, const reader *from);

    /* Answers one row of the file with any number of rows. May run in any thread; adds finished messages to
     * `complaints`. Returned: ALL_HOLD, SOME_SHORT or NO_VERDICT. */
    int (*answer)(const void *context, const source_line *at, const void *record, rows *answers, text *complaints);
} pipeline;

/* Runs every file ("-" is stdin) through it.
 * Returned: the worst of all answers, NO_VERDICT after any message. */
int pipeline_run(const pipeline *p, char **files, int count);

#endif
