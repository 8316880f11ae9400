#include "table/number.h"

#include "table/number_powers.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const uint64_t ten_to[] = {
    1ULL, 10ULL, 100ULL, 1000ULL, 10000ULL, 100000ULL, 1000000ULL, 10000000ULL, 100000000ULL, 1000000000ULL,
    10000000000ULL, 100000000000ULL, 1000000000000ULL, 10000000000000ULL, 100000000000000ULL,
    1000000000000000ULL, 10000000000000000ULL, 100000000000000000ULL,
};
_Static_assert(sizeof ten_to / sizeof *ten_to == NUMBER_DIGITS_MOST + 1, "every power is there");

/* A number as digits: the first `count` of them, rounded as printf rounds (to nearest, the half to even,
 * on the exact binary value), and the power of ten of the first. */
typedef struct decimal {
    uint64_t digits;
    int exponent;
} decimal;

enum { FRACTION = 52, ONE = 1023 }; /* bits behind the first; the exponent of 1, as doubles keep it */

typedef struct binary { /* m 2^e, m with its 53rd bit: a double that is neither 0 nor denormal */
    uint64_t m;
    int e;
} binary;

static inline binary binary_of(double size)
{
    const uint64_t hidden_bit = (uint64_t)1 << FRACTION;
    uint64_t bits;
    memcpy(&bits, &size, sizeof bits);
    return (binary){(bits & (hidden_bit - 1)) | hidden_bit, (int)(bits >> FRACTION) - ONE - FRACTION};
}

/* The power of ten of the first digit, or one less. As far as FIVES reaches, 78913/2^18 for log10(2) gives the right whole
 * number; 512 keeps the shifted one positive. Only a number above the double nearest to a power of ten is sure to have
 * reached that power. */
static inline int first_exponent(double size, const binary *b)
{
    const int twos = b->e + FRACTION, least = ((twos * 78913 + (512 << 18)) >> 18) - 512;
    if (least < POWER_LEAST || least >= POWER_MOST) return least;
    return least + (size > power_of_ten(least + 1));
}

/* top / bottom to the nearest integer, the half to even. */
static uint64_t nearest(uint128 top, uint128 bottom)
{
    const uint64_t whole = (uint64_t)(top / bottom);
    const uint128 twice = top % bottom << 1;
    return whole + (twice > bottom || (twice == bottom && (whole & 1)));
}

/* The nearest integer to b 10^p, exactly, for p of 0 to FIVES and a result from 1 to 10^18. The twos of 10^p are a shift.
 * Both factors of the product are shifted up until their highest bit is set: its upper half then has 62 bits at least, of
 * which the result takes 60 at most, and what is behind it says how to round. */
static inline uint64_t scale_up(const binary *b, int p)
{
    const int up = leading_zeros(five_to[p]), down = 11 + up - b->e - p - 64;
    const uint128 product = (uint128)(b->m << 11) * (five_to[p] << up);
    const uint64_t high = (uint64_t)(product >> 64), whole = high >> down, half = (uint64_t)1 << (down - 1);
    const uint64_t rest = (high & (2 * half - 1)) | ((uint64_t)product != 0);
    return whole + (rest + (whole & 1) > half);
}

/* The same of b 10^-p, where nothing outgrows 128 bits. */
static uint64_t scale_down(const binary *b, int p)
{
    const int shift = b->e - p;
    return shift < 0 ? nearest(b->m, (uint128)five_to[p] << -shift) : nearest((uint128)b->m << shift, five_to[p]);
}

static uint64_t scale(const binary *b, int p)
{
    return p >= 0 ? scale_up(b, p) : scale_down(b, -p);
}

/* Returned: false where FIVES does not reach (below 1e-18 or above 1e37, about). */
static bool take_apart(double size, int count, decimal *out)
{
    const binary b = binary_of(size);
    int exponent = first_exponent(size, &b);
    if (exponent < count - 1 - FIVES || exponent >= count - 1 + FIVES) return false;
    uint64_t digits = scale(&b, count - 1 - exponent);
    if (digits >= ten_to[count]) { /* rounded up to a one and zeros, or the exponent was one less */
        exponent++;
        digits = digits > ten_to[count] ? scale(&b, count - 1 - exponent) : ten_to[count - 1];
    }
    *out = (decimal){digits, exponent};
    return true;
}

static const char pairs[] =
    "0001020304050607080910111213141516171819202122232425262728293031323334353637383940414243444546474849"
    "5051525354555657585960616263646566676869707172737475767778798081828384858687888990919293949596979899";

static void put_digits(char *out, uint64_t digits, int count)
{
    int i = count;
    for (; i >= 2; digits /= 100) memcpy(out + (i -= 2), pairs + 2 * (digits % 100), 2);
    if (i == 1) out[0] = (char)('0' + digits);
}

/* By printf, of which only digits and exponent are taken: the point between them is the locale's. */
static int take_apart_slowly(double size, int count, char *digits)
{
    char written[64];
    int found = 0;
    snprintf(written, sizeof written, "%.*e", count - 1, size);
    const char *p = written;
    for (; *p != 'e'; p++)
        if (*p >= '0' && *p <= '9') digits[found++] = *p;
    return (int)strtol(p + 1, NULL, 10);
}

/* The first n digits. Always NUMBER_DIGITS_MOST are moved, for a move of known size is one or two instructions:
 * both texts have room for as many behind any digit. */
