/* Numbers on the command line, alone or with their unit: "1.25", "0.058in", "32mm", "1-1/4in", 3' 6". */
#ifndef RAILBOW_PROGRAM_MEASURE_H
#define RAILBOW_PROGRAM_MEASURE_H

#include "table/unit.h"

#include <stdbool.h>

typedef struct measure {
    const char *at;  /* as it was typed */
    size_t length;
    bool has_unit;   /* it names its unit, or bears marks of feet and inches */
    double value;    /* in the program's unit, if it has one */
} measure;

/* Returned: whether the text is a number, alone or with a unit of that dimension. An infinite one is none. */
bool measure_read(const char *at, size_t length, dimension d, measure *m);

/* The value of a measure; a bare one is in `u` (NULL: a plain number). Returned: false where it cannot be in that unit: a
 * fraction in one that is not inches or feet. */
bool measure_in(const measure *m, const unit *u, double *value);

typedef struct measures {
    measure *at;
    size_t count;
    bool have_units; /* all of them, or none */
} measures;

/* A list "0.049,0.058" of values above 0. Returned: false after a message that names the option. */
bool measures_read(measures *m, const char *option, const char *list, dimension d);
void measures_free(measures *m);

/* The values of such a list in the program's unit, the first `most`. Every value names its unit.
 * Returned: how many; 0 after a message: out of memory */
size_t measures_values(const char *option, const char *list, dimension d, double values[], size_t most);

/* Why what was typed is not one number: a comma. NULL where it is not that. */
const char *measure_advice(const char *at, size_t length);

#endif
