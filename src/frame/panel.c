#include "frame/panel.h"

#include <gsl/gsl_math.h>
#include <string.h>

static double factor_of(double x, double end)
{
    return isinf(end) ? x : -end * expm1(-x);
}

double rbow_panel_x(double factor, double end)
{
    return isinf(end) ? factor : -log1p(-factor / end);
}

panel rbow_panel_of(double from, double to, double end)
{
    panel p = {.from = from, .to = to, .end = end};
    for (int k = 0; k < NODES; k++) {
        const double x = from + (to - from) * (1 - cos(M_PI * k / (NODES - 1))) / 2;
        p.node[k] = k == 0 ? from : k == NODES - 1 ? to : x;
        p.factor[k] = factor_of(p.node[k], end);
    }
    return p;
}

/* Where x is a node, the weight of that node alone is 1. */
void rbow_panel_weights(const panel *p, double x, int stride, double weight[NODES])
{
    double sum = 0;
    memset(weight, 0, NODES * sizeof *weight);
    for (int k = 0, sign = 1; k < NODES; k += stride, sign = -sign) {
        const double off = x - p->node[k];
        if (!(fabs(off) > 0)) {
            memset(weight, 0, NODES * sizeof *weight);
            weight[k] = 1;
            return;
        }
        weight[k] = sign * (k == 0 || k == NODES - 1 ? 0.5 : 1) / off;
        sum += weight[k];
    }
    for (int k = 0; k < NODES; k += stride) weight[k] /= sum;
}
