#include "table/number.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

__extension__ typedef unsigned __int128 wide;

enum { FIVES = 27 }; /* 5^27 is the largest power that fits 63 bits */

static const uint64_t five_to[] = {
    1ULL, 5ULL, 25ULL, 125ULL, 625ULL, 3125ULL, 15625ULL, 78125ULL, 390625ULL, 1953125ULL, 9765625ULL,
    48828125ULL, 244140625ULL, 1220703125ULL, 6103515625ULL, 30517578125ULL, 152587890625ULL,
    762939453125ULL, 3814697265625ULL, 19073486328125ULL, 95367431640625ULL, 476837158203125ULL,
    2384185791015625ULL, 11920928955078125ULL, 59604644775390625ULL, 298023223876953125ULL,
    1490116119384765625ULL, 7450580596923828125ULL,
};
_Static_assert(sizeof five_to / sizeof *five_to == FIVES + 1, "every power is there");

static const uint64_t ten_to[] = {
    1ULL, 10ULL, 100ULL, 1000ULL, 10000ULL, 100000ULL, 1000000ULL, 10000000ULL, 100000000ULL, 1000000000ULL,
    10000000000ULL, 100000000000ULL, 1000000000000ULL, 10000000000000ULL, 100000000000000ULL,
    1000000000000000ULL, 10000000000000000ULL, 100000000000000000ULL,
};
_Static_assert(sizeof ten_to / sizeof *ten_to == NUMBER_DIGITS_MOST + 1, "every power is there");

enum { POWER_LEAST = -27, POWER_MOST = 38, POWER_EXACT = 22 }; /* 10^22 is the last that is a double */

/* The doubles nearest to 10^POWER_LEAST ... 10^POWER_MOST. */
static const double powers[] = {
    1e-27, 1e-26, 1e-25, 1e-24, 1e-23, 1e-22, 1e-21, 1e-20, 1e-19, 1e-18, 1e-17, 1e-16, 1e-15, 1e-14, 1e-13,
    1e-12, 1e-11, 1e-10, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1, 1e0, 1e1, 1e2, 1e3, 1e4, 1e5,
    1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22, 1e23,
    1e24, 1e25, 1e26, 1e27, 1e28, 1e29, 1e30, 1e31, 1e32, 1e33, 1e34, 1e35, 1e36, 1e37, 1e38,
};
_Static_assert(sizeof powers / sizeof *powers == POWER_MOST - POWER_LEAST + 1, "every power is there");

static double power_of_ten(int exponent)
{
    return powers[exponent - POWER_LEAST];
}

/* ---- reading ------------------------------------------------------------------------------------- */

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

static int leading_zeros(uint64_t x)
{
    return __builtin_clzll(x);
}

/* (whole + something in 0..1 if `rest`) 2^twos, where a rest comes only with 62 bits or more: it then counts
 * as one more bit behind these, and the conversion to double is the one place that rounds. */
static double round_once(wide whole, bool rest, int twos)
{
    const uint64_t high = (uint64_t)(whole >> 64);
    const int down = high != 0 ? 64 - leading_zeros(high) : 0;
    const uint64_t kept = (uint64_t)(whole >> down);
    rest |= (wide)kept << down != whole;
    return ldexp((double)(kept | rest), twos + down);
}

/* digits 10^exponent in exact integers, for more digits than a double holds. Dividend and divisor are shifted
 * up so that the quotient fills 63 or 64 bits. */
static bool read_wide(uint64_t digits, int64_t exponent, double *value)
{
    if (digits == 0 || exponent < -FIVES || exponent > FIVES) return false;
    if (exponent >= 0) {
        *value = round_once((wide)digits * five_to[exponent], false, (int)exponent);
        return true;
    }
    const int up = leading_zeros(digits), bottom_up = leading_zeros(five_to[-exponent]);
    const wide top = (wide)(digits << up) << 63;
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
    if (!counted || !(read_exact(p.digits, exponent, &size) || read_wide(p.digits, exponent, &size)))
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

/* ---- writing ------------------------------------------------------------------------------------- */

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
static uint64_t nearest(wide top, wide bottom)
{
    const uint64_t whole = (uint64_t)(top / bottom);
    const wide twice = top % bottom << 1;
    return whole + (twice > bottom || (twice == bottom && (whole & 1)));
}

/* The nearest integer to b 10^p, exactly, for p of 0 to FIVES and a result from 1 to 10^18. The twos of 10^p are a shift.
 * Both factors of the product are shifted up until their highest bit is set: its upper half then has 62 bits at least, of
 * which the result takes 60 at most, and what is behind it says how to round. */
static inline uint64_t scale_up(const binary *b, int p)
{
    const int up = leading_zeros(five_to[p]), down = 11 + up - b->e - p - 64;
    const wide product = (wide)(b->m << 11) * (five_to[p] << up);
    const uint64_t high = (uint64_t)(product >> 64), whole = high >> down, half = (uint64_t)1 << (down - 1);
    const uint64_t rest = (high & (2 * half - 1)) | ((uint64_t)product != 0);
    return whole + (rest + (whole & 1) > half);
}

/* The same of b 10^-p, where nothing outgrows 128 bits. */
static uint64_t scale_down(const binary *b, int p)
{
    const int shift = b->e - p;
    return shift < 0 ? nearest(b->m, (wide)five_to[p] << -shift) : nearest((wide)b->m << shift, five_to[p]);
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
