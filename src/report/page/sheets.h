/* The order of the cases on the page of check, and which of them have a sheet. */
#ifndef RAILBOW_REPORT_PAGE_SHEETS_H
#define RAILBOW_REPORT_PAGE_SHEETS_H

#include "cases/check_table.h"

#include <stdbool.h>

enum { SHEETS_LEAST = 3, SHEETS_MOST = 12 };

typedef struct sheets {
    size_t *order; /* the cases, the smallest margin first; equal ones as in the file */
    size_t cases;
    size_t count;  /* so many of them, from the first, have a sheet */
} sheets;

/* all: every case has a sheet; else the short ones, the worst SHEETS_MOST of them at most, and where fewer than SHEETS_LEAST are
 * short, the tightest of those that hold with them.
 * Returned: false where memory ran out. sheets_free either way. */
bool sheets_plan(sheets *s, const check_row *rows, size_t count, bool all);
void sheets_free(sheets *s);

#endif
