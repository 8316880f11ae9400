/* The working of one load case, from its inputs to its margin. */
#ifndef RAILBOW_WORKING_WORKING_H
#define RAILBOW_WORKING_WORKING_H

#include "table/unit.h"
#include "working/steps.h"

#include <railbow/member.h>

/* Given:    member, material, result  a case that rbow_member_check has answered
 *           w                         empty; it keeps pointers into the material
 * Returned: every step in the units of the system, coherent among themselves. The moments are worked out on a way
 *           of their own: end moments first, then the place. False where the engine gave no limit state. */
bool working_of(working *w, const rbow_member *member, const rbow_material *material, const rbow_result *result,
                unit_system units);

#endif
