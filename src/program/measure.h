/* Numbers with their unit on the command line: "1.25", "0.058in", "32mm". */
#ifndef RAILBOW_PROGRAM_MEASURE_H
#define RAILBOW_PROGRAM_MEASURE_H

#include "table/unit.h"

#include <stdbool.h>

/* Given:    at, length  the text
 *           d           dimension; without a unit the program's own counts (an angle: degrees)
 * Returned: true and *value in the program's unit */
bool measure_read(const char *at, size_t length, dimension d, double *value);

typedef struct measures {
    double *at;
    size_t count;
} measures;

/* A list "0.049,0.058" of values above 0. Returned: false after a message that names the option. */
bool measures_read(measures *m, const char *option, const char *list, dimension d);
void measures_free(measures *m);

#endif
