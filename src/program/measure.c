#include "program/measure.h"

#include "program/say.h"
#include "table/number.h"
#include "table/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* The number ends where its last digit or point stands; "e" belongs to it only before a digit. */
static size_t number_length(const char *at, size_t length)
{
    size_t n = 0;
    while (n < length) {
        const char c = at[n];
        const bool digit = (c >= '0' && c <= '9') || c == '.' || ((c == '-' || c == '+') && n == 0);
        const bool exponent = (c == 'e' || c == 'E') && n + 1 < length
            && (strchr("0123456789", at[n + 1]) != NULL
                || (strchr("+-", at[n + 1]) != NULL && n + 2 < length && strchr("0123456789", at[n + 2]) != NULL));
        if (!digit && !exponent) break;
        n += exponent ? 2 : 1;
    }
    return n;
}

bool measure_read(const char *at, size_t length, dimension d, double *value)
{
    while (length > 0 && *at == ' ') at++, length--;
    const size_t digits = number_length(at, length);
    const unit *u = unit_shown(d, UNITS_US);
    if (!number_read(at, digits, value)) return false;
    while (length > digits && at[length - 1] == ' ') length--;
    size_t from = digits;
    while (from < length && at[from] == ' ') from++;
    if (from < length && (u = unit_find(d, at + from, length - from)) == NULL) return false;
    if (u != NULL) *value = unit_to_own(u, *value);
    return isfinite(*value);
}

bool measures_read(measures *m, const char *option, const char *list, dimension d)
{
    m->at = malloc((strlen(list) + 1) * sizeof *m->at); /* more than there can be commas */
    m->count = 0;
    if (m->at == NULL) {
        say("out of memory");
        return false;
    }
    for (const char *at = list;; at++) {
        const size_t length = strcspn(at, ",");
        if (!measure_read(at, length, d, &m->at[m->count]) || !(m->at[m->count] > 0)) {
            text names = {0};
            unit_say_names(&names, d);
            say("--%s: '%.*s' is not a number above 0, alone (%s) or with its unit: %s", option, (int)length, at,
                unit_shown(d, UNITS_US)->name, names.failed ? "" : names.at);
            text_free(&names);
            return false;
        }
        m->count++;
        at += length;
        if (*at == '\0') return true;
    }
}

void measures_free(measures *m)
{
    free(m->at);
    *m = (measures){0};
}
