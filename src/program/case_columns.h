/* Columns of the load cases as the command line names them, and their values. */
#ifndef RAILBOW_PROGRAM_CASE_COLUMNS_H
#define RAILBOW_PROGRAM_CASE_COLUMNS_H

#include "cases/case_table.h"
#include "program/column_unit.h"
#include "program/measure.h"
#include "table/text.h"

/* The number column of that name. NULL after a message that names the option. */
const field *case_column(const char *option, const char *name, size_t length);

/* The column of that name, a text or a word too. */
const field *case_column_of_any_kind(const char *option, const char *name, size_t length);
bool case_is_wall(const field *f);

/* Its place in the member. */
static inline size_t case_parameter(const field *f)
{
    return f->offset - offsetof(load_case, member);
}

/* A value of a column on the command line. Returned: false after a message. */
bool case_measure(const char *option, const field *f, const char *at, size_t length, measure *m);

/* The three values of --vary COLUMN=FROM:TO:STEP; `given` is the whole word, and `at` what follows its =. case_range_refuse says that
 * a word has not that form. Returned: false after a message. */
bool case_range(const field *f, const char *given, const char *at, measure three[3]);
bool case_range_refuse(const char *given);

/* The values of a measure in the unit of the column. Returned: false after a message. */
bool case_measure_in(const column_unit *c, const measure *m, double *value);

/* The present value of a column with its default resolved; NaN where it is a word that is no number (welded). */
double case_present(const load_case *c, const field *f);

/* A value with its unit, as messages say it. */
void case_value_say(text *out, const field *f, double value);

#endif
