#include "table/number.h"

#include "table/number_powers.h"

#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

/* The parts of a number as it is written: whole.fraction e exponent. */
typedef struct parts {
    bool negative;
    const char *whole, *fraction;
    size_t whole_length, fraction_length;
    uint64_t digits;  /* of both, as one integer; right if they are at most 19 */
    int64_t exponent; /* as written; a longer one is kept far outside every double's range */
} parts;

static const char *skip_digits(const char *p, const char *end, uint64_t *digits)
{
    uint64_t sum = *digits;
    for (; p < end && (unsigned char)(*p - '0') < 10; p++) sum = sum * 10 + (uint64_t)(*p - '0');
    *digits = sum;
    return p;
}

/* The exponent behind the 'e'; NULL if there is none. */
static const char *take_exponent(const char *p, const char *end, int64_t *exponent)
{
    const int64_t far_out = (int64_t)1 << 56;
    const bool negative = p < end && *p == '-';
    if (p < end && (*p == '-' || *p == '+')) p++;
    const char *first = p;
    int64_t sum = 0;
    for (; p < end && (unsigned char)(*p - '0') < 10; p++)
        if (sum < far_out) sum = sum * 10 + (*p - '0');
    *exponent = negative ? -sum : sum;
    return p > first ? p : NULL;
}

static bool take_parts(const char *p, const char *end, parts *out)
{
    *out = (parts){.negative = p < end && *p == '-'};
    if (p < end && (*p == '-' || *p == '+')) p++;
    out->whole = p;
    p = skip_digits(p, end, &out->digits);
    out->whole_length = (size_t)(p - out->whole);
    if (p < end && *p == '.') {
        out->fraction = ++p;
        p = skip_digits(p, end, &out->digits);
        out->fraction_length = (size_t)(p - out->fraction);
    }
    if (out->whole_length + out->fraction_length == 0) return false;
    if (p < end && (*p == 'e' || *p == 'E')) p = take_exponent(p + 1, end, &out->exponent);
    return p == end;
}

/* Clinger's case: digits and power of ten are both exact doubles, so one operation rounds once. */
static bool read_exact(uint64_t digits, int64_t exponent, double *value)
{
    if (FLT_EVAL_METHOD != 0 || digits > (uint64_t)1 << 53) return false;
    if (exponent < -POWER_EXACT || exponent > POWER_EXACT) return false;
    const double whole = (double)digits;
    *value = exponent < 0 ? whole / power_of_ten((int)-exponent) : whole * power_of_ten((int)exponent);
    return true;
}

/* (whole + something in 0..1 if `rest`) 2^twos, where a rest comes only with 62 bits or more: it then counts
 * as one more bit behind these, and the conversion to double is the one place that rounds. */
static double round_once(uint128 whole, bool rest, int twos)
{
    const uint64_t high = (uint64_t)(whole >> 64);
    const int down = high != 0 ? 64 - leading_zeros(high) : 0;
    const uint64_t kept = (uint64_t)(whole >> down);
    rest |= (uint128)kept << down != whole;
    return ldexp((double)(kept | rest), twos + down);
}

/* digits 10^exponent in exact integers, for more digits than a double holds. Dividend and divisor are shifted
 * up so that the quotient fills 63 or 64 bits. */
static bool read_long(uint64_t digits, int64_t exponent, double *value)
{
    if (digits == 0 || exponent < -FIVES || exponent > FIVES) return false;
    if (exponent >= 0) {
        *value = round_once((uint128)digits * five_to[exponent], false, (int)exponent);
        return true;
    }
    const int up = leading_zeros(digits), bottom_up = leading_zeros(five_to[-exponent]);
    const uint128 top = (uint128)(digits << up) << 63;
    const uint64_t bottom = five_to[-exponent] << bottom_up;
    *value = round_once(top / bottom, top % bottom != 0, (int)exponent - up - 63 + bottom_up);
    return true;
}

enum { DIGITS_MOST = 780 }; /* a point half way between two doubles has at most 767 digits */

typedef struct digit_copy {
    char at[DIGITS_MOST + 32];
    size_t count;
    int64_t left_out; /* digits behind the last one kept */
    bool rest;        /* whether any of these was not 0 */
} digit_copy;

static void copy_digits(digit_copy *copy, const char *digits, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        if (copy->count == 0 && digits[i] == '0') continue;
        if (copy->count < DIGITS_MOST) {
            copy->at[copy->count++] = digits[i];
        } else {
            copy->left_out++;
            copy->rest |= digits[i] != '0';
        }
    }
}

/* By strtod, from a copy without a decimal point, for that is the one thing a locale changes. Digits past
 * DIGITS_MOST can only say on which side of a half-way point the number lies: one 1 stands for them all. */
static double read_slowly(const parts *p)
{
    const int64_t beyond = 100000; /* powers of ten that no double reaches with DIGITS_MOST digits */
    digit_copy copy = {.count = 0};
    copy_digits(&copy, p->whole, p->whole_length);
    if (p->fraction_length > 0) copy_digits(&copy, p->fraction, p->fraction_length);
    int64_t exponent = p->exponent - (int64_t)p->fraction_length + copy.left_out;
    if (copy.count == 0) copy.at[copy.count++] = '0';
    if (copy.rest) {
        copy.at[copy.count++] = '1';
        exponent--;
    }
    if (exponent > beyond) exponent = beyond;
    if (exponent < -beyond) exponent = -beyond;
    snprintf(copy.at + copy.count, sizeof copy.at - copy.count, "e%ld", (long)exponent);
    return strtod(copy.at, NULL);
}

/* Most cells are a few digits with a point, or without: nothing but these, and few enough to be exact. */
static bool read_short(const char *text, size_t length, double *value)
{
    enum { SHORT = 16 };
    const char *const end = text + length, *point = end;
    uint64_t digits = 0;
    if (length > SHORT) return false;
    for (const char *p = text; p < end; p++) {
        const unsigned digit = (unsigned char)(*p - '0');
        if (digit < 10) digits = digits * 10 + digit;
        else if (*p == '.' && point == end) point = p;
        else return false;
    }
    const int fraction = point < end ? (int)(end - point) - 1 : 0;
    return length > (point < end) && read_exact(digits, -fraction, value);
}

bool number_read(const char *text, size_t length, double *value)
{
    parts p;
    if (read_short(text, length, value)) return true;
    double size;
    if (!take_parts(text, text + length, &p)) return false;
    const int64_t exponent = p.exponent - (int64_t)p.fraction_length;
    const bool counted = p.whole_length + p.fraction_length <= 19;
    if (!counted || !(read_exact(p.digits, exponent, &size) || read_long(p.digits, exponent, &size)))
        size = read_slowly(&p);
    if (isinf(size)) return false;
    *value = p.negative ? -size : size;
    return true;
}

bool number_is_written(const char *text, size_t length)
{
    parts p;
    return take_parts(text, text + length, &p);
}
