#include "report/live/base64.h"

static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/* One to three bytes as four letters; = stands for what is not there. */
static void put_group(char *at, const unsigned char *bytes, size_t n)
{
    const unsigned long bits = (unsigned long)bytes[0] << 16 | (n > 1 ? (unsigned long)bytes[1] << 8 : 0) | (n > 2 ? bytes[2] : 0);
    for (size_t i = 0; i < 4; i++) at[i] = i <= n ? letters[bits >> (18 - 6 * i) & 63] : '=';
}

void base64_put(text *out, const void *bytes, size_t n)
{
    const unsigned char *from = bytes;
    const size_t length = (n + 2) / 3 * 4;
    char *at = text_reserve(out, length);
    if (at == NULL) return;
    for (size_t i = 0; i < n; i += 3) put_group(at + i / 3 * 4, from + i, n - i < 3 ? n - i : 3);
    at[length] = '\0';
    out->length += length;
}
