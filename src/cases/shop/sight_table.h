/* Readings of a bar or a string, and what sight finds in them, as tables. */
#ifndef RAILBOW_CASES_SHOP_SIGHT_TABLE_H
#define RAILBOW_CASES_SHOP_SIGHT_TABLE_H

#include "table/field.h"

#include <railbow/sight.h>

enum { SIGHT_SOCKET, SIGHT_TUBE };

typedef struct sight_reading_row {
    const char *line;
    int kind;
    rbow_sight_reading reading;
    double landing;   /* NaN: not given */
    const char *file; /* not in the table: where it stands, for messages */
    size_t at;
} sight_reading_row;

enum { SIGHT_SIGNIFICANT, SIGHT_WITHIN_ERROR, SIGHT_RECHECK };

typedef struct sight_row { /* NaN: does not exist */
    const char *line;
    int kind, verdict;
    double miss, miss_clock, miss_error;
    double bow, bow_clock, bow_error, bow_at; /* the last of a kink alone */
    const char *bow_shape;
    double readings;
    rbow_sight found;
    double landing;               /* the rest is not in the table */
    const rbow_sight_reading *at; /* the readings, which outlive the row */
    size_t count;
} sight_row;

extern const field_list sight_reading_list, sight_list;
extern const field_word sight_kind_words[], sight_verdict_words[];

#endif
