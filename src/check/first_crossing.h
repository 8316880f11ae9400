/* The first load factor at which a limit is reached. */
#ifndef RAILBOW_CHECK_FIRST_CROSSING_H
#define RAILBOW_CHECK_FIRST_CROSSING_H

#include "check/batch.h"

enum { SCANS_KEPT = 4 };

typedef struct scan { /* eight evenly spaced load factors, both ends included */
    double factor[BATCH];
    batch seen;
} scan;

/* What is followed over the load factor in place of the tube's own limits. Its utilisations must be convex in the axial load, the
 * moments, the torque and the shear; second_difference is that of utilisation through moments and shear. */
typedef struct gauge {
    void (*eight)(const void *of, const prepared *p, const double factor[BATCH], bool even, batch *out);
    double (*one)(const void *of, const prepared *p, limit which, double factor); /* INFINITY without an equilibrium */
} gauge;

typedef struct path { /* a member over the load factor */
    const prepared *prepared;
    const gauge *gauge;
    const void *of; /* for the gauge */
    scan kept[SCANS_KEPT]; /* both limits come from one equilibrium, so the scans of one search serve the other */
    int scan_count;        /* number of all scans made; the oldest are discarded */
    bool failed;           /* whether a value was not a number, or there were too many scans */
} path;

/* Their room for scans is not cleared. The first follows the limits of the tube. */
path rbow_path_of(const prepared *p);
path rbow_path_by(const prepared *p, const gauge *by, const void *of);

/* Given:    from, to  the range
 * Returned: the smallest load factor in it at which the limit's utilisation reaches 1, to 1e-8 of it; INFINITY for none
 * May miss: a hump that exceeds the limit by less than 1e-7 of it, and no other, provided that the moments curve over the
 *           load factor at most twice as much between two samples as the samples show; first_crossing.c explains why
 *           they do not curve more */
double rbow_first_crossing(path *p, limit which, double from, double to);

/* The same from 0 to `end`, which may be INFINITY: the range is widened until the limit is beyond it. For a member whose axial load
 * no load factor brings to buckling. */
double rbow_first_crossing_from_rest(path *p, limit which, double end);

#endif
