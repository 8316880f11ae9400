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

/* The largest utilisation of one kind of mode: below 0 where the detail has none, NaN for an overflow. Whether it has one. The mode
 * that it is. */
double rbow_detail_level(const detail_model *m, const rbow_section_forces *f, int which);
bool rbow_detail_has(const detail_model *m, int which);
int rbow_detail_mode_of(const detail_model *m, const rbow_section_forces *f, int which);

/* Parts of a result. Given: required  load factors, of each kind; lowest  the ratio of all scenarios; f  at load factor 1 */
rbow_detail_result rbow_detail_no_answer(void);
void rbow_detail_tell_sizes(const rbow_detail *given, const detail_model *m, rbow_detail_result *r);
void rbow_detail_tell_margin(const detail_factors *k, const double required[LIMITS], double lowest, rbow_detail_result *r);
void rbow_detail_tell_forces(const detail_model *m, const rbow_section_forces *f, rbow_detail_result *r);

/* Status: RBOW_OK | RBOW_STRESS_OVERFLOW */
rbow_status rbow_detail_factors(const detail_model *m, const prepared *p, detail_factors *out);

/* A ratio_function (scenario.h). Given: of  a detail_model */
rbow_status rbow_detail_least_ratio(const void *of, const prepared *p, double most, double *ratio);

#endif
