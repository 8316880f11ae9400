/* Source: interpolation at the extrema of a Chebyshev polynomial, e.g. Trefethen, Approximation Theory and Approximation
 * Practice, 2013, ch. 2-4 and 8 (from memory): the terms of a function that is analytic around the panel fall like a power, so
 * that the last ones tell what was left out. */
#include "frame/panel.h"

#include "frame/element.h"

#include <gsl/gsl_math.h>
#include <string.h>

enum { DEGREE = NODES - 1 };

static double node_at(const panel *p, int k)
{
    if (k == 0) return p->low;
    if (k == DEGREE) return p->high;
    return (p->low + p->high) / 2 - (p->high - p->low) / 2 * cos(M_PI * k / DEGREE);
}

bool rbow_panel_fill(rbow_frame_solver *s, const panel *p)
{
    for (int k = 0; k < NODES; k++) {
        if (!rbow_frame_reach(s, node_at(p, k))) return false;
        for (size_t i = 0; i < s->frame.tube_count; i++) {
            const tube_motion m = rbow_tube_motion(&s->tubes[i], s->motion);
            s->nodes[k][i] = rbow_tube_state(&s->tubes[i], &m);
        }
    }
    return true;
}

static void values_of(const tube_state *s, double value[COURSES])
{
    value[COURSE_AXIAL] = s->axial;
    value[COURSE_TORQUE] = s->torque;
    memcpy(&value[COURSE_SLOPES], s->slope, sizeof s->slope);
}

course rbow_course_of(const rbow_frame_solver *s, const panel *p, size_t tube)
{
    course c = {.tube = &s->tubes[tube], .middle = (p->low + p->high) / 2, .half = (p->high - p->low) / 2};
    for (int k = 0; k < NODES; k++) {
        const double end = k == 0 || k == DEGREE ? 0.5 : 1;
        double value[COURSES];
        values_of(&s->nodes[k][tube], value);
        for (int j = 0; j < NODES; j++) {
            const double share = (j == 0 || j == DEGREE ? 0.5 : 1) * end * 2 / DEGREE * cos(M_PI * j * (DEGREE - k) / DEGREE);
            for (int i = 0; i < COURSES; i++) c.term[j][i] += share * value[i];
        }
    }
    return c;
}

/* Clenshaw's sum. */
static void values_at(const course *c, double factor, int count, double value[])
{
    const double x = c->half > 0 ? (factor - c->middle) / c->half : 0;
    for (int i = 0; i < count; i++) {
        double next = 0, after = 0;
        for (int j = DEGREE; j > 0; j--) {
            const double sum = c->term[j][i] + 2 * x * next - after;
            after = next;
            next = sum;
        }
        value[i] = c->term[0][i] + x * next - after;
    }
}

double rbow_course_axial(const course *c, double factor)
{
    double axial;
    values_at(c, factor, 1, &axial);
    return axial;
}

void rbow_course_loads(const void *context, double factor, tube_loads *out)
{
    const course *c = context;
    double value[COURSES];
    tube_state s;
    values_at(c, factor, COURSES, value);
    s.axial = value[COURSE_AXIAL];
    s.torque = value[COURSE_TORQUE];
    memcpy(s.slope, &value[COURSE_SLOPES], sizeof s.slope);
    rbow_tube_loads(c->tube, &s, factor, out);
}

/* ---- what is left out ------------------------------------------------------------------------------------ */

static double tail_of(const course *c, int which)
{
    return fabs(c->term[DEGREE][which]) + fabs(c->term[DEGREE - 1][which]);
}

/* A bound on how far a value is from the middle one. */
static double swing_of(const course *c, int which)
{
    double sum = 0;
    for (int j = 1; j < NODES; j++) sum += fabs(c->term[j][which]);
    return sum;
}

/* As utilisation: a change of the axial force changes the direct stress, and the moments by its share of the distance to the
 * critical load; a change of a slope changes the moments by four times EI/L at most, more near the critical load. */
bool rbow_course_is_known(const course *c)
{
    static const double allowed = 1e-9;
    const prepared *p = &c->tube->member;
    const rbow_strength *s = &p->zones[ZONE_TUBE].strength;
    const double middle = c->term[0][COURSE_AXIAL], swing = swing_of(c, COURSE_AXIAL);
    const double room = fmax(p->critical_load - (middle + swing), 1e-6 * p->critical_load);
    const double squash = s->section.area * s->compression_yield;
    const double yield_moment = s->section.section_modulus * s->compression_yield;
    const double slope = allowed * yield_moment / (4 * p->unit) * fmin(1, room / p->critical_load);
    if (tail_of(c, COURSE_AXIAL) > allowed * fmin(fmax(squash, fabs(middle) + swing), room)) return false;
    if (tail_of(c, COURSE_TORQUE) > allowed * yield_moment) return false;
    for (int i = 0; i < PLANES; i++) {
        if (p->beam.spring_a.slope > 0 && tail_of(c, COURSE_SLOPES + END_A * PLANES + i) > slope) return false;
        if (p->beam.spring_b.slope > 0 && tail_of(c, COURSE_SLOPES + END_B * PLANES + i) > slope) return false;
    }
    return true;
}

/* ---- axial force ----------------------------------------------------------------------------------------- */

/* A bound on the second derivative of the axial force: that of the k-th polynomial is at most k^2 (k^2 - 1)/3. */
static double bend_of_axial(const course *c)
{
    double sum = 0;
    for (int k = 2; k < NODES; k++) sum += fabs(c->term[k][COURSE_AXIAL]) * k * k * (k * k - 1) / 3.0;
    return c->half > 0 ? sum / (c->half * c->half) : 0;
}

static double first_between(const course *c, double sign, double value, double bend, double from, double at_from, double to, double at_to)
{
    const double width = to - from;
    if (at_from >= value) return from;
    if (fmax(at_from, at_to) + bend * width * width / 8 < value) return INFINITY;
    if (width <= 1e-12 * to) return at_to >= value ? to : (double)INFINITY;
    const double middle = from + width / 2, at_middle = sign * rbow_course_axial(c, middle);
    const double found = first_between(c, sign, value, bend, from, at_from, middle, at_middle);
    return isfinite(found) ? found : first_between(c, sign, value, bend, middle, at_middle, to, at_to);
}

double rbow_course_first(const course *c, double sign, double value, double from, double to)
{
    const double at_from = sign * rbow_course_axial(c, from), at_to = sign * rbow_course_axial(c, to);
    return first_between(c, sign, value, bend_of_axial(c), from, at_from, to, at_to);
}
