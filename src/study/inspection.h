/* The readings of one tube against its spec: the fit of its bore, and a verdict with reasons. */
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

/* A clock for people: whole degrees, 0 ... 359. */
int clock_degrees(double clock);

/* Whether the i-th reading is of the same measure and place as one before it. It then counts once; which of them holds is
 * for the shop to say. Without clocks they are of different places. */
bool is_doubled(const tube_readings *t, size_t i);

/* Returned: tube  means and extremes, the fit, and the verdict; no load case yet
 *           false where memory ran out */
bool inspect_tube(const tube_readings *t, inspect_row *tube, text *reasons);

#endif
