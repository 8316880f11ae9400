/* All stations of a tube at once, one equilibrium. */
#ifndef RAILBOW_ENGINE_ALONG_H
#define RAILBOW_ENGINE_ALONG_H

#include "engine/prepare.h"

typedef enum quantity { MOMENT, MOVEMENT } quantity;

typedef struct along {
    double square[STATIONS_MOST + STATIONS_BEHIND]; /* of the vector's length, at the stations */
    double bound[STATIONS_MOST + STATIONS_BEHIND];  /* no place of the cell that follows has a higher square */
} along;

typedef void along_function(const prepared *, const solution *, quantity, along *);

/* Given:    p, s, what  a member, its equilibrium, and what is asked
 * Returned: out */
along_function rbow_along;

#endif
