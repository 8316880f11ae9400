/* A command that answers load cases: materials and output opened, files run through, text written. */
#ifndef RAILBOW_COMMAND_CASE_RUN_H
#define RAILBOW_COMMAND_CASE_RUN_H

#include "command/case_table.h"
#include "command/materials.h"
#include "command/options.h"

typedef struct case_run case_run;
struct case_run {
    /* set by the command */
    const options *options;
    const char *name;
    const field_list *list;    /* what is read; NULL for load cases */
    const field_list *results;
    int jobs;      /* threads over the rows */
    bool hold;     /* the answer is written whole, by `write`, in every format */
    const void *context;
    int (*answer)(const case_run *run, const place *at, const void *record, rows *answers, text *complaints);
    /* Writes what was kept: the text, and with `hold` every format. Returned: false after a message.
     * May lower or raise *status (ALL_HOLD ... NO_VERDICT). */
    bool (*write)(const case_run *run, output *out, const rows *kept, int *status);
    /* Writes the page that --report names, beside the answer. Returned: false after a message. */
    bool (*report)(const case_run *run, output *page, const rows *kept, int status);

    /* set here */
    materials materials;
    size_t refused; /* rows without an answer */
};

/* Returned: the exit status. */
int case_run_all(case_run *run);

/* The number column of that name. NULL after a message that names the option. */
const field *case_column(const char *option, const char *name, size_t length);

/* A value of a column on the command line. Returned: false after a message. */
bool case_value(const char *option, const field *f, const char *at, size_t length, double *value);

/* The present value of a column with its default resolved; NaN where it is a word that is no number (welded). */
double case_present(const load_case *c, const field *f);

/* Whether the materials have the case's, and a row for its wall where the wall itself is not varied.
 * Returned: false after adding a message. */
bool case_is_served(const case_run *run, const load_case *c, bool varies_wall, const place *at, text *complaints);
bool case_is_wall(const field *f);

/* Adds the message of an answer that there is not; `where` follows it, "" for nothing. */
void case_refused(text *complaints, const place *at, rbow_status status, const char *where);

/* A value with its unit, as messages say it. */
void case_value_say(text *out, const field *f, double value);

/* Every kept row once more, as the output's format wants it. Returned: false after a message. */
bool rows_write(output *out, const rows *kept);

#endif
