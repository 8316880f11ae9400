#include "working/load_steps.h"

#include <railbow/forced_fit.h>

static const char statics[] = "statics";
static const char beam[] = "Timoshenko & Gere 1961, ch. 1";

static double clock_degrees(double clock)
{
    return clock * 180 / pi;
}

double component_of(const plane *l, double size, double clock)
{
    double components[2];
    rbow_clock_components(size, clock, components);
    return components[l->component];
}

static void take_spread(const loaded_tube *b, plane *l)
{
    const rbow_member *m = &b->c->m;
    const double plain = b->c->across != NULL ? b->c->across->spread[l->component] : component_of(l, m->spread_load, m->spread_clock);
    const double weight = OF_PLANE(l, b->c->weight_load, 0);
    const double bow = m->bow_shape == RBOW_BOW_ARC ? component_of(l, m->bow, m->bow_clock) : 0, equal = l->bow_load.spread;
    if (acts(plain) && b->c->across != NULL) {
        l->spread += b->factor * plain;
        STEP(b->c, "spread load", OF_PLANE(l, "λ q_up", "λ q_right"), "# × #", l->spread, b->c->spread, b->c->given, b->factor, plain);
    } else if (acts(plain)) {
        l->spread += b->factor * plain;
        STEP(b->c, "spread load", OF_PLANE(l, "λ q cos(clock)", "λ q sin(clock)"), OF_PLANE(l, "# × # × cos(#°)", "# × # × sin(#°)"),
             b->factor * plain, b->c->spread, b->c->given, b->factor, m->spread_load, clock_degrees(m->spread_clock));
    }
    if (acts(weight)) {
        l->spread -= b->factor * weight;
        STEP(b->c, "own weight, downward", "−λ w", "−# × #", -b->factor * weight, b->c->spread, statics, b->factor, weight);
    }
    if (acts(bow)) {
        l->spread += equal;
        STEP(b->c, "an arc bow acts like", "8 P e / L²", "8 × # × # / #²", equal, b->c->spread, beam, b->axial, bow, b->length);
    }
    if (acts(plain) + acts(weight) + acts(bow) > 1)
        STEP(b->c, "together", "q", "#", l->spread, b->c->spread, statics, l->spread);
}

static double point_of(const loaded_tube *b, const plane *l)
{
    const rbow_member *m = &b->c->m;
    if (b->c->across != NULL) return b->c->across->point[l->component];
    return rbow_member_point_is_idle(m) ? 0 : component_of(l, m->point_load, m->point_clock);
}

static void take_point(const loaded_tube *b, plane *l)
{
    const rbow_member *m = &b->c->m;
    const double plain = point_of(b, l), bow = component_of(l, m->bow, m->bow_clock);
    if (acts(plain) && b->c->across != NULL) {
        l->point = b->factor * plain;
        STEP(b->c, "point load", OF_PLANE(l, "F = λ F_up", "F = λ F_right"), "# × #", l->point, b->c->force, b->c->given, b->factor, plain);
    } else if (acts(plain)) {
        l->point = b->factor * plain;
        STEP(b->c, "point load", OF_PLANE(l, "F = λ point load cos(clock)", "F = λ point load sin(clock)"),
             OF_PLANE(l, "# × # × cos(#°)", "# × # × sin(#°)"), l->point, b->c->force, b->c->given, b->factor, m->point_load,
             clock_degrees(m->point_clock));
    }
    if (m->bow_shape == RBOW_BOW_KINK && acts(bow)) {
        l->kink = l->bow_load.force;
        STEP(b->c, "a kinked bow acts like", "K = P e (1/c + 1/(L − c)) at c", "# × # × (1 / # + 1 / (# − #))", l->kink,
             b->c->force, beam, b->axial, bow, m->bow_at, b->length, m->bow_at);
    }
    if (m->bow_shape == RBOW_BOW_SINE && acts(bow)) {
        l->bow = bow;
        STEP(b->c, "bow", OF_PLANE(l, "e = bow cos(clock)", "e = bow sin(clock)"), OF_PLANE(l, "# × cos(#°)", "# × sin(#°)"),
             bow, b->c->length, b->c->given, m->bow, clock_degrees(m->bow_clock));
    }
}

static double end_moment(const loaded_tube *b, const plane *l, const char *step, double moment, bool offset)
{
    const rbow_member *m = &b->c->m;
    const double plain = component_of(l, moment, m->moment_clock);
    const double push = offset ? component_of(l, m->compression * m->eccentricity, m->eccentricity_clock) : 0;
    if (!acts(plain) && !acts(push)) return 0;
    STEP(b->c, step, OF_PLANE(l, "λ (M cos(clock) + C e cos(clock of e))", "λ (M sin(clock) + C e sin(clock of e))"),
         OF_PLANE(l, "# × (# × cos(#°) + # × # × cos(#°))", "# × (# × sin(#°) + # × # × sin(#°))"),
         b->factor * (plain + push), b->c->moment, b->c->given, b->factor, moment, clock_degrees(m->moment_clock),
         offset ? m->compression : 0, m->eccentricity, clock_degrees(m->eccentricity_clock));
    return b->factor * (plain + push);
}

static double miss_slope(const loaded_tube *b, const plane *l, const char *step, double miss, double clock)
{
    const double slope = rbow_fit_slope(component_of(l, miss, clock), b->length);
    if (acts(slope))
        STEP(b->c, step, OF_PLANE(l, "miss cos(clock) / L", "miss sin(clock) / L"),
             OF_PLANE(l, "# × cos(#°) / #", "# × sin(#°) / #"), slope, "rad", b->c->given, miss, clock_degrees(clock), b->length);
    return slope;
}

static void take_slopes(const loaded_tube *b, plane *l)
{
    const rbow_member *m = &b->c->m;
    if (b->c->across != NULL) { /* their steps stand above */
        l->slope_a = b->c->across->slope_a[l->component];
        l->slope_b = b->c->across->slope_b[l->component];
        return;
    }
    l->slope_a = miss_slope(b, l, "socket A's miss as a slope", m->miss_a, m->miss_a_clock);
    l->slope_b = miss_slope(b, l, "socket B's miss as a slope", m->miss_b, m->miss_b_clock);
}

bool load_steps(const loaded_tube *b, plane *l)
{
    const rbow_member *m = &b->c->m;
    rbow_bow bow = rbow_member_bow(m);
    bow.amplitude = component_of(l, m->bow, m->bow_clock);
    rbow_bow_equivalent(&bow, b->axial, &l->bow_load);
    take_spread(b, l);
    take_point(b, l);
    l->moment_a = end_moment(b, l, "moment given to A", m->moment_a, !b->c->free_b);
    l->moment_b = end_moment(b, l, "moment given to B", m->moment_b, true);
    take_slopes(b, l);
    return acts(l->spread) || acts(l->point) || acts(l->kink) || acts(l->bow) || acts(l->moment_a) || acts(l->moment_b)
        || acts(l->slope_a) || acts(l->slope_b);
}
