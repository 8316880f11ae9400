/* The chart of an S-N curve with the points of details on it. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_SN_CHART_H
#define RAILBOW_REPORT_PAGE_DETAIL_SN_CHART_H

#include "report/page/page.h"

#include <railbow/life.h>

typedef struct sn_point {
    size_t number;            /* that stands beside it */
    double stress, cycles;    /* psi: range of a weld curve, S_eq of a metal curve; INFINITY: no end */
    bool forced;
    double stress_unforced, cycles_unforced;
} sn_point;

enum { SN_CHART_HIGH = 300 }; /* of the drawing */

/* Both axes logarithmic, inside a drawing that is open. Points without a finite stress are not drawn. */
void sn_chart(text *out, const rbow_sn_curve *curve, const sn_point *points, size_t count, unit_system units);

#endif
