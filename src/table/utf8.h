/* UTF-8 as RFC 3629 defines it: no overlong forms, no surrogates, nothing above U+10FFFF. */
#ifndef RAILBOW_TABLE_UTF8_H
#define RAILBOW_TABLE_UTF8_H

#include <stdbool.h>
#include <stddef.h>

/* Bytes of the character that text[0..n) begins with (n > 0); 0 if it begins with none. */
size_t utf8_character(const char *text, size_t n);

/* Whether all of text[0..n) is UTF-8 without a NUL. */
bool utf8_valid(const char *text, size_t n);

/* Whether that character of `length` bytes would steer a terminal rather than print: C0, DEL, C1. */
bool utf8_is_control(const char *character, size_t length);

#endif
