/* The table of S-N curves: found, read whole, and asked for a curve by its name. */
#ifndef RAILBOW_PROGRAM_DETAIL_CURVES_H
#define RAILBOW_PROGRAM_DETAIL_CURVES_H

#include "cases/detail/curve_table.h"
#include "program/pipeline.h"

typedef struct curves {
    char *file; /* its name, for messages */
    char sha256[SHA256_DIGITS + 1]; /* of its bytes */
    const curve_row *list;
    size_t count;
    bool faulty; /* rows were left out, after messages */
    rows kept;   /* what list points into */
} curves;

/* Given: file, or NULL for the table in the data folder (data_folder.h). Returned: false after messages: no curve.
 * curves_close either way. */
bool curves_open(curves *c, const char *file);
void curves_close(curves *c);

/* The curve of that name, case ignored; NULL after adding a message, with the nearest name, to complaints.
 * Given: column  of the row that asks */
const rbow_sn_curve *curves_find(const curves *c, const char *name, const source_line *at, const char *column, text *complaints);

#endif
