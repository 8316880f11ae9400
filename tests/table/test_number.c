#include "near.h"
#include "table/number.h"

#include <float.h>
#include <locale.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

static uint64_t state = 0x9E3779B97F4A7C15ULL;

static uint64_t random_bits(void) /* Marsaglia's xorshift64 */
{
    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    return state;
}

static double of_bits(uint64_t bits)
{
    double value;
    memcpy(&value, &bits, sizeof value);
    return value;
}

static uint64_t bits_of(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

/* ---- want: strtod and printf --------------------------------------------------------------------- */

static void reads_as_strtod(const char *text)
{
    double got = NAN;
    const double want = strtod(text, NULL);
    ck_assert_msg(number_read(text, strlen(text), &got) == (isinf(want) == 0), "%s", text);
    if (!isinf(want)) ck_assert_msg(bits_of(got) == bits_of(want), "%s: %.17g, want %.17g", text, got, want);
}

static void writes_as_printf(double value)
{
    char got[NUMBER_ROOM], want[64];
    const size_t length = number_write(got, value);
    snprintf(want, sizeof want, "%.10g", value);
    ck_assert_msg(strcmp(got, want) == 0 && length == strlen(want), "%.17g: %s, want %s", value, got, want);
}

static void writes_digits_as_printf(double value, int digits)
{
    char got[NUMBER_ROOM], want[64];
    const size_t length = number_write_digits(got, value, digits);
    snprintf(want, sizeof want, "%.*g", digits, value);
    ck_assert_msg(strcmp(got, want) == 0 && length == strlen(want), "%.17g, %d: %s, want %s", value, digits,
                  got, want);
}

static void both_ways(double value)
{
    char text[64];
    writes_as_printf(value);
    writes_as_printf(-value);
    writes_digits_as_printf(value, (int)(1 + random_bits() % NUMBER_DIGITS_MOST));
    snprintf(text, sizeof text, "%.*g", (int)(1 + random_bits() % 25), value);
    reads_as_strtod(text);
    snprintf(text, sizeof text, "%.17g", value);
    reads_as_strtod(text);
}

enum { ROUNDS = 25000 };

START_TEST(any_bits)
{
    for (int i = 0; i < ROUNDS; i++) {
        const double value = of_bits(random_bits());
        if (isfinite(value)) both_ways(value);
    }
}
END_TEST

/* Where results lie: 1e-22 to 1e22, evenly in the logarithm; and round the borders of the fast paths. */
START_TEST(usual_sizes)
{
    for (int i = 0; i < ROUNDS; i++) {
        const double even = (double)(random_bits() >> 11) * 0x1p-53;
        both_ways(pow(10, even * 44 - 22));
        both_ways(pow(10, even * 4 + 35));
        both_ways(pow(10, even * 4 - 20));
    }
}
END_TEST

static void with_neighbours(double value)
{
    if (!isfinite(value)) return;
    both_ways(value);
    if (isfinite(nextafter(value, INFINITY))) both_ways(nextafter(value, INFINITY));
    if (isfinite(nextafter(value, -INFINITY))) both_ways(nextafter(value, -INFINITY));
}

START_TEST(powers_of_ten_and_two_and_their_neighbours)
{
    for (int i = -324; i <= 308; i++) {
        char text[16];
        snprintf(text, sizeof text, "1e%d", i);
        reads_as_strtod(text);
        for (int digit = 1; digit <= 9; digit++) {
            text[0] = (char)('0' + digit);
            with_neighbours(strtod(text, NULL));
        }
    }
    for (int i = -1074; i <= 1023; i++) with_neighbours(ldexp(1, i));
    both_ways(0.0);
    both_ways(DBL_MAX);
    both_ways(DBL_MIN);
    both_ways(DBL_TRUE_MIN);
    writes_as_printf(INFINITY);
    writes_as_printf(-INFINITY);
}
END_TEST

/* Exact ties at the tenth digit, and at every other: an odd number of halves, quarters ... */
START_TEST(ties)
{
    for (int i = 0; i < ROUNDS; i++) {
        const int twos = 1 + (int)(random_bits() % 30);
        both_ways(ldexp((double)(random_bits() % 20000000000ULL | 1), -twos));
        both_ways((double)(random_bits() % 100000000ULL) * 1e3 + 500);
        both_ways((double)((random_bits() % 100000000000ULL) * 10 + 5));
        const int exponent = (int)(random_bits() % 14) - 4, shift = 10 - exponent; /* behind the tenth digit */
        const double least = ldexp(pow(10, exponent), shift);
        both_ways(ldexp((double)((uint64_t)(least * (1 + 9 * (double)(random_bits() >> 11) * 0x1p-53)) | 1), -shift));
    }
}
END_TEST

START_TEST(denormals_integers_and_short_decimals)
{
    for (int i = 0; i < ROUNDS; i++) {
        char text[64];
        if (i % 8 == 0) both_ways(of_bits(random_bits() >> (12 + random_bits() % 50)));
        both_ways((double)(random_bits() >> (random_bits() % 64)));
        snprintf(text, sizeof text, "%u.%0*u", (unsigned)(random_bits() % 10000), (int)(1 + random_bits() % 6),
                 (unsigned)(random_bits() % 10));
        reads_as_strtod(text);
        both_ways(strtod(text, NULL));
    }
}
END_TEST

START_TEST(random_decimals)
{
    for (int i = 0; i < ROUNDS; i++) {
        char text[128];
        int n = 0;
        if (random_bits() % 2) text[n++] = "+-"[random_bits() % 2];
        const int whole = (int)(random_bits() % 24), fraction = (int)(random_bits() % 24);
        for (int k = 0; k < whole; k++) text[n++] = (char)('0' + random_bits() % 10);
        if (fraction > 0 || random_bits() % 2) text[n++] = '.';
        for (int k = 0; k < fraction; k++) text[n++] = (char)('0' + random_bits() % 10);
        if (whole + fraction == 0) text[n++] = '7';
        text[n] = '\0';
        if (random_bits() % 2)
            snprintf(text + n, sizeof text - (size_t)n, "%c%d", "eE"[random_bits() % 2],
                     (int)(random_bits() % 80) - 40);
        if (whole + fraction > 0) reads_as_strtod(text);
    }
}
END_TEST

/* ---- long numbers -------------------------------------------------------------------------------- */

static void long_number(const char *head, size_t zeros, const char *tail)
{
    const size_t room = strlen(head) + zeros + strlen(tail) + 1;
    char *text = malloc(room);
    strcpy(text, head);
    memset(text + strlen(head), '0', zeros);
    strcpy(text + strlen(head) + zeros, tail);
    reads_as_strtod(text);
    free(text);
}

START_TEST(long_numbers)
{
    for (size_t zeros = 0; zeros < 64 * 1024; zeros = zeros * 3 + 1) {
        long_number("1", zeros, "");
        long_number("0.", zeros, "1");
        long_number("9007199254740993", zeros, "1");
        long_number("9007199254740993.", zeros, "");
        long_number("9007199254740993.", zeros, "1"); /* a tie, and just above it */
        long_number("4.9406564584124654e-", zeros, "324");
        long_number("1", 60000, "e-60000");
        long_number("0.", 59999, "1e60000");
        long_number("-0.", zeros, "");
    }
    reads_as_strtod("2.4703282292062327208e-324");
    reads_as_strtod("2.4703282292062328e-324");
    reads_as_strtod("1.7976931348623158e308");
    reads_as_strtod("1.7976931348623159e308");
    reads_as_strtod("1e400");
    reads_as_strtod("-1e400");
    reads_as_strtod("1e-400");
    reads_as_strtod("0e99999999999999999999999999");
    reads_as_strtod("1e-99999999999999999999999999");
    reads_as_strtod("1e99999999999999999999999999");
}
END_TEST

/* The exact digits of a point half way between two denormals: the longest there are. */
START_TEST(half_way_with_all_digits)
{
    for (int i = 0; i < 2000; i++) {
        char text[1200];
        const double low =
            i % 2 ? of_bits(random_bits() >> (12 + random_bits() % 50)) : of_bits(random_bits() >> 2);
        const long double middle = ((long double)low + (long double)nextafter(low, INFINITY)) / 2;
        snprintf(text, sizeof text - 2, "%.800Le", middle);
        reads_as_strtod(text);
        char *exponent = strchr(text, 'e');
        memmove(exponent + 1, exponent, strlen(exponent) + 1);
        exponent[0] = '1'; /* above the middle by one digit */
        reads_as_strtod(text);
    }
}
END_TEST

/* ---- what is a number ---------------------------------------------------------------------------- */

START_TEST(other_things_are_refused)
{
    static const char *const bad[] = {
        "",      " ",   "-",   "+",     ".",    "-.",    "e5",    ".e5",   "1e",       "1e+",      "1e-",
        "1 ",    " 1",  "1,5", "1'000", "0x10", "0x1p3", "inf",   "-inf",  "nan",      "INFINITY", "1..2",
        "1.2.3", "--1", "+-1", "1e5.0", "1f",   "1d5",   "12 mm", "1e5e5", "\xD9\xA1", "1_000"};
    double value = 42;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ck_assert_msg(!number_read(bad[i], strlen(bad[i]), &value), "'%s'", bad[i]);
        ck_assert_msg(!number_is_written(bad[i], strlen(bad[i])), "'%s'", bad[i]);
    }
    ck_assert(!number_read("1\0002", 3, &value));
    ck_assert(!number_read("1\0", 2, &value));
    ck_assert(!number_read("1e400", 5, &value));
    ck_assert(number_is_written("1e400", 5));
    near_within(value, 42, 0, 0);
}
END_TEST

