/* Rows by part: several rows (runs) of one part are one tube. */
#ifndef RAILBOW_CASES_PART_GROUPS_H
#define RAILBOW_CASES_PART_GROUPS_H

#include <stdbool.h>
#include <stddef.h>

/* Numbers the parts from 0 in the order in which they first appear.
 * Given:    names, count  the part of each row
 * Returned: of     the number of each row's part; room for `count`
 *           parts  how many there are
 *           false where memory ran out */
bool part_groups(const char *const names[], size_t count, size_t of[], size_t *parts);

#endif
