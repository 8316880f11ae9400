/* An aligned table of short texts, for a terminal. */
#ifndef RAILBOW_REPORT_TEXT_GRID_H
#define RAILBOW_REPORT_TEXT_GRID_H

#include "table/text.h"

enum { GRID_COLUMNS_MOST = 40 };

typedef enum grid_align { GRID_LEFT, GRID_RIGHT } grid_align;
typedef enum grid_tone { TONE_PLAIN, TONE_GOOD, TONE_BAD, TONE_QUIET } grid_tone;

typedef struct grid {
    const char *heads[GRID_COLUMNS_MOST];
    grid_align aligns[GRID_COLUMNS_MOST];
    size_t columns;
    text cells; /* each: a tone, the text, a NUL */
    size_t count;
} grid;

void grid_column(grid *g, const char *head, grid_align align);
/* Cells row by row. A tone shows only with colour, and never alone carries a meaning. */
void grid_cell(grid *g, grid_tone tone, const char *cell);
void grid_format(grid *g, grid_tone tone, const char *format, ...) __attribute__((format(printf, 3, 4)));
void grid_write(text *out, const grid *g, bool colour);
void grid_free(grid *g);

/* Bytes that switch a tone on and off; empty without colour. */
const char *tone_on(grid_tone tone, bool colour);
const char *tone_off(bool colour);

#endif
