#include "table/names.h"

#include <string.h>

/* ASCII only and without a locale: the same file must mean the same everywhere. */
static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool name_is(const char *known, const char *given, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (known[i] == '\0' || lower(known[i]) != lower(given[i])) return false;
    return known[length] == '\0';
}

static size_t least_of(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Levenshtein's distance: letters put in, taken out or changed. One row of the usual table is kept;
 * `diagonal` is the entry up and to the left. */
static size_t distance(const char *a, size_t a_length, const char *b, size_t b_length)
{
    size_t row[NAME_LETTERS_MOST + 1];
    for (size_t j = 0; j <= b_length; j++) row[j] = j;
    for (size_t i = 1; i <= a_length; i++) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t j = 1; j <= b_length; j++) {
            const size_t changed = diagonal + (lower(a[i - 1]) != lower(b[j - 1]));
            diagonal = row[j];
            row[j] = least_of(changed, 1 + least_of(row[j], row[j - 1]));
        }
    }
    return row[b_length];
}

nearest_name nearest_to(const char *given)
{
    const size_t length = strlen(given), third = length / 3;
    return (nearest_name){.given = given, .length = length, .changes = (third > 2 ? third : 2) + 1};
}

/* A candidate of which no letter stays is not near, however short both are. */
void nearest_try(nearest_name *n, const char *candidate)
{
    const size_t length = strlen(candidate);
    if (n->length > NAME_LETTERS_MOST || length > NAME_LETTERS_MOST) return;
    size_t changes = distance(n->given, n->length, candidate, length);
    if (changes > 2 && n->length > 1 && strncmp(n->given, candidate, n->length) == 0) changes = 2; /* cut short */
    if (changes >= n->changes || changes >= n->length || changes >= length) return;
    n->best = candidate;
    n->changes = changes;
}
