/* The steps of explain as a table. */
#ifndef RAILBOW_CASES_STEP_TABLE_H
#define RAILBOW_CASES_STEP_TABLE_H

#include "table/field.h"

typedef struct step_row { /* part is the heading above the step */
    const char *name, *part, *step, *formula, *numbers;
    double result;
    const char *unit, *source;
} step_row;

extern const field_list step_list; /* of step_row */

#endif
