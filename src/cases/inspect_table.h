/* Specifications, gauge readings and the results of inspect, as tables. */
#ifndef RAILBOW_CASES_INSPECT_TABLE_H
#define RAILBOW_CASES_INSPECT_TABLE_H

#include "table/field.h"

#include <railbow/readings.h>

typedef struct spec_row { /* NaN: no requirement */
    const char *part;
    double od_least, od_most, wall_least, bow_most;
} spec_row;

enum { MEASURE_OD, MEASURE_WALL, MEASURE_BOW };

typedef struct reading_row {
    const char *tag, *part;
    int measure;
    double clock; /* NaN if it was not read */
    double reading;
} reading_row;

enum { INSPECT_MEETS, INSPECT_RECHECK, INSPECT_UNREAD, INSPECT_BELOW };

typedef struct inspect_row { /* NaN: not read */
    const char *tag, *part;
    double od_mean, od_least, od_most, ovality;
    double wall_least;
    rbow_bore bore; /* by the fit; without a fit the mean is that of the readings and the rest is NaN */
    double bow;
    int verdict;
    const char *reason;
    const char *name; /* of a load case, with --cases */
    double margin_nominal, margin_measured;
    int repeated; /* not in the table: the row before has the same tag */
} inspect_row;

extern const field_list spec_list, reading_list;
extern const field_list inspect_list, inspect_cases_list; /* the second has three more columns, for a load case */
extern const field_word measure_words[], inspect_words[];

#endif
