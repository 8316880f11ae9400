/* Names and words: compared without regard to the case of ASCII letters, and the nearest to one that is unknown. */
#ifndef RAILBOW_TABLE_NAMES_H
#define RAILBOW_TABLE_NAMES_H

#include <stdbool.h>
#include <stddef.h>

/* Whether given[0..length) is that name or word: ASCII letters without regard to case. */
bool name_is(const char *known, const char *given, size_t length);

/* The nearest candidate so far by edit distance, or NULL where none was near (more than a third of the letters given, at
 * least 2, would have to change, or every letter). */
enum { NAME_LETTERS_MOST = 64 }; /* a longer name is near to none */

typedef struct nearest_name {
    const char *given, *best; /* best points to the candidate tried */
    size_t length, changes;   /* of the best; a candidate must need fewer */
} nearest_name;

nearest_name nearest_to(const char *given);
void nearest_try(nearest_name *n, const char *candidate);

#endif
