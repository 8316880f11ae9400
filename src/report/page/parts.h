/* What the pages share. */
#ifndef RAILBOW_REPORT_PAGE_PARTS_H
#define RAILBOW_REPORT_PAGE_PARTS_H

#include "report/chart/chart.h"
#include "report/page/page.h"
#include "table/field.h"

enum { FIGURE_WIDTH = CHART_WIDTH }; /* the drawing units across every figure */

/* What a text says; "" where memory ran out, which the page's own text will tell. */
const char *page_said(const text *t);

/* A value with its unit, at most `digits` significant ones: "24 in". */
void page_value(text *out, double own, dimension d, unit_system units, int digits);

/* A value that was worked out, with its unit, rounded as put_bare does. */
void page_quantity(text *out, double own, dimension d, unit_system units);

/* The caution under the verdict, so that the first sheet never goes about without it. */
void page_caution(text *out);

/* The sentence that a page begins with; the second adds the caution of load cases. */
void page_verdict(text *out, bool fine, const text *sentence);
void page_sentence(text *out, bool fine, const text *sentence);

/* The same with what is assumed of a frame. */
void page_frame_sentence(text *out, bool fine, const text *sentence);

/* The same with the caution alone, where nothing of a load case is assumed. */
void page_plain_sentence(text *out, bool fine, const text *sentence);

/* The sentence of a page that checks nothing: without the colour of what holds. fault: something in it is wrong. */
void page_finding(text *out, bool fault, const text *sentence);

/* A figure with its heading and an open drawing; the same with a drawing that has stops; then the words under it. */
void page_begin_figure(text *out, const char *heading, double high, const char *title);
void page_begin_chart(text *out, const char *heading, double high, const char *title);
void page_end_figure(text *out, const char *words);

/* A user's name for a drawing: at most so many columns, shortened in the middle. */
void page_short_name(text *out, const char *name, size_t most);

/* A case of which there is nothing to draw. */
void page_words_figure(text *out, const char *heading, const char *words);

/* A column's name with its unit, as axes have it. */
void page_column_name(text *out, const field *f, unit_system units);

/* Widens a range so that a value lies in it; what is infinite or not a number does not count. */
void page_stretch(double value, double *low, double *high);

/* The y axis for margins, in per cent: from a round place at or under the least (and 0) to one at or over the most.
 * What is far above both 0 and the least is cut off. low, high: the least and the most as shares, in the wrong order
 * where none is finite. */
void page_margin_range(chart *c, double low, double high);

/* Any table of answers, every column with its unit; nothing where there is no row. */
void page_table(text *out, const field_list *list, const void *records, size_t count, unit_system units,
                const char *caption_words);

/* Around the table of all numbers, which stands closed and is not printed: the page says the same in fewer. */
void page_begin_numbers(text *out);
void page_end_numbers(text *out);

/* How many rows are missing, if any. */
void page_refused(text *out, const page_head *head);

#endif
