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

unsigned long utf8_code(const char *character, size_t length)
{
    const unsigned char *s = (const unsigned char *)character;
    unsigned long code = length == 1 ? s[0] : s[0] & (0x7FU >> length);
    for (size_t i = 1; i < length; i++) code = code << 6 | (s[i] & 0x3FU);
    return code;
}

/* Unicode 15.0, general categories Cc, Cf, Zl and Zp, in order. */
static const struct {
    unsigned long first, last;
} controls[] = {
    {0x00, 0x1F}, {0x7F, 0x9F}, {0xAD, 0xAD}, {0x600, 0x605}, {0x61C, 0x61C}, {0x6DD, 0x6DD}, {0x70F, 0x70F}, {0x890, 0x891},
    {0x8E2, 0x8E2}, {0x180E, 0x180E}, {0x200B, 0x200F}, {0x2028, 0x202E}, {0x2060, 0x2064}, {0x2066, 0x206F}, {0xFEFF, 0xFEFF},
    {0xFFF9, 0xFFFB}, {0x110BD, 0x110BD}, {0x110CD, 0x110CD}, {0x13430, 0x1343F}, {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A},
    {0xE0001, 0xE0001}, {0xE0020, 0xE007F}};

bool utf8_is_control(const char *character, size_t length)
{
    const unsigned long code = utf8_code(character, length);
    size_t i = 0;
    if (code >= 0x20 && code < 0x7F) return false;
    while (i + 1 < sizeof controls / sizeof *controls && code > controls[i].last) i++;
    return code >= controls[i].first && code <= controls[i].last;
}
