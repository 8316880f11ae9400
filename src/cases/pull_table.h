/* Pulls and the results of pull, as tables. */
#ifndef RAILBOW_CASES_PULL_TABLE_H
#define RAILBOW_CASES_PULL_TABLE_H

#include "table/field.h"

#include <railbow/pull.h>

typedef struct pull_row {
    const char *name, *material;
    rbow_pull pull; /* elastic_modulus and yield come from the material */
} pull_row;

typedef struct pulled_row {
    const char *name;
    double set;
    rbow_pulled found;
    int step; /* 1, 2, ... for a pull in steps; 0 for a single pull; not in the table */
} pulled_row;

extern const field_list pull_list, pulled_list;

#endif
