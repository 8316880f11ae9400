/* Numbers and values as people read them. */
#ifndef RAILBOW_REPORT_VALUES_H
#define RAILBOW_REPORT_VALUES_H

#include "table/text.h"
#include "table/unit.h"

/* One number: at most `digits` significant ones, "no limit" for infinity, "-" for what does not exist. */
void put_number(text *out, double value, int digits);

/* A share, "+12.3 %": "no limit" for infinity, "over 9999 %" where digits tell nothing. */
void put_percent(text *out, double share);

/* A load factor, "1.23": "no limit", "over 999" likewise. */
void put_factor(text *out, double factor);

const char *unit_name(dimension d, unit_system units); /* "" for a plain number */
double shown(double value, dimension d, unit_system units);

/* A value with its unit, in a sentence. */
void put_value(text *out, double value, dimension d, unit_system units);

#endif
