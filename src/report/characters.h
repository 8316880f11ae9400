/* Characters of UTF-8 on a terminal: how many columns each takes, and which cannot be told from a blank or from nothing. */
#ifndef RAILBOW_REPORT_CHARACTERS_H
#define RAILBOW_REPORT_CHARACTERS_H

#include <stdbool.h>
#include <stddef.h>

/* Bytes of the character at the start of a string that is not empty; 1 for a byte that begins none. A sequence that
 * switches a colour (ESC [ ... m) counts as one character. */
size_t character_length(const char *string);

/* Columns that it takes: 2 for the wide ones of East Asia and the pictures, 0 for marks set on the letter before and for
 * colours, else 1.
 * Source: Unicode 14, EastAsianWidth.txt (W and F) and the categories Mn and Me, of the scripts that shops may write. */
size_t character_width(const char *string);

/* Whether it shows as nothing or as a blank although it is not the blank of ASCII: two names that differ by it look alike.
 * Source: Unicode 14, categories Cf, Zs, Zl, Zp, the variation selectors and the Hangul fillers. */
bool character_is_hidden(const char *string);

/* Its number in Unicode; that of the byte where it begins no character. */
unsigned long character_number(const char *string);

#endif
