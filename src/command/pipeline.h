/* Rows of a file through a piece of work, in batches: read, answered in parallel, handed on in order. */
#ifndef RAILBOW_COMMAND_PIPELINE_H
#define RAILBOW_COMMAND_PIPELINE_H

#include "command/output.h"
#include "table/reader.h"

typedef struct place { /* for messages */
    const char *file;
    size_t line;
} place;

typedef struct pipeline {
    const field_list *list;
    const void *prototype;  /* a record with the defaults of this run */
    size_t result_size;     /* room for one answer */
    int jobs;
    output *out;
    const void *context;

    /* Answers one row. May run in any thread; adds what is to be written to `written` and finished messages
     * to `complaints`. Returned: ALL_HOLD, SOME_SHORT or NO_VERDICT. */
    int (*answer)(const void *context, const place *at, const void *record, void *result, text *written,
                  text *complaints);

    /* Called in the order of the file for every row that was answered without complaint, or NULL.
     * Returned: false stops the run (out of memory). */
    bool (*keep)(void *kept, const void *result);
    void *kept;
} pipeline;

/* Runs every file ("-" is stdin) through it.
 * Returned: the worst of all answers, NO_VERDICT after any message. */
int pipeline_run(const pipeline *p, char **files, int count);

#endif
