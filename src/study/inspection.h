/* The readings of one tube against its specification: the fit of its bore, and a verdict with reasons. */
#ifndef RAILBOW_STUDY_INSPECTION_H
#define RAILBOW_STUDY_INSPECTION_H

#include "cases/inspect_table.h"
#include "table/text.h"

typedef struct tube_readings { /* all of one tag, at least one */
    const reading_row **at;
    size_t count;
    const spec_row *spec;
    double gauge;      /* uncertainty of a reading, in */
    unit_system units; /* of the reasons */
} tube_readings;

/* A clock in whole degrees, 0 ... 359, for messages. */
int clock_degrees(double clock);

/* Whether an earlier reading has the same measure and clock as the i-th. Only the first of them then counts. Readings
 * without a clock are never doubled. */
bool is_doubled(const tube_readings *t, size_t i);

/* Returned: tube  means and extremes, the fit, and the verdict; no load case
 *           false if memory ran out */
bool inspect_tube(const tube_readings *t, inspect_row *tube, text *reasons);

#endif
