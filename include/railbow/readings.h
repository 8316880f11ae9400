/* Gauge readings of a tube: an off-centre bore from wall readings round the clock. */
#ifndef RAILBOW_READINGS_H
#define RAILBOW_READINGS_H

#include <railbow/status.h>

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_wall_reading {
    double clock; /* rad */
    double wall;  /* in */
} rbow_wall_reading;

typedef struct rbow_bore {
    double mean;       /* in: wall = mean + offset cos(clock - thick) */
    double offset;     /* in, >= 0: distance of the bore from the centre */
    double thin_clock; /* rad, 0 <= clock < 2 pi; NaN if the wall is even */
    double least;      /* in: mean - offset, the thinnest wall anywhere */
} rbow_bore;

/* Least-squares fit of an off-centre bore; exact for an offset that is small compared with the diameter.
 * Given:    readings, count  three or more, their clocks spread over about 55 degrees or more
 * Returned: bore
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE (too few readings, or clocks that do not determine the three unknowns) */
RBOW_API rbow_status rbow_bore_fit(const rbow_wall_reading *readings, size_t count, rbow_bore *bore);

#ifdef __cplusplus
}
#endif

#endif
