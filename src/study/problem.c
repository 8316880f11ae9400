#include "study/problem.h"

#include <string.h>

void parameter_set(rbow_member *m, parameter p, double value)
{
    memcpy((char *)m + p, &value, sizeof value);
}

const rbow_material *problem_material(const problem *p, const rbow_member *m)
{
    int known;
    return rbow_material_find(p->materials, p->material_count, p->material, m->wall, &known);
}

/* A fault of the wall itself is reported before a wall that the material does not serve. */
static rbow_status unserved(const problem *p, const rbow_member *m)
{
    rbow_status first;
    return rbow_member_faults(m, p->materials, &first, 1) > 0 && first == RBOW_BAD_WALL ? first : RBOW_WALL_NOT_SERVED;
}

rbow_status problem_check(const problem *p, const rbow_member *m, rbow_result *result)
{
    const rbow_material *material = problem_material(p, m);
    if (material == NULL) return unserved(p, m);
    const rbow_status status = rbow_member_check(m, material, result);
    return status == RBOW_OK ? details_check(p->details, m, material, result, NULL, NULL) : status;
}

rbow_status problem_margin(const problem *p, const rbow_member *m, rbow_margin *margin)
{
    const rbow_material *material = problem_material(p, m);
    if (material == NULL) return unserved(p, m);
    const rbow_status status = rbow_member_margin(m, material, margin);
    return status == RBOW_OK ? details_margin(p->details, m, material, margin) : status;
}
