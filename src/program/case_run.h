/* A command that answers load cases: materials and output opened, files run through, text written. */
#ifndef RAILBOW_PROGRAM_CASE_RUN_H
#define RAILBOW_PROGRAM_CASE_RUN_H

#include "program/changes.h"
#include "program/details.h"
#include "program/facts.h"
#include "program/materials.h"
#include "program/options.h"
#include "program/wanted.h"

#include <stdatomic.h>

typedef struct case_run case_run;
struct case_run {
    /* set by the command */
    const options *options;
    const char *name;
    const field_list *list;    /* what is read; NULL for load cases */
    const field_list *results;
    const field_list *kept;  /* what is kept for a text or a page, where that is more; `write` then writes it in every format; NULL */
    const field_list *shown; /* what is written of the results; NULL for all; needs writes_whole */
    int jobs;      /* threads over the rows */
    size_t per_row; /* answers of a row where they are many, as in pipeline.h */
    const char *curves, *curves_sha256; /* the table of S-N curves; NULL: none is read */
    bool writes_whole; /* `write` writes the answer, whole, in every format */
    const void *context;
    void *state;   /* what `begin` may change; the context, as a rule */
    /* Takes from each file's header what bare values on the command line need; NULL: nothing. As in pipeline.h. */
    bool (*begin)(const case_run *run, const char *file, const reader *from);
    int (*answer)(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints);
    /* Of a JSON answer: a table beside the rows, from the rows kept or from the one of them that is preferred; NULL: none. */
    bool (*prefers)(const void *record, const void *kept);
    rows (*beside)(const case_run *run, unit_system units, const rows *kept);
    const char *beside_name;
    /* Writes what was kept: the text, and with `writes_whole` every format. Returned: false after a message.
     * May lower or raise *status (ALL_HOLD ... NO_VERDICT). */
    bool (*write)(const case_run *run, output *out, const rows *kept, int *status);
    /* Writes the page that --report names, beside the answer. Returned: false after a message. */
    bool (*report)(const case_run *run, output *page, const rows *kept, int status);

    /* set here */
    bool keeps;           /* answers are kept, not written as they come */
    materials materials;
    wanted wanted;
    case_changes changes; /* of --set */
    details details;      /* --details */
    run_facts facts;
    refused_rows refused; /* rows without an answer */
    size_t lost;          /* files that could not be read to their end */
    atomic_size_t *own_factors; /* rows for which --factor does nothing */
};

/* Returned: the exit status. */
int case_run_all(case_run *run);

/* Every kept row once more, as the output's format wants it. Returned: false after a message. */
bool rows_write(output *out, const rows *kept);

#endif
