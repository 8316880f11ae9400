/* UTF-8 as RFC 3629 defines it: no overlong forms, no surrogates, nothing above U+10FFFF. */
#ifndef RAILBOW_TABLE_UTF8_H
#define RAILBOW_TABLE_UTF8_H

#include <stdbool.h>
#include <stddef.h>

/* Bytes of the character that text[0..n) begins with (n > 0); 0 if it begins with none. */
size_t utf8_character(const char *text, size_t n);

/* Whether all of text[0..n) is UTF-8 without a NUL. */
bool utf8_valid(const char *text, size_t n);

/* The code point of a character of `length` bytes. */
unsigned long utf8_code(const char *character, size_t length);

/* Whether that character would steer a terminal or a reader's eye rather than print: C0, DEL, C1, the format controls of
 * Unicode (which turn the order of what follows, or are not seen), separators of lines and paragraphs. */
bool utf8_is_control(const char *character, size_t length);

#endif
