/* What tests of the check's inside share: a sample made ready, and its levels. */
#ifndef TESTS_CHECK_INSIDE_H
#define TESTS_CHECK_INSIDE_H

#include "members.h"

#include "check/load_factors.h"

/* Returned: whether it is valid, and stands at rest */
static inline bool make_ready(const sample *s, prepared *p)
{
    rbow_status status;
    return rbow_faults_of(&s->member, &s->material, &status, 1) == 0 && rbow_prepare(&s->member, &s->material, p) == RBOW_OK
        && -p->tension < p->critical_load;
}

static inline double level_at(const prepared *p, limit which, double factor)
{
    evaluation e;
    rbow_evaluate(p, factor, false, &e);
    return e.stands ? e.limits[which].utilisation : (double)INFINITY;
}

static inline load_factors factors_of(const sample *s, const prepared *p)
{
    load_factors k;
    sample_holds(s, "load factors", rbow_load_factors(p, &k) == RBOW_OK);
    return k;
}

static inline long number_from(const char *name, long fallback)
{
    const char *word = getenv(name);
    return word != NULL ? strtol(word, NULL, 10) : fallback;
}

#endif
