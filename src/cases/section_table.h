/* The results of section as a table. */
#ifndef RAILBOW_CASES_SECTION_TABLE_H
#define RAILBOW_CASES_SECTION_TABLE_H

#include "table/field.h"

#include <railbow/tube.h>

typedef struct section_row {
    rbow_section section;
    double weight_per_length;
} section_row;

extern const field_list section_list; /* of section_row */

#endif