static char *put(char *out, const char *digits, int n)
{
    memcpy(out, digits, NUMBER_DIGITS_MOST);
    return out + n;
}

static char *put_exponent(char *out, int exponent)
{
    const int size = abs(exponent);
    *out++ = 'e';
    *out++ = exponent < 0 ? '-' : '+';
    if (size >= 100) *out++ = (char)('0' + size / 100);
    put_digits(out, (uint64_t)(size % 100), 2);
    return out + 2;
}

/* Lays out the first `used` of `count` digits (the others are zeros) as %g does. */
static char *lay_out(char *out, const char *digits, int used, int exponent, int count)
{
    if (exponent < -4 || exponent >= count) {
        *out++ = digits[0];
        if (used > 1) {
            *out++ = '.';
            out = put(out, digits + 1, used - 1);
        }
        return put_exponent(out, exponent);
    }
    if (exponent < 0) {
        memcpy(out, "0.000", 5);
        return put(out + 1 - exponent, digits, used);
    }
    const int whole = exponent + 1;
    out = put(out, digits, whole);
    if (used <= whole) return out;
    *out++ = '.';
    return put(out, digits + whole, used - whole);
}

static size_t write_digits(char *const start, double value, int count)
{
    char digits[2 * NUMBER_DIGITS_MOST], *out = start;
    decimal d = {0, 0};
    int used = count;
    assert(!isnan(value));
    if (signbit(value)) *out++ = '-';
    const double size = fabs(value);
    if (isinf(size)) {
        memcpy(out, "inf", 3);
        out += 3;
    } else if (!(size > 0)) {
        *out++ = '0';
    } else {
        if (take_apart(size, count, &d)) put_digits(digits, d.digits, count);
        else d.exponent = take_apart_slowly(size, count, digits);
        while (used > 1 && digits[used - 1] == '0') used--;
        out = lay_out(out, digits, used, d.exponent, count);
    }
    *out = '\0';
    return (size_t)(out - start);
}

/* ---- writing ten digits ------------------------------------------------------------------------------ */

/* Most numbers of an answer lie between these, and are written with ten digits and no exponent: by one product, and
 * characters in two registers, without a branch. Measured: 20 ns a number in the general way, 15 so. */
static const double line_least = 1e-4, line_most = 9999999;

typedef struct line { /* sixteen characters, the first in the lowest byte */
    uint64_t first, next;
} line;

static const uint64_t all_zeros = 0x3030303030303030; /* eight times '0' */

static inline uint64_t pair_at(uint64_t digits)
{
    uint16_t two;
    memcpy(&two, pairs + 2 * digits, sizeof two);
    return two;
}

/* No pair waits for another. */
static inline line ten_digits(uint64_t digits)
{
    const uint64_t two = digits / 100000000, four = digits / 1000000, six = digits / 10000, eight = digits / 100;
    const uint64_t front = pair_at(two) | pair_at(four - 100 * two) << 16;
    const uint64_t back = pair_at(six - 100 * four) | pair_at(eight - 100 * six) << 16;
    return (line){front | back << 32, pair_at(digits - 100 * eight)};
}

/* How many of ten are left without the zeros at the end. */
static inline int used_of(const line *l)
{
    const uint64_t front = l->first ^ all_zeros, last = l->next ^ (all_zeros & 0xffff);
    return last != 0 ? 16 - (leading_zeros(last) >> 3) : 8 - (leading_zeros(front) >> 3);
}

/* As take_apart.
 * Given:    size  from line_least to line_most
 * Returned: ten digits, or ten to the ten */
static inline decimal ten_of(double size)
{
    const binary b = binary_of(size);
    const int exponent = first_exponent(size, &b);
    return (decimal){scale_up(&b, 9 - exponent), exponent};
}

/* With zeros ahead where it is below 1, and the point behind the whole digits. */
static size_t write_line(char *const start, bool negative, const decimal *d)
{
    const int below = d->exponent < 0 ? -d->exponent : 0, whole = d->exponent + 1 + below;
    const uint64_t ahead = ((uint64_t)1 << 8 * below) - 1, before = ((uint64_t)1 << 8 * whole) - 1;
    const line l = ten_digits(d->digits);
    const int used = used_of(&l) + below;
    const uint64_t first = l.first << 8 * below | (all_zeros & ahead);
    const uint64_t next = l.next << 8 * below | l.first >> 1 >> (63 - 8 * below);
    const line pointed = {(first & before) | (uint64_t)'.' << 8 * whole | (first & ~before) << 8, first >> 56 | next << 8};
    char *out = start;
    *out = '-';
    out += negative;
    memcpy(out, &pointed, sizeof pointed);
    out += used > whole ? used + 1 : whole;
    *out = '\0';
    return (size_t)(out - start);
}

size_t number_write(char *out, double value)
{
    const double size = fabs(value);
    if (__BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__ && size >= line_least && size < line_most) {
        const decimal d = ten_of(size);
        if (d.digits < ten_to[10]) return write_line(out, signbit(value) != 0, &d);
    }
    return write_digits(out, value, 10);
}

size_t number_write_digits(char *out, double value, int digits)
{
    assert(digits >= 1 && digits <= NUMBER_DIGITS_MOST);
    return write_digits(out, value, digits);
}
