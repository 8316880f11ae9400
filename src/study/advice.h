/* What makes a short case hold: how small a miss, the gap or the bow must become, or which other wall. */
#ifndef RAILBOW_STUDY_ADVICE_H
#define RAILBOW_STUDY_ADVICE_H

#include "cases/check_table.h"
#include "study/problem.h"

typedef struct advice_question {
    const problem *problem;
    const char *name;        /* of the case */
    const double *walls;     /* in, ascending: those that may be had */
    size_t wall_count;
    double miss_step, step;  /* in: a permitted miss is a multiple of the first, a gap and a bow one of the second */
} advice_question;

/* What a shop can measure and set: a miss to 1/64 in or 0.5 mm, a gap and a bow to 0.001 in or 0.05 mm. In inch. */
double advice_miss_step(unit_system units);
double advice_step(unit_system units);

/* Every column alone. A permitted value is the limit on the way from 0 (limit_find_at_pace: 100, or 20 where two
 * directions or more are not known), rounded toward 0; no value between 0 and it was found short, and it was checked itself. A column whose permitted value rounds to 0 is left out: nobody can build that. The wall is
 * the thinnest of those given that holds.
 * Where more than three directions are not known, walls alone are tried: a check is then too slow for a search.
 * Returned: a->count 0 where nothing alone is enough, or where the case holds already */
void advice_find(advice *a, const advice_question *q);

#endif
