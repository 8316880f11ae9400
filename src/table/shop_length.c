#include "table/shop_length.h"

#include "table/number.h"

#include <string.h>

typedef struct cursor {
    const char *at, *end;
} cursor;

static bool take(cursor *c, const char *sign)
{
    const size_t length = strlen(sign);
    if ((size_t)(c->end - c->at) < length || memcmp(c->at, sign, length) != 0) return false;
    c->at += length;
    return true;
}

static bool take_any(cursor *c, const char *const signs[])
{
    for (; *signs != NULL; signs++)
        if (take(c, *signs)) return true;
    return false;
}

static bool skip_blanks(cursor *c)
{
    const char *const blanks[] = {" ", "\xC2\xA0", "\xE2\x80\xAF", NULL}; /* no-break blanks too */
    const char *from = c->at;
    while (take_any(c, blanks)) continue;
    return c->at > from;
}

static bool take_foot_mark(cursor *c)
{
    const char *const marks[] = {"\xE2\x80\xB2", "\xE2\x80\x99", NULL}; /* prime, and the quote that editors make of ' */
    if (c->end - c->at > 1 && memcmp(c->at, "''", 2) == 0) return false;
    return take(c, "'") || take_any(c, marks);
}

static bool take_inch_mark(cursor *c)
{
    const char *const marks[] = {"\"", "''", "\xE2\x80\xB3", "\xE2\x80\x9D", NULL};
    return take_any(c, marks);
}

/* Digits alone. Returned: how many. */
static size_t take_digits(cursor *c, double *value)
{
    const char *from = c->at;
    while (c->at < c->end && *c->at >= '0' && *c->at <= '9') c->at++;
    const size_t count = (size_t)(c->at - from);
    return count > 0 && number_read(from, count, value) ? count : 0;
}

/* Digits with a point among or before them. */
static bool take_decimal(cursor *c, double *value)
{
    const char *from = c->at;
    while (c->at < c->end && ((*c->at >= '0' && *c->at <= '9') || *c->at == '.')) c->at++;
    return c->at > from && number_read(from, (size_t)(c->at - from), value);
}

static bool take_vulgar(cursor *c, double *value)
{
    static const struct {
        const char *sign;
        double top, bottom;
    } fractions[] = {
        {"½", 1, 2}, {"⅓", 1, 3}, {"⅔", 2, 3}, {"¼", 1, 4}, {"¾", 3, 4}, {"⅕", 1, 5}, {"⅖", 2, 5}, {"⅗", 3, 5},
        {"⅘", 4, 5}, {"⅙", 1, 6}, {"⅚", 5, 6}, {"⅐", 1, 7}, {"⅛", 1, 8}, {"⅜", 3, 8}, {"⅝", 5, 8}, {"⅞", 7, 8},
        {"⅑", 1, 9}, {"⅒", 1, 10}};
    for (size_t i = 0; i < sizeof fractions / sizeof *fractions; i++) {
        if (!take(c, fractions[i].sign)) continue;
        *value = fractions[i].top / fractions[i].bottom;
        return true;
    }
    return false;
}

static bool is_shop_denominator(double bottom)
{
    for (double power = 2; power <= 128; power *= 2)
        if (!(bottom < power) && !(bottom > power)) return true;
    return false;
}

/* "5/16", or a vulgar fraction; unchanged where there is none. */
static bool take_fraction(cursor *c, double *value)
{
    const cursor before = *c;
    const char *const slashes[] = {"/", "\xE2\x81\x84", NULL};
    double top, bottom;
    if (take_vulgar(c, value)) return true;
    if (take_digits(c, &top) > 0 && take_any(c, slashes) && take_digits(c, &bottom) > 0 && is_shop_denominator(bottom)
        && top < bottom) { /* 11/4 may be a 1 1/4 that lost its blank */
        *value = top / bottom;
        return true;
    }
    *c = before;
    return false;
}

/* The fraction of a mixed number; unchanged where none follows. */
static bool take_rest(cursor *c, double *value)
{
    const cursor before = *c;
    double fraction;
    if (!skip_blanks(c)) take(c, "-");
    if (c->at == before.at) { /* nothing between: only a vulgar fraction can be told apart */
        if (!take_vulgar(c, &fraction)) return false;
    } else if (!take_fraction(c, &fraction)) {
        *c = before;
        return false;
    }
    *value += fraction;
    return true;
}

/* A fraction, a whole number with one or without, or a decimal number. */
static bool take_amount(cursor *c, double *value)
{
    const cursor before = *c;
    if (take_fraction(c, value)) return true;
    if (take_digits(c, value) > 0 && !(c->at < c->end && *c->at == '.')) {
        take_rest(c, value);
        return true;
    }
    *c = before;
    return take_decimal(c, value);
}

static bool take_sign(cursor *c)
{
    const bool negative = take(c, "-") || take(c, "\xE2\x88\x92");
    if (!negative) take(c, "+");
    return negative;
}

bool shop_length_read(const char *text, size_t n, shop_length *length)
{
    cursor c = {text, text + n};
    double amount, inches;
    const bool negative = take_sign(&c);
    if (!take_amount(&c, &amount)) return false;
    *length = (shop_length){.value = amount};
    if (take_foot_mark(&c)) {
        length->value = 12 * amount;
        length->is_marked = true;
        if (!skip_blanks(&c)) take(&c, "-");
        if (c.at < c.end) {
            if (!take_amount(&c, &inches) || !(inches < 12)) return false;
            length->value += inches;
            take_inch_mark(&c);
        } else if (c.at[-1] == '-' || c.at[-1] == ' ') {
            return false;
        }
    } else {
        length->is_marked = take_inch_mark(&c);
    }
    if (negative) length->value = -length->value;
    return c.at == c.end;
}
