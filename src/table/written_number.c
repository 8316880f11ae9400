#include "table/written_number.h"

#include "table/number.h"
#include "table/shop_length.h"

#include <math.h>
#include <string.h>

enum { LENGTH_MOST = 64 }; /* nobody writes a longer one by hand */

static const char minus_sign[] = "\xE2\x88\x92"; /* U+2212 */

bool comma_is_ambiguous(const char *text, size_t n)
{
    if (n > 0 && (*text == '-' || *text == '+')) text++, n--;
    else if (n > 3 && memcmp(text, minus_sign, 3) == 0) text += 3, n -= 3;
    const char *comma = memchr(text, ',', n);
    if (comma == NULL || *text == '0') return false;
    const size_t before = (size_t)(comma - text), behind = n - before - 1;
    if (before < 1 || before > 3 || behind != 3) return false;
    for (size_t i = 0; i < n; i++)
        if (text + i != comma && (text[i] < '0' || text[i] > '9')) return false;
    return true;
}

/* A copy with the ASCII minus and point. Returned: its length, 0 where a comma is not the decimal comma. */
static size_t plain(char copy[LENGTH_MOST], const char *text, size_t n, bool decimal_comma)
{
    const char *comma = memchr(text, ',', n);
    size_t length = 0;
    if (comma != NULL) {
        const bool second = memchr(comma + 1, ',', n - (size_t)(comma + 1 - text)) != NULL;
        if (!decimal_comma || second || memchr(text, '.', n) != NULL || comma_is_ambiguous(text, n)) return 0;
    }
    for (size_t i = 0; i < n; i++) {
        const bool minus = n - i >= 3 && memcmp(text + i, minus_sign, 3) == 0;
        copy[length++] = minus ? '-' : text + i == comma ? '.' : text[i];
        i += minus ? 2 : 0;
    }
    return length;
}

static bool is_shop_unit(const unit *u)
{
    return u != NULL && (strcmp(u->name, "in") == 0 || strcmp(u->name, "ft") == 0);
}

bool written_number_read(const char *text, size_t n, const unit *u, bool decimal_comma, double *value)
{
    char copy[LENGTH_MOST];
    shop_length length;
    double number;
    if (number_read(text, n, &number)) {
        *value = u != NULL ? unit_to_own(u, number) : number;
        return true;
    }
    if (n == 0 || n > LENGTH_MOST) return false;
    const size_t plain_length = plain(copy, text, n, decimal_comma);
    if (plain_length == 0) return false;
    if (number_read(copy, plain_length, &number)) {
        *value = u != NULL ? unit_to_own(u, number) : number;
        return true;
    }
    if (!is_shop_unit(u) || !shop_length_read(copy, plain_length, &length) || isinf(length.value)) return false;
    *value = length.is_marked ? length.value : unit_to_own(u, length.value); /* the own unit is the inch */
    return true;
}
