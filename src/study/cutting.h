/* Parts and stock, size by size: which part from which stick. */
#ifndef RAILBOW_STUDY_CUTTING_H
#define RAILBOW_STUDY_CUTTING_H

#include "cases/shop/sticks_table.h"

enum { CUTTING_PIECES_MOST = 2000 }; /* of one size */

typedef enum cutting_fault {
    CUTTING_NO_SIZE,   /* no stick of this size is in stock                           */
    CUTTING_TOO_LONG,  /* none is long enough; best: the longest                       */
    CUTTING_TOO_BOWED, /* none that is long enough is straight enough; best: the least bow of such a piece, NaN: none is known */
    CUTTING_TOO_MANY,  /* more pieces of one size than are planned                     */
    CUTTING_NONE_LEFT  /* the sticks do not suffice for all pieces                     */
} cutting_fault;

typedef struct cutting_task {
    const part_row *parts;
    size_t part_count;
    const stock_row *stock;
    size_t stock_count;
    double kerf, density;
    void *context;
    void (*take)(void *context, const stick_row *piece); /* its texts are valid during the call */
    /* pieces: how many of the part have no stick */
    void (*refuse)(void *context, const part_row *part, cutting_fault fault, size_t pieces, double best);
} cutting_task;

/* Sizes in the order of the parts, sticks in that of the stock, the longest piece of a stick first.
 * Returned: false where memory ran out */
bool cut_sticks(const cutting_task *t);

#endif
