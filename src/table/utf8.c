#include "table/utf8.h"

/* How many bytes follow a first byte above 0x7F; 0 if it cannot be a first byte. */
static size_t bytes_behind(unsigned char first)
{
    if (first < 0xC2 || first > 0xF4) return 0;
    return first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : 1;
}

/* The byte behind the first has a narrower range than the others: that is what shuts out overlong forms
 * (E0, F0), surrogates (ED) and what lies above U+10FFFF (F4). */
static bool second_fits(unsigned char first, unsigned char second)
{
    const unsigned char least = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
    const unsigned char most = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
    return least <= second && second <= most;
}

size_t utf8_character(const char *text, size_t n)
{
    const unsigned char *s = (const unsigned char *)text;
    if (s[0] < 0x80) return 1;
    const size_t behind = bytes_behind(s[0]);
    if (behind == 0 || n <= behind || !second_fits(s[0], s[1])) return 0;
    for (size_t i = 2; i <= behind; i++)
        if ((s[i] & 0xC0) != 0x80) return 0;
    return behind + 1;
}

bool utf8_valid(const char *text, size_t n)
{
    for (size_t i = 0; i < n;) {
        const size_t length = utf8_character(text + i, n - i);
        if (length == 0 || text[i] == '\0') return false;
        i += length;
    }
    return true;
}

bool utf8_is_control(const char *character, size_t length)
{
    const unsigned char *s = (const unsigned char *)character;
    if (length == 1) return s[0] < 0x20 || s[0] == 0x7F;
    return length == 2 && s[0] == 0xC2 && s[1] < 0xA0;
}
