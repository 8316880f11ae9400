#include <railbow/release.h>

#include <railbow/clock.h>
#include <railbow/forced_fit.h>
#include <railbow/tube.h>

#include "mechanics/no_result.h"
#include "mechanics/restraint.h"
#include "mechanics/weld_corners.h"

#include <gsl/gsl_math.h>
#include <stddef.h>

RESULT_WITH_WHOLE(rbow_released, joints_taken, 1);

/* The flexibilities between the two faces in one plane, by unit loads on both stubs, each on the spring of its joint:
 *     moved  = V by_shear + M cross        turned = V cross + M by_moment */
typedef struct faces {
    double by_shear, cross, by_moment; /* in/lbf, 1/lbf, 1/(in-lbf) */
    rbow_forced_fit fit;                      /* the tube and its joints, before the cut */
    double a, b;
} faces;

static rbow_status check_cut(const rbow_cut *c)
{
    const bool finite = isfinite(c->moved) && isfinite(c->moved_clock) && isfinite(c->opened)
        && (isnan(c->turned) || (isfinite(c->turned) && isfinite(c->turned_clock)));
    if (!(c->elastic_modulus > 0 && isfinite(c->elastic_modulus))) return RBOW_OUT_OF_RANGE;
    if (!(c->length > 0 && isfinite(c->length))) return RBOW_BAD_LENGTH;
    if (!(c->cut_at > 0 && c->cut_at < c->length)) return RBOW_BAD_CUT;
    if (!(c->end_a > 0 || is_welded(c->end_a))) return RBOW_LOOSE_END_A;
    if (!(c->end_b > 0 || is_welded(c->end_b))) return RBOW_LOOSE_END_B;
    if (!(c->gap_stiffness > 0)) return RBOW_BAD_GAP_STIFFNESS;
    return finite ? RBOW_OK : RBOW_NOT_FINITE;
}

static faces faces_of(const rbow_cut *c, const weld_corner *ends, double bending)
{
    double stiffness_a, stiffness_b;
    rbow_end_stiffness(ends->end_a, bending, c->length, &stiffness_a);
    rbow_end_stiffness(ends->end_b, bending, c->length, &stiffness_b);
    const double a = c->cut_at, b = c->length - a, fa = 1 / stiffness_a, fb = 1 / stiffness_b;
    return (faces){
        .by_shear = (a * a * a + b * b * b) / (3 * bending) + a * a * fa + b * b * fb,
        .cross = (a * a - b * b) / (2 * bending) + a * fa - b * fb,
        .by_moment = (a + b) / bending + fa + fb,
        .fit = {bending, c->length, stiffness_a, stiffness_b}, .a = a, .b = b,
    };
}

typedef struct locked { /* in one plane */
    double shear, moment; /* on A's face */
} locked;

/* Without the angle the moment is 0: of all pairs that explain the movement, this one has the least energy. */
static locked locked_in(const faces *f, double moved, double turned)
{
    if (isnan(turned)) return (locked){moved / f->by_shear, 0};
    const double det = f->by_shear * f->by_moment - f->cross * f->cross;
    return (locked){(moved * f->by_moment - turned * f->cross) / det, (turned * f->by_shear - moved * f->cross) / det};
}

/* The slopes of the sockets that explain the ends' moments. Moments here curl toward the clock; the beam's sign is the other
 * one. */
static rbow_forced_ends socket_slopes(const faces *f, const locked *l)
{
    const rbow_forced_ends moments = {-(l->shear * f->a + l->moment), -(l->moment - l->shear * f->b)};
    rbow_forced_ends slopes;
    rbow_fit_slopes(&f->fit, &moments, &slopes); /* NaN where a moment overflows */
    return slopes;
}

/* Magnitude and clock of a vector from its two components. */
static double size_of(double up, double right, double *clock)
{
    if (clock != NULL) *clock = rbow_clock_of(up, right);
    return hypot(up, right);
}

static rbow_status released_at(const rbow_cut *cut, const rbow_section *s, const weld_corner *corner, rbow_released *out)
{
    const faces f = faces_of(cut, corner, cut->elastic_modulus * s->inertia);
    const locked up = locked_in(&f, cut->moved * cos(cut->moved_clock), cut->turned * cos(cut->turned_clock));
    const locked right = locked_in(&f, cut->moved * sin(cut->moved_clock), cut->turned * sin(cut->turned_clock));
    const rbow_forced_ends slopes_up = socket_slopes(&f, &up), slopes_right = socket_slopes(&f, &right);
    double axial;
    const rbow_status status = rbow_fit_tension(cut->opened, cut->length, cut->elastic_modulus * s->area, cut->gap_stiffness, &axial);
    if (status != RBOW_OK) return status;

    NO_RESULT_BEFORE(rbow_released, out, joints_taken);
    out->joints_taken = corner->joints;
    out->fit_axial = 0 - axial;
    out->shear = size_of(up.shear, right.shear, &out->shear_clock);
    out->moment_at_cut = size_of(up.moment, right.moment, &out->moment_clock);
    out->moment_a = size_of(up.shear * f.a + up.moment, right.shear * f.a + right.moment, NULL);
    out->moment_b = size_of(up.moment - up.shear * f.b, right.moment - right.shear * f.b, NULL);
    out->fit_stress = fabs(axial) / s->area + fmax(out->moment_a, out->moment_b) / s->section_modulus;
    out->miss_a = cut->length * size_of(slopes_up.a, slopes_right.a, &out->miss_a_clock);
    out->miss_b = cut->length * size_of(slopes_up.b, slopes_right.b, &out->miss_b_clock);
    const bool finite = isfinite(out->fit_stress) && isfinite(out->miss_a) && isfinite(out->miss_b);
    return finite ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

rbow_status rbow_release(const rbow_cut *cut, rbow_released *released)
{
    rbow_section s;
    weld_corner corners[CORNERS_MOST];
    NO_RESULT_BEFORE(rbow_released, released, joints_taken);
    rbow_status status = rbow_section_of(cut->od, cut->wall, &s);
    if (status == RBOW_OK) status = check_cut(cut);
    if (status != RBOW_OK) return status;

    const int count = rbow_weld_corners(cut->end_a, cut->end_b, corners);
    rbow_released most;
    double least = INFINITY;
    for (int i = 0; i < count; i++) {
        rbow_released r;
        status = released_at(cut, &s, &corners[i], &r);
        if (status != RBOW_OK) return status;
        least = fmin(least, r.fit_stress);
        if (i == 0 || r.fit_stress > most.fit_stress) most = r;
    }
    most.fit_stress_low = least;
    *released = most;
    return RBOW_OK;
}
