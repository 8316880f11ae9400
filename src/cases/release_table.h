/* Cuts and the results of release, as tables. */
#ifndef RAILBOW_CASES_RELEASE_TABLE_H
#define RAILBOW_CASES_RELEASE_TABLE_H

#include "table/field.h"

#include <railbow/release.h>

typedef struct cut_row {
    const char *name, *material;
    rbow_cut cut; /* elastic_modulus comes from the material */
} cut_row;

enum { BASIS_TURN_READ, BASIS_LEAST_ENERGY };

typedef struct release_row {
    const char *name;
    rbow_released found;
    double yield_use;
    int basis;
} release_row;

extern const field_word basis_words[];
extern const field_list cut_list, release_list;

#endif
