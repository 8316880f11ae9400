#include "study/compare.h"

#include "cases/part_groups.h"

#include <math.h>
#include <stdlib.h>

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

/* ---- part by part ------------------------------------------------------------------------------------- */

typedef struct part_tube { /* one part with one tube */
    bool holds;   /* in every case */
    double weight;
    compare_row *heaviest;
} part_tube;

/* Where the cases of a part differ in length or in their own tube the heaviest counts. */
static void add_case(part_tube *t, compare_row *r)
{
    if (t->heaviest == NULL || r->tried.weight > t->weight) {
        t->heaviest = r;
        t->weight = r->tried.weight;
    }
    t->holds = t->holds && tube_holds(r);
}

static bool is_lighter(const part_tube *a, const part_tube *b)
{
    if (fabs(a->weight - b->weight) <= 1e-12 * b->weight) return a->heaviest->tried.od < b->heaviest->tried.od;
    return a->weight < b->weight;
}

/* Given: one, of the tubes of one part. Returned: which is the lightest that holds; count for none */
static size_t lightest_of(const part_tube *one, size_t count)
{
    size_t best = count;
    for (size_t i = 0; i < count; i++)
        if (one[i].holds && (best == count || is_lighter(&one[i], &one[best]))) best = i;
    return best;
}

static bool number_parts(compare_row *rows, size_t cases, size_t *parts)
{
    const size_t tubes = rows[0].tubes;
    const char **names = malloc(cases * sizeof *names);
    size_t *of = malloc(cases * sizeof *of);
    for (size_t i = 0; names != NULL && i < cases; i++) names[i] = rows[i * tubes].part;
    const bool fine = names != NULL && of != NULL && part_groups(names, cases, of, parts);
    for (size_t i = 0; fine && i < cases * tubes; i++) rows[i].number = of[i / tubes];
    free(names);
    free(of);
    return fine;
}

static bool is_unlike(const compare_row *r, const compare_row *heaviest)
{
    const double rounding = 1e-9 * fabs(heaviest->tried.weight);
    return r->tube == 0 && (fabs(r->tried.weight - heaviest->tried.weight) > rounding
                            || fabs(r->tried.weight_change - heaviest->tried.weight_change) > rounding);
}

bool compare_parts(compare_row *rows, size_t count)
{
    if (count == 0) return true;
    size_t parts;
    const size_t tubes = rows[0].tubes;
    if (!number_parts(rows, count / tubes, &parts)) return false;
    part_tube *all = malloc(parts * tubes * sizeof *all);
    size_t *picks = malloc(parts * sizeof *picks);
    const bool fine = all != NULL && picks != NULL;
    for (size_t i = 0; fine && i < parts * tubes; i++) all[i] = (part_tube){.holds = true};
    for (size_t i = 0; fine && i < count; i++) add_case(&all[rows[i].number * tubes + rows[i].tube], &rows[i]);
    for (size_t i = 0; fine && i < parts; i++) picks[i] = lightest_of(&all[i * tubes], tubes);
    for (size_t i = 0; fine && i < count; i++) {
        const compare_row *heaviest = all[rows[i].number * tubes + rows[i].tube].heaviest;
        rows[i].pick = picks[rows[i].number] == rows[i].tube ? COMPARE_LIGHTEST : COMPARE_NOT_PICKED;
        rows[i].weighs = heaviest == &rows[i];
        rows[i].unlike = is_unlike(&rows[i], heaviest);
    }
    free(all);
    free(picks);
    return fine;
}
