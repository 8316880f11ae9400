#include "cases/compare_sum.h"

#include <math.h>

tube_sum sum_of_tube(const compare_row *rows, size_t count, size_t tube)
{
    tube_sum s = {.worst_case = "", .first = &rows[tube]};
    for (size_t i = tube; i < count; i += rows[0].tubes) {
        const compare_row *r = &rows[i];
        s.cases++;
        if (r->weighs) s.weight += r->tried.weight, s.change += r->tried.weight_change;
        s.holds += tube_holds(r);
        s.impossible += !is_possible(r);
        if (!is_possible(r)) continue;
        if (*s.worst_case == '\0' || r->tried.result.margin < s.worst) s.worst = r->tried.result.margin, s.worst_case = r->name;
    }
    return s;
}

static bool weighs_less(const tube_sum *a, const tube_sum *b)
{
    const double rounding = 1e-12 * b->weight;
    return a->weight < b->weight - rounding || (a->weight <= b->weight + rounding && a->first->tried.od < b->first->tried.od);
}

size_t lightest_tube(const compare_row *rows, size_t count)
{
    const size_t tubes = rows[0].tubes;
    size_t pick = tubes;
    tube_sum least = {0};
    for (size_t t = 0; t < tubes; t++) {
        const tube_sum s = sum_of_tube(rows, count, t);
        if (s.holds == s.cases && (pick == tubes || weighs_less(&s, &least))) pick = t, least = s;
    }
    return pick;
}

static bool is_nearer(const tube_sum *a, const tube_sum *b)
{
    if (a->impossible == a->cases || b->impossible == b->cases) return a->impossible < a->cases;
    return a->holds > b->holds || (a->holds == b->holds && a->worst > b->worst);
}

size_t nearest_tube(const compare_row *rows, size_t count)
{
    size_t pick = 0;
    tube_sum nearest = sum_of_tube(rows, count, 0);
    for (size_t t = 1; t < rows[0].tubes; t++) {
        const tube_sum s = sum_of_tube(rows, count, t);
        if (is_nearer(&s, &nearest)) pick = t, nearest = s;
    }
    return pick;
}

static void add_to_part(part_sum *s, const compare_row *r)
{
    if (s->first == NULL) s->first = r;
    s->cases += r->tube == 0;
    if (r->pick != COMPARE_LIGHTEST) return;
    if (r->weighs) s->pick = r;
    if (*s->worst_case == '\0' || r->tried.result.margin < s->worst) s->worst = r->tried.result.margin, s->worst_case = r->name;
}

void sum_each_part(const compare_row *rows, size_t count, size_t parts, part_sum sums[])
{
    for (size_t i = 0; i < parts; i++) sums[i] = (part_sum){.worst = INFINITY, .worst_case = ""};
    for (size_t i = 0; i < count; i++) add_to_part(&sums[rows[i].number], &rows[i]);
}

parts_sum sum_of_parts(const compare_row *rows, size_t count)
{
    parts_sum s = {0};
    for (size_t i = 0; i < count; i++) {
        const compare_row *r = &rows[i];
        s.parts = r->number + 1 > s.parts ? r->number + 1 : s.parts;
        if (r->pick != COMPARE_LIGHTEST || !r->weighs) continue;
        s.picked++;
        s.weight += r->tried.weight;
        s.change += r->tried.weight_change;
    }
    return s;
}
