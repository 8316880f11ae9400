/* What comes from the shop as tables: cuts, pulls, specs and gauge readings, and their field lists. */
#ifndef RAILBOW_COMMAND_SHOP_TABLE_H
#define RAILBOW_COMMAND_SHOP_TABLE_H

#include "table/field.h"

#include <railbow/pull.h>
#include <railbow/release.h>

typedef struct cut_row {
    const char *name, *material;
    rbow_cut cut; /* elastic_modulus is the material's */
} cut_row;

typedef struct pull_row {
    const char *name, *material;
    rbow_pull pull; /* elastic_modulus and yield are the material's */
} pull_row;

typedef struct spec_row { /* NaN: not asked */
    const char *part;
    double od_least, od_most, wall_least, bow_most;
} spec_row;

enum { MEASURE_OD, MEASURE_WALL, MEASURE_BOW };

typedef struct reading_row {
    const char *tag, *part;
    int measure;
    double clock; /* NaN where not read */
    double reading;
} reading_row;

extern const field_list cut_list, pull_list, spec_list, reading_list;

#endif