START_TEST(the_length_is_kept)
{
    double value;
    ck_assert(number_read("12345", 3, &value));
    near_within(value, 123, 0, 0);
    ck_assert(number_read("1.5e10", 4 - 1, &value));
    near_within(value, 1.5, 0, 0);
    ck_assert(!number_read("1.5e10", 4, &value));
    ck_assert(number_read("12345678901234567890123", 20, &value));
    near_within(value, 12345678901234567890.0, 0, 0);
}
END_TEST

START_TEST(usual_forms_are_taken)
{
    static const char *const good[] = {"0",   "-0",    "+1",  "1.",     ".5",    "-.5e3",
                                       "1E5", "1e+05", "007", "0.0000", "1e-007"};
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) reads_as_strtod(good[i]);
}
END_TEST

/* A program that links this code may have set a locale with a decimal comma. */
START_TEST(no_locale_matters)
{
    static const char *const comma[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "ru_RU.UTF-8",
                                        "nl_NL.UTF-8"};
    char got[NUMBER_ROOM];
    double value;
    for (size_t i = 0; i < sizeof comma / sizeof *comma && setlocale(LC_ALL, comma[i]) == NULL; i++) {
    }
    number_write(got, 1.5e-300);
    ck_assert_str_eq(got, "1.5e-300");
    ck_assert(number_read("1.5e-300", 8, &value));
    near_within(value, 1.5e-300, 0, 0);
    ck_assert(number_read("1.00000000000000000000000000005", 31, &value));
    near_within(value, 1, 0, 0);
    setlocale(LC_ALL, "C");
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, any_bits);
    tcase_add_test(cases, usual_sizes);
    tcase_add_test(cases, powers_of_ten_and_two_and_their_neighbours);
    tcase_add_test(cases, ties);
    tcase_add_test(cases, denormals_integers_and_short_decimals);
    tcase_add_test(cases, random_decimals);
    tcase_add_test(cases, long_numbers);
    tcase_add_test(cases, half_way_with_all_digits);
    tcase_add_test(cases, other_things_are_refused);
    tcase_add_test(cases, the_length_is_kept);
    tcase_add_test(cases, usual_forms_are_taken);
    tcase_add_test(cases, no_locale_matters);
}

int main(void)
{
    return run_tests("table/number", fill);
}
