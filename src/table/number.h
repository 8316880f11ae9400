/* Numbers as text, exactly as strtod and printf give them, at full speed, whatever the locale.
 *
 * Source of the fast way in: Clinger, "How to Read Floating Point Numbers Accurately" (PLDI 1990),
 * exact when the digits fit 2^53 and the power of ten is at most 10^22. The fast way out is plain integer
 * arithmetic, exact in 128 bits. What neither covers goes through strtod and snprintf. */
#ifndef RAILBOW_TABLE_NUMBER_H
#define RAILBOW_TABLE_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/* Reads the whole of text[0..length) as a decimal number.
 * Returned: true and *value; false when it is not one, not all of it, or not finite.
 * Not taken: hexadecimal, "inf", "nan", blanks, a decimal comma, digit groups. */
bool number_read(const char *text, size_t length, double *value);

/* Whether the text has the form of a number, be it too large for a double or not. */
bool number_is_written(const char *text, size_t length);

enum { NUMBER_ROOM = 40 }; /* bytes that any written number needs, some of them only on the way */

/* Writes like printf("%.10g") (infinity as "inf"); returns the length. NaN must not come here. */
size_t number_write(char *out, double value);

/* Writes like printf("%.*g", digits), digits from 1 to 17 (which tell any two doubles apart). */
enum { NUMBER_DIGITS_MOST = 17 };
size_t number_write_digits(char *out, double value, int digits);

#endif
