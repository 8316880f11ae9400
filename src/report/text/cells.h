/* What the texts share: cells of their tables, paragraphs, and the end. */
#ifndef RAILBOW_REPORT_TEXT_CELLS_H
#define RAILBOW_REPORT_TEXT_CELLS_H

#include "report/text/grid.h"
#include "table/unit.h"

/* A case's name, safe to print: as a cell, and quoted in a sentence. */
void add_name(grid *g, const char *name);
void put_name(text *out, const char *name);

/* A margin, good or bad by its sign. */
void add_margin(grid *g, double margin);
grid_tone tone_of(double margin);

/* A clock in degrees, 0.0 ... 359.9. */
void put_degrees(text *out, double clock);

/* A paragraph in one tone. */
void put_paragraph(text *out, const text *paragraph, grid_tone tone, bool colour);

/* A paragraph that is then freed; nothing where it is empty. */
void put_lines(text *out, text *line, size_t indent);

/* What every text of a study or of the shop ends with. */
void put_end(text *out, bool faults);

#endif
