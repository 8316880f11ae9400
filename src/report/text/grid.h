/* An aligned table of short texts, as wide as the terminal at most. */
#ifndef RAILBOW_REPORT_TEXT_GRID_H
#define RAILBOW_REPORT_TEXT_GRID_H

#include "table/text.h"

#include <stdbool.h>

enum { GRID_COLUMNS_MOST = 40 };

typedef enum grid_kind {
    GRID_LEFT,
    GRID_RIGHT,
    GRID_NAME, /* what users named: where it does not fit its middle gives way to an ellipsis; names that would then look
                  alike stand whole, on several lines */
    GRID_WORDS /* a sentence, broken at blanks */
} grid_kind;
typedef enum grid_tone { TONE_PLAIN, TONE_GOOD, TONE_BAD, TONE_QUIET } grid_tone;

typedef struct grid {
    grid_kind kinds[GRID_COLUMNS_MOST];
    int spare[GRID_COLUMNS_MOST];
    size_t columns;
    text heads; /* each: the text, a NUL */
    text cells; /* each: a tone, the text, a NUL */
    size_t count;
} grid;

/* Columns from left to right, then cells row by row. A tone shows only with colour, and never alone carries a meaning. */
void grid_column(grid *g, grid_kind kind, const char *format, ...) __attribute__((format(printf, 3, 4)));
void grid_cell(grid *g, grid_tone tone, const char *cell);
void grid_format(grid *g, grid_tone tone, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* A cell that was built; empties it. */
void grid_text(grid *g, grid_tone tone, text *cell);

/* The column added last may be left out where the table is too wide: those of the highest rank first. */
void grid_spare(grid *g, int rank);

void grid_free(grid *g);

/* Bytes that switch a tone on and off; empty without colour. */
const char *tone_on(grid_tone tone, bool colour);
const char *tone_off(bool colour);

#endif
