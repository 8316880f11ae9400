/* The answers of the studies in words and tables, for a terminal. Each: rows in the order of the file;
 * faults: some rows could not be answered. */
#ifndef RAILBOW_REPORT_STUDY_TEXT_H
#define RAILBOW_REPORT_STUDY_TEXT_H

#include "report/study_table.h"
#include "table/text.h"

/* own_od: no diameters were named, each case keeps its own. */
void compare_text(text *out, const compare_row *rows, size_t count, bool own_od, bool faults, unit_system units,
                  bool colour);
void sweep_text(text *out, const sweep_row *rows, size_t count, const field *const varied[], size_t columns, bool faults,
                unit_system units, bool colour);

typedef struct limit_asked {
    const field *column;
    double from, to, margin;
} limit_asked;

void limit_text(text *out, const limit_row *rows, size_t count, const limit_asked *asked, bool faults, unit_system units,
                bool colour);
void index_text(text *out, const index_row *rows, size_t count, bool faults, bool colour);
void scatter_text(text *out, const scatter_row *rows, size_t count, unsigned seed, bool faults, bool colour);

#endif
