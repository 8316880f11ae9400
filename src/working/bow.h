/* The shape of a tube's own bow. */
#ifndef RAILBOW_WORKING_BOW_H
#define RAILBOW_WORKING_BOW_H

#include <railbow/member.h>

/* Given:    m  bow_at may be RBOW_UNSET, the middle
 *           x  from A, 0 ... length, in the unit of the member's lengths
 * Returned: offset at x over the amplitude */
double bow_share(const rbow_member *m, double x);

#endif
