#include "command/working_bent.h"

static const char given[] = "load case";
static const char statics[] = "statics";
static const char beam[] = "Timoshenko & Gere ch. 1";

static double clock_degrees(double clock)
{
    return clock * 180 / work_pi;
}

/* A quarter of the clock in radians is not quite a quarter; what rounding leaves is no load. */
double work_part(const lateral *l, double size, double clock)
{
    const double share = l->share(clock);
    return fabs(share) > 1e-15 * (1 + fabs(clock)) ? size * share : 0;
}

static void take_spread(const bent *b, lateral *l)
{
    const rbow_member *m = &b->d->m;
    const double plain = work_part(l, m->spread_load, m->spread_clock), weight = OF_PLANE(l, b->d->weight_load, 0);
    const double bow = m->bow_shape == RBOW_BOW_ARC ? work_part(l, m->bow, m->bow_clock) : 0;
    if (work_acts(plain)) {
        l->spread += b->factor * plain;
        STEP(b->d, "spread load", OF_PLANE(l, "λ q cos(clock)", "λ q sin(clock)"), OF_PLANE(l, "# × # × cos(#°)", "# × # × sin(#°)"),
             b->factor * plain, b->d->spread, given, b->factor, m->spread_load, clock_degrees(m->spread_clock));
    }
    if (work_acts(weight)) {
        l->spread -= b->factor * weight;
        STEP(b->d, "own weight, downward", "−λ w", "−# × #", -b->factor * weight, b->d->spread, statics, b->factor, weight);
    }
    if (work_acts(bow)) {
        const double equal = 8 * b->axial * bow / (b->length * b->length);
        l->spread += equal;
        STEP(b->d, "an arc bow acts like", "8 P e / L²", "8 × # × # / #²", equal, b->d->spread, beam, b->axial, bow, b->length);
    }
    if (work_acts(plain) + work_acts(weight) + work_acts(bow) > 1)
        STEP(b->d, "together", "q", "#", l->spread, b->d->spread, statics, l->spread);
}

static void take_point(const bent *b, lateral *l)
{
    const rbow_member *m = &b->d->m;
    const bool idle = m->point_at <= 0 || (m->point_at >= m->length && !b->d->free_b);
    const double plain = idle ? 0 : work_part(l, m->point_load, m->point_clock), bow = work_part(l, m->bow, m->bow_clock);
    if (work_acts(plain)) {
        l->point = b->factor * plain;
        STEP(b->d, "point load", OF_PLANE(l, "F = λ point load cos(clock)", "F = λ point load sin(clock)"),
             OF_PLANE(l, "# × # × cos(#°)", "# × # × sin(#°)"), l->point, b->d->force, given, b->factor, m->point_load,
             clock_degrees(m->point_clock));
    }
    if (m->bow_shape == RBOW_BOW_KINK && work_acts(bow)) {
        l->kink = b->axial * bow * (1 / m->bow_at + 1 / (b->length - m->bow_at));
        STEP(b->d, "a kinked bow acts like", "K = P e (1/c + 1/(L − c)) at c", "# × # × (1 / # + 1 / (# − #))", l->kink,
             b->d->force, beam, b->axial, bow, m->bow_at, b->length, m->bow_at);
    }
    if (m->bow_shape == RBOW_BOW_SINE && work_acts(bow)) {
        l->bow = bow;
        STEP(b->d, "bow", OF_PLANE(l, "e = bow cos(clock)", "e = bow sin(clock)"), OF_PLANE(l, "# × cos(#°)", "# × sin(#°)"),
             bow, b->d->length, given, m->bow, clock_degrees(m->bow_clock));
    }
}

static double end_moment(const bent *b, const lateral *l, const char *step, double moment, bool offset)
{
    const rbow_member *m = &b->d->m;
    const double plain = work_part(l, moment, m->moment_clock);
    const double push = offset ? work_part(l, m->compression * m->eccentricity, m->eccentricity_clock) : 0;
    if (!work_acts(plain) && !work_acts(push)) return 0;
    STEP(b->d, step, OF_PLANE(l, "λ (M cos(clock) + C e cos(clock of e))", "λ (M sin(clock) + C e sin(clock of e))"),
         OF_PLANE(l, "# × (# × cos(#°) + # × # × cos(#°))", "# × (# × sin(#°) + # × # × sin(#°))"),
         b->factor * (plain + push), b->d->moment, given, b->factor, moment, clock_degrees(m->moment_clock),
         offset ? m->compression : 0, m->eccentricity, clock_degrees(m->eccentricity_clock));
    return b->factor * (plain + push);
}

static double miss_slope(const bent *b, const lateral *l, const char *step, double miss, double clock)
{
    const double slope = work_part(l, miss, clock) / b->length;
    if (work_acts(slope))
        STEP(b->d, step, OF_PLANE(l, "miss cos(clock) / L", "miss sin(clock) / L"),
             OF_PLANE(l, "# × cos(#°) / #", "# × sin(#°) / #"), slope, "rad", given, miss, clock_degrees(clock), b->length);
    return slope;
}

bool work_loads(const bent *b, lateral *l)
{
    const rbow_member *m = &b->d->m;
    take_spread(b, l);
    take_point(b, l);
    l->moment_a = end_moment(b, l, "moment given to A", m->moment_a, !b->d->free_b);
    l->moment_b = end_moment(b, l, "moment given to B", m->moment_b, true);
    l->slope_a = miss_slope(b, l, "socket A's miss as a slope", m->miss_a, m->miss_a_clock);
    l->slope_b = miss_slope(b, l, "socket B's miss as a slope", m->miss_b, m->miss_b_clock);
    return work_acts(l->spread) || work_acts(l->point) || work_acts(l->kink) || work_acts(l->bow) || work_acts(l->moment_a) || work_acts(l->moment_b)
        || work_acts(l->slope_a) || work_acts(l->slope_b);
}
