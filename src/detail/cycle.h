/* One cycle of a detail between two states. */
#ifndef RAILBOW_DETAIL_CYCLE_H
#define RAILBOW_DETAIL_CYCLE_H

#include "detail/model.h"

#include <railbow/life.h>

/* Status: RBOW_OK | RBOW_BAD_SN | RBOW_SN_NOT_WELD */
rbow_status rbow_sn_fault(const rbow_sn_curve *c, const detail_model *m);

/* Given: c       without a fault
 *        fibres  whether stress_max and ratio of a weld curve are needed: its cycles do not depend on them */
rbow_life_cycle rbow_cycle_between(const detail_model *m, const rbow_sn_curve *c, const rbow_section_forces *low,
                                   const rbow_section_forces *high, bool fibres);

/* As rbow_sn_cycles. Given: c  without a fault */
double rbow_cycles_at(const rbow_sn_curve *c, double range, double equivalent);

/* S_eq. Given: most > 0, range  psi */
double rbow_equivalent_stress(const rbow_sn_curve *c, double most, double range);

/* The one that lasts less: without a number before any other; of equals the one with the larger equivalent stress, then the second. */
rbow_life_cycle rbow_worse_cycle(const rbow_life_cycle *a, const rbow_life_cycle *b);

#endif
