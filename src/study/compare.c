#include "study/compare.h"

#include <math.h>

static double bending_stiffness(const problem *p, const rbow_member *m)
{
    rbow_section s;
    const rbow_material *material = problem_material(p, m);
    if (material == NULL || rbow_section_of(m->od, m->wall, &s) != RBOW_OK) return NAN;
    return material->elastic_modulus * s.inertia;
}

static double weight(const problem *p, const rbow_member *m)
{
    rbow_section s;
    const rbow_material *material = problem_material(p, m);
    if (material == NULL || rbow_section_of(m->od, m->wall, &s) != RBOW_OK) return NAN;
    return material->density * s.area * m->length;
}

compared compare_tube(const problem *p, tube t)
{
    rbow_member m = p->member;
    m.wall = t.wall;
    if (t.od > 0) m.od = t.od;
    compared c = {.od = m.od, .wall = m.wall, .result = {.verdict = RBOW_SHORT, .margin = NAN, .governs = RBOW_BY_NONE}};
    c.status = problem_check(p, &m, &c.result);
    c.weight = weight(p, &m);
    c.weight_change = c.weight - weight(p, &p->member);
    c.stiffness_change = bending_stiffness(p, &m) / bending_stiffness(p, &p->member) - 1;
    return c;
}

static int is_lighter(const compared *a, const compared *b)
{
    if (fabs(a->weight - b->weight) <= 1e-12 * b->weight) return a->od < b->od;
    return a->weight < b->weight;
}

size_t compare_lightest(const compared *answers, size_t count)
{
    size_t best = count;
    for (size_t i = 0; i < count; i++) {
        const compared *c = &answers[i];
        if (c->status != RBOW_OK || c->result.verdict != RBOW_HOLDS) continue;
        if (best == count || is_lighter(c, &answers[best])) best = i;
    }
    return best;
}
