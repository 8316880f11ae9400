/* The worst case of a member with unknowns.
 *
 * A load case expands into concrete members, in which every number is known:
 *   corners     each welded end is soft and stiff
 *   directions  each unknown clock of a bow, miss or eccentricity that is not zero
 *   fit         every combination of miss_a, miss_b and gap kept or gone, since a forced fit can relax
 * The result is that of the concrete member with the smallest margin. */
#ifndef RAILBOW_CHECK_SCENARIO_H
#define RAILBOW_CHECK_SCENARIO_H

#include "check/load_factors.h"
#include "mechanics/weld_corners.h"

enum { CLOCK_BOW, CLOCK_MISS_A, CLOCK_MISS_B, CLOCK_ECCENTRICITY, CLOCKS };

typedef struct scenario {
    int corner;
    unsigned kept;        /* RBOW_FIT_... bits of the forced fit that is kept */
    double clock[CLOCKS]; /* rad */
    double ratio;         /* least load factor over the one that is asked for; the margin is this less 1. Of all that
                             is searched: one within a tie of it may be the one that is taken. */
    bool solved;          /* whether all three factors are known, too */
    load_factors factors;
} scenario;

/* The least ratio of a concrete member by another measure than the tube's own limits; as rbow_least_ratio. */
typedef rbow_status ratio_function(const void *of, const prepared *p, double most, double *ratio);

typedef struct scenarios {
    ratio_function *ratio; /* NULL: the tube's limits */
    const void *ratio_of;
    bool several_minima; /* of that ratio within a few degrees of a clock: each fibre that can be the first has its own */
    prepared corners[CORNERS_MOST]; /* soft, soft/stiff, stiff/soft, stiff; the first alone without a welded end */
    int corner_count;
    int joints[CORNERS_MOST];       /* rbow_joints */
    unsigned fit;                   /* RBOW_FIT_... bits of the whole forced fit */
    bool unknown[CLOCKS];
} scenarios;

/* Given:  a member without faults. Status: as rbow_prepare */
rbow_status rbow_scenarios_of(const rbow_member *member, const rbow_material *material, scenarios *s);

/* The prepared concrete member of a scenario. */
prepared rbow_concrete(const scenarios *s, const scenario *one);

/* Given:    corner, kept  which
 *           most          margins of a ratio of this or more are not asked for
 * Returned: worst         the direction with the lowest margin of this corner and fit, to 1e-6 in the margin; its ratio is
 *                         `most` where none is below
 * Status:   RBOW_OK | RBOW_STRESS_OVERFLOW */
rbow_status rbow_worst_direction(const scenarios *s, int corner, unsigned kept, double most, scenario *worst);

typedef struct worst_cases {
    scenario governs;                 /* the lowest margin of all */
    scenario as_built[CORNERS_MOST];  /* of each corner, all kept */
    double least_as_built, most_as_built, least_unforced; /* ratios: over the corners */
} worst_cases;

/* The scenario with the lowest margin alone. Status: as rbow_worst_direction */
rbow_status rbow_worst_case(const scenarios *s, scenario *governs);

/* Margins within 1e-9 of the lowest tie: as built before relaxed before unforced, then the corners in their order, then
 * the smallest clock. Status: as rbow_worst_direction */
rbow_status rbow_worst_cases(const scenarios *s, worst_cases *out);

#endif
