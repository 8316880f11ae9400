/* How wide each column of a grid becomes, and how its names look there. */
#ifndef RAILBOW_REPORT_TEXT_GRID_LAYOUT_H
#define RAILBOW_REPORT_TEXT_GRID_LAYOUT_H

#include "report/text/grid.h"

enum { GRID_GAP = 2 };

typedef struct grid_layout {
    size_t widths[GRID_COLUMNS_MOST]; /* 0: left out */
    char *whole;   /* a cell each: not 0 where its name must stand whole; NULL where all do or memory ran out */
    bool failed;   /* memory ran out */
} grid_layout;

/* The cell, or head, behind this one. */
const char *grid_next(const char *cell);

void grid_lay_out(grid_layout *l, const grid *g, size_t width);
void grid_layout_free(grid_layout *l);

#endif
