/* Lengths as the shop writes them: 1/16, 1 1/4, 1-1/4, a vulgar fraction, 3' 6 1/2", 1.25". */
#ifndef RAILBOW_TABLE_SHOP_LENGTH_H
#define RAILBOW_TABLE_SHOP_LENGTH_H

#include <stdbool.h>
#include <stddef.h>

typedef struct shop_length {
    double value;     /* in inches where the text bears a mark, else in the unit of its column */
    bool is_marked;   /* with ' or ", or their typographic forms                               */
} shop_length;

/* Reads the whole of text[0..n). A fraction is below 1 and has a denominator of 2, 4, 8 ... 128, or is one of the
 * vulgar fractions of Unicode; its whole part stands before it with blanks, a hyphen or nothing between. Behind feet the inches are below 12.
 * Returned: false when it is no such length */
bool shop_length_read(const char *text, size_t n, shop_length *length);

#endif
