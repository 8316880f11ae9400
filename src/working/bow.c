#include "working/bow.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

static double kink_share(const rbow_member *m, double x)
{
    const double c = m->bow_at <= RBOW_UNSET ? m->length / 2 : m->bow_at;
    return x < c ? x / c : (m->length - x) / (m->length - c);
}

double bow_share(const rbow_member *m, double x)
{
    switch ((rbow_bow_shape)m->bow_shape) {
        case RBOW_BOW_SINE: return sin(pi * x / m->length);
        case RBOW_BOW_ARC: return 4 * x * (m->length - x) / (m->length * m->length);
        case RBOW_BOW_KINK: return kink_share(m, x);
        case RBOW_BOW_SHAPE_COUNT: break;
    }
    return NAN;
}
