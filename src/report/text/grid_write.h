/* A grid on a screen. */
#ifndef RAILBOW_REPORT_TEXT_GRID_WRITE_H
#define RAILBOW_REPORT_TEXT_GRID_WRITE_H

#include "report/screen.h"
#include "report/text/grid.h"

/* Adds the table, no line wider than the screen, and below it the heads of the columns that were left out. */
void grid_write(text *out, const grid *g, const screen *s);

#endif
