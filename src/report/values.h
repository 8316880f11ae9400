/* Numbers and values as people read them. No number here is ever "-0". */
#ifndef RAILBOW_REPORT_VALUES_H
#define RAILBOW_REPORT_VALUES_H

#include "table/text.h"
#include "table/unit.h"

/* Which way a number goes when it is rounded: what is allowed goes down, what is needed up. */
typedef enum rounding { ROUND_NEAREST, ROUND_DOWN, ROUND_UP } rounding;

/* One number: at most `digits` significant ones, "no limit" for infinity, "-" for what does not exist. */
void put_number(text *out, double value, int digits);

/* With so many decimals. */
void put_decimals(text *out, double value, int decimals, rounding way);

/* A share, "+12.3 %": "no limit" for infinity, "over 9999 %" where digits tell nothing. A share below 0 never shows as 0.0. */
void put_percent(text *out, double share);

/* A load factor that is reached, "1.23", rounded down: "no limit" for infinity, "over 999" likewise. */
void put_factor(text *out, double factor);

/* A load factor that is required, rounded up. */
void put_required(text *out, double factor);

const char *unit_name(dimension d, unit_system units); /* "" for a plain number */
double shown(double value, dimension d, unit_system units);

/* A value that a user gave, with its unit, in a sentence: at most six digits. */
void put_value(text *out, double value, dimension d, unit_system units);

/* A value that was worked out, as a shop uses it: lengths to 0.001 in or 0.01 mm, angles to 0.1 deg, masses to 0.01, all
 * else to three significant digits. The first without its unit. */
void put_bare(text *out, double value, dimension d, unit_system units, rounding way);
void put_quantity(text *out, double value, dimension d, unit_system units, rounding way);

/* A length in inch as the nearest 1/64 that way, "17/64", "1 1/4"; nothing for whole inches, for what is not a length in
 * inch, and beyond 100 in. */
void put_fraction(text *out, double value, dimension d, unit_system units, rounding way);

/* "0.264 in (1/4)" */
void put_length(text *out, double value, unit_system units, rounding way);

#endif
