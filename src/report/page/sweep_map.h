/* The margin of one case over two varied columns, as a map. */
#ifndef RAILBOW_REPORT_PAGE_SWEEP_MAP_H
#define RAILBOW_REPORT_PAGE_SWEEP_MAP_H

#include "cases/sweep_table.h"
#include "report/page/page.h"

/* What all maps of a page have in common, above them. */
void page_sweep_map_words(text *out);

/* Both columns have two values each at least. rows: those of the case. least, most: margins of all cases, whose maps have the same
 * levels; the first the larger where none is finite. */
void page_sweep_map(text *out, const page_head *head, const sweep_row *rows, size_t count, const sweep_asked *asked,
                    double least, double most);

#endif
