/* What the texts share: cells of their tables, paragraphs, what they begin and what they end with. */
#ifndef RAILBOW_REPORT_TEXT_CELLS_H
#define RAILBOW_REPORT_TEXT_CELLS_H

#include "report/screen.h"
#include "report/text/grid.h"
#include "report/text/grid_write.h"
#include "report/values.h"

/* A name that a user gave, safe to print: as a cell of a GRID_NAME, and quoted and whole in a sentence. */
void add_name(grid *g, const char *name);
void put_name(text *out, const char *name);

/* A margin, good or bad by its sign. */
void add_margin(grid *g, double margin);
grid_tone tone_of(double margin);

/* What a forced fit costs, in points of margin; NaN for nothing. */
void add_points(grid *g, double cost);

/* A value that was worked out, as a cell without its unit, and the 1/64 behind it as a cell of its own. */
void add_quantity(grid *g, double value, dimension d, unit_system units, rounding way);
void add_fraction(grid *g, double value, dimension d, unit_system units, rounding way);

/* Columns of a sentence: those of the screen, but no more than an eye follows. */
size_t prose_width(const screen *s);

/* A paragraph, its lines but the first indented; nothing where it is empty. The second frees it. */
void put_paragraph(text *out, const text *paragraph, size_t indent, grid_tone tone, const screen *s);
void put_lines(text *out, text *line, size_t indent, const screen *s);
void put_sentence(text *out, const char *sentence, size_t indent, const screen *s);

/* What every text begins with where some rows have no answer: "NOT CHECKED: lines 5 and 6 (reasons above)." */
void put_refused(text *out, const screen *s);

/* What every answer about load cases assumes. */
void put_assumptions(text *out, const screen *s);

/* What every text ends with. */
void put_end(text *out, const screen *s);

#endif
