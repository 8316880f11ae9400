/* What a gauge or a scale of the shop reads, with its unit. */
#ifndef RAILBOW_REPORT_TEXT_MEASURES_H
#define RAILBOW_REPORT_TEXT_MEASURES_H

#include "report/text/grid.h"
#include "table/unit.h"

/* In a sentence: four digits, "-" for what does not exist. */
void put_measure(text *out, double value, dimension d, unit_system units);

/* " toward clock 30"; nothing for a clock of nothing. */
void put_clock(text *out, double clock);

/* As a cell, without its unit. */
void add_measure(grid *g, double value, dimension d, unit_system units, int digits);

#endif
