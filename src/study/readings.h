/* Which readings of a tube are possible, and which were taken twice. */
#ifndef RAILBOW_STUDY_READINGS_H
#define RAILBOW_STUDY_READINGS_H

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

/* Of the same measure, and at the same clock. Readings without a clock are at different places. */
bool is_same_place(const reading_row *a, const reading_row *b);

/* What the spec and the tube's other readings make possible, in; NaN for a bound that is not known. */
typedef struct possible_readings {
    double od_least, od_most, wall_least, wall_most;
    double half_od; /* a thicker wall has no bore left */
} possible_readings;

possible_readings possible_for(const tube_readings *t);

/* An impossible reading is a slip of the decimal point or of the unit, and is ignored. */
bool is_possible_reading(const possible_readings *p, const reading_row *r);

/* Whether the walls that can be differ by more than an off-centre bore explains: then at least one of them is a slip. */
bool walls_are_apart(const tube_readings *t, const possible_readings *p);

/* Adds a reason for each reading that cannot be. Returned: whether there was one */
bool say_impossible(text *reasons, const tube_readings *t, const possible_readings *p);

/* Adds a remark for each place that was read more than once. */
void say_doubled(text *reasons, const tube_readings *t, const possible_readings *p);

/* Adds "; " where a reason stands before. */
void begin_reason(text *reasons);

/* "0.0585 in" */
void put_reading(text *out, const tube_readings *t, double value);

#endif
