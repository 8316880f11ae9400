/* The load factors of a detail on a concrete member. */
#ifndef RAILBOW_DETAIL_FACTOR_H
#define RAILBOW_DETAIL_FACTOR_H

#include "check/first_crossing.h"
#include "detail/model.h"

/* The two kinds of mode, each with its own required load factor, stand in the places of the tube's two limits. */
enum { DETAIL_YIELD = LIMIT_YIELD, DETAIL_WELD = LIMIT_INTERACTION };

typedef struct detail_factors {
    double of[LIMITS]; /* first load factor of each kind; INFINITY: never, or the detail has no such mode */
    int mode[LIMITS];  /* rbow_detail_mode of it */
} detail_factors;

/* Status: RBOW_OK | RBOW_STRESS_OVERFLOW */
rbow_status rbow_detail_factors(const detail_model *m, const prepared *p, detail_factors *out);

/* A ratio_function (scenario.h). Given: of  a detail_model */
rbow_status rbow_detail_least_ratio(const void *of, const prepared *p, double most, double *ratio);

#endif
