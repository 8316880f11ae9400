/* Numbers as people and their spreadsheets write them: U+2212 as minus, a decimal comma, lengths of the shop. */
#ifndef RAILBOW_TABLE_WRITTEN_NUMBER_H
#define RAILBOW_TABLE_WRITTEN_NUMBER_H

#include "table/unit.h"

#include <stdbool.h>
#include <stddef.h>

/* Whether a comma may be a decimal comma or part digits into groups: one to three digits, the first not 0, stand before
 * it and exactly three behind, as in 1,250. It is never guessed. */
bool comma_is_ambiguous(const char *text, size_t n);

/* Given:    u              the unit that the number is in where it bears none itself; NULL for none
 *           decimal_comma  whether a comma may be the decimal comma
 * Returned: true and the value in the program's own unit; false when it is no such number (an infinite one, an
 *           ambiguous comma), and *value is unchanged */
bool written_number_read(const char *text, size_t n, const unit *u, bool decimal_comma, double *value);

#endif
