/* Units of measure: what may stand in a header's brackets, and its factor to the program's own unit. */
#ifndef RAILBOW_TABLE_UNIT_H
#define RAILBOW_TABLE_UNIT_H

#include <stddef.h>

typedef enum dimension {
    DIM_NONE, /* a plain number: no bracket */
    DIM_LENGTH,
    DIM_FORCE,
    DIM_STRESS,
    DIM_MOMENT,
    DIM_FORCE_PER_LENGTH,
    DIM_ROTATIONAL_STIFFNESS,
    DIM_DENSITY,
    DIM_MASS,
    DIM_MASS_PER_LENGTH,
    DIM_AREA,
    DIM_SECTION_MODULUS,
    DIM_INERTIA,
    DIM_ANGLE, /* in degrees where a header has no bracket */
    DIM_HEADER_COUNT, /* a header of an input may have those before; answers alone have those from here on */
    DIM_TURN = DIM_HEADER_COUNT, /* a small angle, in rad */
    DIM_COUNT
} dimension;

typedef enum unit_system { UNITS_US, UNITS_SI } unit_system;

typedef struct unit {
    const char *name;
    dimension dimension;
    double factor; /* program's unit = value x factor; exact by definition of the inch, pound and g */
    double times, over; /* the factor as a quotient of whole numbers if it is one: 5 over 127 for mm */
} unit;

/* A value to the program's own unit and from it. Nearer than a product with the factor: 25.4 mm are 1 in,
 * where the product is 0.9999999999999999. */
double unit_to_own(const unit *u, double value);
double unit_from_own(const unit *u, double own);

/* The unit of that name for that dimension, or NULL. Case matters (MPa is not mPa). */
const unit *unit_find(dimension d, const char *name, size_t length);

/* The unit in which results of this dimension are written. NULL for DIM_NONE. */
const unit *unit_shown(dimension d, unit_system system);

/* All names of a dimension, for messages: "in, ft, mm, cm or m". */
struct text;
void unit_say_names(struct text *out, dimension d);

/* The i-th unit of a dimension, or NULL past the last. */
const unit *unit_at(dimension d, size_t i);

#endif
