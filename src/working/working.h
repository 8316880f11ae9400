/* The working of one load case, from its inputs to its margin. */
#ifndef RAILBOW_WORKING_WORKING_H
#define RAILBOW_WORKING_WORKING_H

#include "table/unit.h"
#include "working/steps.h"

#include <railbow/member.h>

/* Given:    member, material, result  a case and its result by rbow_member_check
 *           w                         empty; it keeps pointers into the material
 * Returned: every step in the units of the system, coherent among themselves. The moments are calculated in a
 *           different way: first the end moments, then the station. False if the library gave no limit state. */
bool working_of(working *w, const rbow_member *member, const rbow_material *material, const rbow_result *result,
                unit_system units);

#endif
