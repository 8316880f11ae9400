/* What the texts of the studies share. */
#ifndef RAILBOW_REPORT_STUDY_CELLS_H
#define RAILBOW_REPORT_STUDY_CELLS_H

#include "report/grid.h"
#include "table/unit.h"

/* A case's name, safe to print: as a cell, and quoted in a sentence. */
void add_name(grid *g, const char *name);
void put_name(text *out, const char *name);

/* A margin, good or bad by its sign. */
void add_margin(grid *g, double margin);
grid_tone tone_of(double margin);

const char *unit_name(dimension d, unit_system units); /* "" for a plain number */
double shown(double value, dimension d, unit_system units);

/* A value with its unit, in a sentence. */
void put_value(text *out, double value, dimension d, unit_system units);

/* A paragraph in one tone. */
void put_paragraph(text *out, const text *paragraph, grid_tone tone, bool colour);

/* What every text ends with. */
void put_end(text *out, bool faults);

#endif
