/* Pulls, and the answers of pull, as tables. */
#ifndef RAILBOW_CASES_PULL_TABLE_H
#define RAILBOW_CASES_PULL_TABLE_H

#include "table/field.h"

#include <railbow/pull.h>

typedef struct pull_row {
    const char *name, *material;
    rbow_pull pull; /* elastic_modulus and yield are the material's */
} pull_row;

typedef struct pulled_row {
    const char *name;
    double set;
    rbow_pulled found;
    int step; /* 1, 2 ... of a pull in steps; 0 for the pull alone; not in the table */
} pulled_row;

extern const field_list pull_list, pulled_list;

#endif
