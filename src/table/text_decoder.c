#include "table/text_decoder.h"

#include <string.h>

static bool begins(const text_decoder *d, const char *sign, size_t n)
{
    return d->head_count >= n && memcmp(d->head, sign, n) == 0;
}

/* Where the text begins in the head, once all of it is there. */
static size_t open_head(text_decoder *d)
{
    d->encoding = TEXT_UTF8;
    if (begins(d, "\xEF\xBB\xBF", 3)) return 3;
    if (begins(d, "\xFF\xFE", 2)) d->encoding = TEXT_UTF16_LITTLE;
    else if (begins(d, "\xFE\xFF", 2)) d->encoding = TEXT_UTF16_BIG;
    if (d->encoding != TEXT_UTF8) return 2;
    if (begins(d, "PK\x03\x04", 4) || begins(d, "\xD0\xCF\x11\xE0", 4))
        d->fault = "is a spreadsheet's own file (.xlsx, .ods, .xls), not a table in text: save it as CSV";
    else if (begins(d, "%PDF", 4) || begins(d, "\x1F\x8B", 2))
        d->fault = "is a PDF or packed file, not a table in text: save the table as CSV";
    else if (memchr(d->head, '\0', d->head_count) != NULL)
        d->fault = "is not text, or UTF-16 without its byte-order mark: save the table as CSV in UTF-8";
    if (d->fault != NULL) d->encoding = TEXT_BINARY;
    return 0;
}

/* One character, or a surrogate alone, which as three bytes is no UTF-8. */
static void put_character(text *out, unsigned long c)
{
    const unsigned char lead = c < 0x800 ? 0xC0 : c < 0x10000 ? 0xE0 : 0xF0;
    const int behind = c < 0x800 ? 1 : c < 0x10000 ? 2 : 3;
    if (c < 0x80) {
        text_char(out, (char)c);
        return;
    }
    text_char(out, (char)(lead | (c >> (6 * behind))));
    for (int i = behind - 1; i >= 0; i--) text_char(out, (char)(0x80 | ((c >> (6 * i)) & 0x3F)));
}

static void put_unit(text_decoder *d, unsigned long u)
{
    const bool is_low = u >= 0xDC00 && u < 0xE000, is_high = u >= 0xD800 && u < 0xDC00;
    if (d->high != 0 && is_low) {
        put_character(&d->decoded, 0x10000 + ((d->high - 0xD800) << 10) + (u - 0xDC00));
        d->high = 0;
        return;
    }
    if (d->high != 0) put_character(&d->decoded, d->high);
    d->high = is_high ? u : 0;
    if (!is_high) put_character(&d->decoded, u);
}

static void decode_units(text_decoder *d, const unsigned char *bytes, size_t n)
{
    const bool little = d->encoding == TEXT_UTF16_LITTLE;
    for (size_t i = 0; i < n; i++) {
        if (!d->has_half) {
            d->half = bytes[i];
        } else {
            const unsigned low = little ? d->half : bytes[i], high = little ? bytes[i] : d->half;
            put_unit(d, high << 8 | low);
        }
        d->has_half = !d->has_half;
    }
}

/* What is left over at the end is no character. */
static void end_units(text_decoder *d)
{
    if (d->high != 0) put_character(&d->decoded, d->high);
    if (d->has_half) text_char(&d->decoded, (char)0xFF);
    d->high = 0;
    d->has_half = false;
}

static bool is_utf16(const text_decoder *d)
{
    return d->encoding == TEXT_UTF16_LITTLE || d->encoding == TEXT_UTF16_BIG;
}

text_part text_decode(text_decoder *d, const char *bytes, size_t n, text_part *rest)
{
    text_part head = {"", 0};
    const bool ends = n == 0, was_unknown = d->encoding == TEXT_UNKNOWN;
    text_clear(&d->decoded);
    while (n > 0 && was_unknown && d->head_count < DECODER_HEAD) {
        d->head[d->head_count++] = (unsigned char)*bytes++;
        n--;
    }
    *rest = (text_part){bytes, n};
    if (was_unknown && (ends || d->head_count == DECODER_HEAD)) {
        const size_t from = open_head(d);
        head = (text_part){(const char *)d->head + from, d->head_count - from};
    }
    if (!is_utf16(d)) return head;
    decode_units(d, (const unsigned char *)head.at, head.n);
    decode_units(d, (const unsigned char *)bytes, n);
    if (ends) end_units(d);
    *rest = (text_part){"", 0};
    return (text_part){d->decoded.at != NULL ? d->decoded.at : "", d->decoded.length};
}

void text_decoder_free(text_decoder *d)
{
    text_free(&d->decoded);
}
