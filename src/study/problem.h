/* One load case for the studies: a member that they change, and the materials that may serve it. */
#ifndef RAILBOW_STUDY_PROBLEM_H
#define RAILBOW_STUDY_PROBLEM_H

#include "study/member_details.h"

#include <railbow/member.h>

typedef struct problem {
    rbow_member member;
    const char *material;
    const rbow_material *materials;
    size_t material_count;
    const member_details *details; /* of the tube; NULL: none */
} problem;

/* A number of the member, by its offset in the structure. */
typedef size_t parameter;

void parameter_set(rbow_member *m, parameter p, double value);

/* The row of the material that serves the member's wall, or NULL. */
const rbow_material *problem_material(const problem *p, const rbow_member *m);

/* The results of the library for a changed member, lowered to those of its weakest detail.
 * Status: as rbow_member_check, rbow_detail_check | RBOW_WALL_NOT_SERVED (the material has no row for its wall) */
rbow_status problem_check(const problem *p, const rbow_member *m, rbow_result *result);
rbow_status problem_margin(const problem *p, const rbow_member *m, rbow_margin *margin);

#endif
