/* One equilibrium at all stations of a tube at once. */
#ifndef RAILBOW_CHECK_ALONG_H
#define RAILBOW_CHECK_ALONG_H

#include "check/prepare.h"

typedef enum quantity { MOMENT, MOVEMENT } quantity;

enum { ALONG_MOST = STATIONS_MOST + 2 * STATIONS_BEHIND };

typedef struct along { /* at the stations; see place in maximum_body.h */
    double square[ALONG_MOST], g[ALONG_MOST], g1[ALONG_MOST], g2[ALONG_MOST];
    double m[ALONG_MOST], dm[ALONG_MOST], size[ALONG_MOST], slope[ALONG_MOST];
    double bound[ALONG_MOST]; /* the square does not exceed this in the cell that follows */
} along;

typedef void along_function(const prepared *, const solution *, quantity, along *);

/* Given:    p, s, what  a member, its equilibrium, and the quantity asked for
 * Returned: out */
along_function rbow_along;

#endif
