/* The tubes of a frame in the order of their margins. */
#ifndef RAILBOW_CASES_FRAME_ORDER_H
#define RAILBOW_CASES_FRAME_ORDER_H

#include "cases/frame_results.h"

enum { FRAME_LISTED_WHOLE = 20, FRAME_CLOSEST = 10 }; /* a frame of more tubes lists the short ones and so many of the others */

typedef struct frame_order {
    size_t *tubes; /* below `judged` of the answers; the smallest margin first */
    size_t count;
} frame_order;

/* Returned: false where memory ran out; the order is then empty. At least one run has an answer. */
bool frame_order_of(frame_order *order, const frame_answers *a);
void frame_order_free(frame_order *order);

/* How many at its start are short or among the closest. */
size_t frame_order_listed(const frame_order *order, const frame_answers *a);

#endif
