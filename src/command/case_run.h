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
    const field_list *results;
    int jobs;      /* threads over the rows */
    bool hold;     /* the answer is written whole, by `write`, in every format */
    const void *context;
    int (*answer)(const case_run *run, const place *at, const load_case *c, rows *answers, text *complaints);
    /* Writes what was kept: the text, and with `hold` every format. Returned: false after a message.
     * May lower or raise *status (ALL_HOLD ... NO_VERDICT). */
    bool (*write)(const case_run *run, output *out, const rows *kept, int *status);

    /* set here */
    materials materials;
};

/* Returned: the exit status. */
int case_run_all(case_run *run);

/* The number column of that name. NULL after a message that names the option. */
const field *case_column(const char *option, const char *name, size_t length);

/* A value of a column on the command line. Returned: false after a message. */
bool case_value(const char *option, const field *f, const char *at, size_t length, double *value);

/* The present value of a column with its default resolved; NaN where it is a word. */
double case_present(const load_case *c, const field *f);

/* Writes a text and every row again as the format wants it. */
bool rows_write(output *out, const rows *kept);

#endif
