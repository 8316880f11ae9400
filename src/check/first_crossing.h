/* The first load factor at which a limit is reached. */
#ifndef RAILBOW_CHECK_FIRST_CROSSING_H
#define RAILBOW_CHECK_FIRST_CROSSING_H

#include "check/batch.h"

enum { SCANS_KEPT = 4 };

typedef struct scan { /* eight even steps of the load factor, both ends among them */
    double factor[BATCH];
    batch seen;
} scan;

typedef struct path { /* a member with one locked-in tension, over the load factor */
    const prepared *prepared;
    double tension;
    double at_rest[LIMITS]; /* utilisation at load factor 0 */
    scan kept[SCANS_KEPT]; /* both limits come from one equilibrium: what one search has scanned serves the other */
    int scan_count;        /* of all there were; the oldest are forgotten */
    double likely;         /* a load factor that the crossings are likely to lie below; 0 where nothing is known: it saves time */
    bool failed;           /* something was not a number, or there were too many scans */
} path;

/* Given: at_rest  the evaluation at load factor 0 with this tension; NULL: it is made */
path rbow_path_of(const prepared *p, double tension, const evaluation *at_rest);

/* Given:    from, to  the range; below its limit at `from`
 * Returned: the smallest load factor in it at which the limit's utilisation reaches 1, to 1e-8 of it; INFINITY for none
 * May miss: a hump that exceeds the limit by less than 1e-7 of it, and no other, as long as the moments bend over the
 *           load factor at most twice as much between two samples as the samples tell (first_crossing.c says why they do not) */
double rbow_first_crossing(path *p, limit which, double from, double to);

#endif
