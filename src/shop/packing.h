/* Pieces in sticks, as numbers: a piece and its cut are a size, a stick and one cut a capacity. */
#ifndef RAILBOW_SHOP_PACKING_H
#define RAILBOW_SHOP_PACKING_H

#include <stddef.h>

/* n pieces need n - 1 cuts where they fill their stick: sizes of length + kerf in a capacity of length + kerf say just that.
 * An arc of bow b over a length S has bow b (l/S)^2 over a part l of it: a stick serves a piece where its bow/S^2, here its
 * curvature, is at most bow_most/l^2. A curvature that is not known is infinite, and so is that of a piece which takes any. */
typedef struct rbow_packing {
    double kerf;
    size_t pieces, sticks;
    size_t *piece_order, *stick_order; /* largest first; equal pieces: the straightest need first; equal sticks: the least straight */
    double *size, *need;               /* of each piece: length + kerf, and the largest curvature that serves it */
    double *capacity, *curvature;      /* of each stick: length + kerf, and its curvature */
    double *free, *scratch;            /* room: of each stick, and of each piece or stick */
    int *trial, *open;                 /* room: the stick of each piece, and the sticks that are cut into */
} rbow_packing;

/* What a plan is worth: fewer pieces left, then fewer sticks, then less length, then a larger remainder. */
typedef struct rbow_worth {
    size_t left, sticks;
    double length, remainder;
} rbow_worth;

static const double rbow_packing_slack = 1e-9; /* in */

static inline int rbow_packing_fits(const rbow_packing *p, size_t piece, size_t stick, double free)
{
    return p->size[piece] <= free + rbow_packing_slack && p->curvature[stick] <= p->need[piece] * (1 + 1e-12);
}

int rbow_worth_more(const rbow_worth *a, const rbow_worth *b);

/* Given: stick_of  the stick of each piece, RBOW_NO_STICK for none */
rbow_worth rbow_packing_worth(const rbow_packing *p, const int stick_of[]);

/* No plan of all pieces needs fewer sticks. */
size_t rbow_packing_bound(const rbow_packing *p);

/* The best of several runs of first fit and best fit decreasing. */
rbow_worth rbow_packing_decreasing(const rbow_packing *p, int stick_of[]);

/* Branch and bound, for up to RBOW_CUTTING_PIECES pieces.
 * Given:    bound           no plan needs fewer sticks
 *           best, stick_of  a plan, replaced where a better one of all pieces is found
 * Returned: 1 where no better one exists, 0 where the search was ended first */
int rbow_packing_search(const rbow_packing *p, size_t bound, rbow_worth *best, int stick_of[]);

/* Sorts the numbers 0 ... count - 1 in `order` by first (descending) and, where it is equal, by second, ascending with sign 1. */
void rbow_packing_sort(size_t order[], size_t count, const double first[], const double second[], int sign);

#endif
