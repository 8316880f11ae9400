#include "detail/net_section.h"

#include "mechanics/no_result.h"
#include "mechanics/restraint.h"

#include <railbow/clock.h>
#include <railbow/tube.h>

RESULT_OF_DOUBLES(rbow_net_section);

/* u runs along the hole's axis, toward the side to which it opens, y across it. The hole takes the strip |y| < h out of one wall
 * or of both. Of a disc of radius a the half strip u > 0 has, with w = sqrt(a^2 - h^2) and angle asin(h/a),
 *     area       h w + a^2 angle
 *     int u^2    (h/4) w^3 + (3/8) a^2 (h w + a^2 angle), twice, over 3
 *     int y^2    (h/4) (2 h^2 - a^2) w + (a^4/4) angle
 * and the wall is the disc of the outside less that of the bore. The first moment of one wall is (R^2 - r^2) h. */
typedef struct strip {
    double area, along, across;
} strip;

static strip strip_of(double a, double h)
{
    const double w = sqrt((a - h) * (a + h)), angle = asin(h / a), area = h * w + a * a * angle;
    return (strip){area, (h * w * w * w / 2 + 0.75 * a * a * area) / 3, (h * (2 * h * h - a * a) * w + a * a * a * a * angle) / 4};
}

rbow_status rbow_net_section_of(double od, double wall, double hole, int walls, rbow_net_section *net)
{
    rbow_section s;
    NO_RESULT(net);
    const rbow_status status = rbow_section_of(od, wall, &s);
    if (status != RBOW_OK) return status;
    if (!(hole >= 0 && (hole < s.bore || !(hole > 0)))) return RBOW_BAD_HOLE;
    if (walls != 1 && walls != 2) return RBOW_BAD_WALLS;
    const double h = hole / 2, outside = od / 2, inside = s.bore / 2;
    strip lost = {0, 0, 0};
    if (h > 0) {
        const strip o = strip_of(outside, h), i = strip_of(inside, h);
        lost = (strip){walls * (o.area - i.area), walls * (o.along - i.along), walls * (o.across - i.across)};
    }
    const double area = s.area - lost.area, mean = outside - wall / 2;
    const double first = walls == 1 ? 2 * wall * mean * h : 0, shift = first / area;
    *net = (rbow_net_section){
        .area = area,
        .inertia_along = s.inertia - lost.along - first * shift,
        .inertia_across = s.inertia - lost.across,
        .shift = shift,
        .edge = sqrt((outside - h) * (outside + h)),
        .half = h,
        .radius = outside,
    };
    return RBOW_OK;
}

bool rbow_net_is_one_wall(const rbow_net_section *n)
{
    return n->shift > 0;
}

/* Moments about the centroid, which lies at -shift: the push on the tube's axis has the lever `shift`. */
static double moment_along(const rbow_net_section *n, double axial, double moment)
{
    return moment - axial * n->shift;
}

double rbow_net_stress_at(const rbow_net_section *n, const rbow_section_forces *f, double toward, net_point at)
{
    double axis[2];
    rbow_clock_components(1, toward, axis);
    const double along = f->moment_up * axis[0] + f->moment_right * axis[1], across = f->moment_right * axis[0] - f->moment_up * axis[1];
    return -f->axial / n->area + moment_along(n, f->axial, along) / n->inertia_along * (at.along + n->shift)
        + across / n->inertia_across * at.across;
}

/* How far the outline reaches in the direction (a, b), times the length of (a, b): on the circle, or at a corner of the hole. */
static double reach(const rbow_net_section *n, double a, double b)
{
    const double length = hypot(a, b);
    const bool whole = a < 0 && rbow_net_is_one_wall(n);
    return !whole && fabs(b) * n->radius < n->half * length ? fabs(a) * n->edge + fabs(b) * n->half : n->radius * length;
}

static net_stress stress_toward(const rbow_net_section *n, const rbow_section_forces *f, double clock)
{
    double axis[2];
    rbow_clock_components(1, clock, axis);
    const double along = f->moment_up * axis[0] + f->moment_right * axis[1], across = f->moment_right * axis[0] - f->moment_up * axis[1];
    const double a = moment_along(n, f->axial, along) / n->inertia_along, b = across / n->inertia_across;
    const double middle = -f->axial / n->area + a * n->shift;
    return (net_stress){middle + reach(n, a, b), middle - reach(n, -a, -b)};
}

/* The points where a moment of some direction can stress the section most: on the outline the stress per moment is a convex function
 * of u between them. */
enum { POINTS = 2 };

static void points_of(const rbow_net_section *n, net_point at[POINTS])
{
    at[0] = (net_point){n->edge, n->half};
    at[1] = rbow_net_is_one_wall(n) ? (net_point){-n->radius, 0} : (net_point){-n->edge, n->half};
}

static double per_moment_at(const rbow_net_section *n, net_point at)
{
    return hypot((at.along + n->shift) / n->inertia_along, at.across / n->inertia_across);
}

static net_stress stress_of_worst(const rbow_net_section *n, const rbow_section_forces *f)
{
    const double moment = hypot(f->moment_up, f->moment_right);
    net_stress s = {-INFINITY, INFINITY};
    net_point at[POINTS];
    points_of(n, at);
    for (int i = 0; i < POINTS; i++) {
        const double direct = -f->axial / n->area - f->axial * n->shift / n->inertia_along * (at[i].along + n->shift);
        const double bending = moment * per_moment_at(n, at[i]);
        if (isnan(direct + bending)) return (net_stress){NAN, NAN};
        s.most = fmax(s.most, direct + bending);
        s.least = fmin(s.least, direct - bending);
    }
    return s;
}

net_stress rbow_net_stress(const rbow_net_section *n, const rbow_section_forces *f, double clock)
{
    return end_is(clock, RBOW_ANY_CLOCK) ? stress_of_worst(n, f) : stress_toward(n, f, clock);
}

double rbow_net_stress_per_moment(const rbow_net_section *n)
{
    net_point at[POINTS];
    points_of(n, at);
    return fmax(per_moment_at(n, at[0]), per_moment_at(n, at[1]));
}

double rbow_net_shear_per_torque(const rbow_net_section *n)
{
    return n->radius / (n->inertia_along + n->inertia_across);
}
