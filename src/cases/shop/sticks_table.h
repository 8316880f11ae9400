/* Parts to be cut, sticks in stock, and the cutting plan, as tables. */
#ifndef RAILBOW_CASES_SHOP_STICKS_TABLE_H
#define RAILBOW_CASES_SHOP_STICKS_TABLE_H

#include "table/field.h"

#include <railbow/sticks.h>

typedef struct part_row {
    const char *part;
    double od, wall, length, count;
    double bow_most;  /* NaN: any */
    const char *file; /* not in the table: where it stands, for messages */
    size_t at;
} part_row;

typedef struct stock_row {
    const char *stick;
    double od, wall, length, count;
    double bow; /* NaN: not known */
} stock_row;

typedef struct stick_row { /* one piece. NaN: does not exist */
    const char *stick; /* "mill 1" */
    double position;   /* from 1 */
    const char *part;
    double od, wall;
    double cut_from, cut_to;
    double bow, bow_most;
    double weight;
    double stick_length, stick_bow;
    double remainder, remainder_weight, kerf_weight; /* on the last piece of a stick */
    int basis;
    double sticks, least_sticks;  /* of this size */
    size_t size;                  /* not in the table: the number of the size, from 0; of its pieces, and its largest remainder */
    double pieces, largest;
} stick_row;

extern const field_list part_list, stock_list, stick_list;
extern const field_word cutting_basis_words[];

#endif
