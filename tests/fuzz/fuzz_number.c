/* Numbers in and out against strtod and snprintf, which they must equal bit for bit. */
#include "feed.h"

#include "table/number.h"

#include <math.h>
#include <stdio.h>

/* The program's grammar, the slow way: sign, digits with at most one point, an exponent. */
static bool is_decimal(const char *s)
{
    size_t digits = 0;
    if (*s == '+' || *s == '-') s++;
    for (; *s >= '0' && *s <= '9'; s++) digits++;
    if (*s == '.') s++;
    for (; *s >= '0' && *s <= '9'; s++) digits++;
    if (digits == 0) return false;
    if (*s != 'e' && *s != 'E') return *s == '\0';
    s++;
    if (*s == '+' || *s == '-') s++;
    if (*s < '0' || *s > '9') return false;
    while (*s >= '0' && *s <= '9') s++;
    return *s == '\0';
}

static void compare_reading(const char *string, size_t size)
{
    double got = 0;
    const bool taken = number_read(string, size, &got);
    const bool decimal = strlen(string) == size && is_decimal(string);
    const double want = strtod(string, NULL);
    if (taken != (decimal && isfinite(want))) abort();
    if (number_is_written(string, size) != decimal) abort();
    if (taken && memcmp(&got, &want, sizeof got) != 0) abort();
}

static void compare_writing(double value, int digits)
{
    char got[NUMBER_ROOM + 1], want[64];
    if (isnan(value)) return;
    got[number_write_digits(got, value, digits)] = '\0';
    snprintf(want, sizeof want, "%.*g", digits, value);
    if (strcmp(got, want) != 0) abort();
    got[number_write(got, value)] = '\0';
    snprintf(want, sizeof want, "%.10g", value);
    if (strcmp(got, want) != 0) abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    double value;
    char *string = malloc(size + 1);
    if (string == NULL) abort();
    if (size > 0) memcpy(string, data, size);
    string[size] = '\0';
    compare_reading(string, size);
    if (size > sizeof value) {
        memcpy(&value, data + 1, sizeof value);
        compare_writing(value, 1 + data[0] % NUMBER_DIGITS_MOST);
    }
    if (number_read(string, size, &value)) compare_writing(value, NUMBER_DIGITS_MOST);
    free(string);
    return 0;
}
