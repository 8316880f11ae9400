/* What a text must know of where it is read. */
#ifndef RAILBOW_REPORT_SCREEN_H
#define RAILBOW_REPORT_SCREEN_H

#include "table/unit.h"

#include <stdbool.h>

enum { SCREEN_WIDTH = 80, SCREEN_LEAST = 60 }; /* columns: where nothing is known of it; no text is set narrower */

typedef struct screen {
    size_t width; /* columns that a line may fill */
    unit_system units;
    bool colour;         /* it shows colour */
    bool faults;         /* some rows could not be answered, or not everything could be read */
    const char *refused; /* where these rows stand: "lines 5 and 6"; NULL or "" where that is not known */
} screen;

#endif
