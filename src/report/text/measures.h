/* Clocks of the shop in words. */
#ifndef RAILBOW_REPORT_TEXT_MEASURES_H
#define RAILBOW_REPORT_TEXT_MEASURES_H

#include "report/text/grid.h"

/* " toward clock 30"; nothing for a clock of nothing. */
void put_clock(text *out, double clock);

/* A clock in whole degrees, 0 ... 359, or with one decimal. */
void put_degrees(text *out, double clock, int decimals);

/* The same as a cell: "any" for a direction that is not known, "-" for none. */
void add_clock(grid *g, double clock, int decimals);

#endif
