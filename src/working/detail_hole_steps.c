#include "working/detail_steps.h"

/* The section at the middle of a cross hole: u along the hole's axis, toward the side to which it opens, v across it. The hole takes
 * the strip |v| < h out of one wall or of both; a wall is the disc of the outside less that of the bore. */
static const char strips[] = "integrals of strips, elementary";
static const char textbook[] = "mechanics of materials";
static const char yield_rule[] = "equivalent stress (von Mises)";

/* ---- the net section ------------------------------------------------------------------------------------------- */

typedef struct strip_words { /* of the outside disc, and of the bore's */
    const char *half_chord, *angle, *area, *along, *across;
    const char *w, *phi, *a, *u, *v;
} strip_words;

static const strip_words outside = {
    "half chord, outside", "angle, outside", "strip of the disc, outside", "its second moment toward the hole",
    "its second moment across the hole",
    "w = √(R² − h²)", "φ = asin(h/R)", "A_s = h w + R² φ", "(h w³/2 + 3/4 R² A_s) / 3", "(h (2 h² − R²) w + R⁴ φ) / 4",
};
static const strip_words inside = {
    "half chord, bore", "angle, bore", "strip of the disc, bore", "its second moment toward the hole, bore",
    "its second moment across the hole, bore",
    "w = √(r² − h²)", "φ = asin(h/r)", "A_s = h w + r² φ", "(h w³/2 + 3/4 r² A_s) / 3", "(h (2 h² − r²) w + r⁴ φ) / 4",
};

typedef struct strip {
    double area, along, across;
} strip;

static strip strip_steps(const detail_calculation *d, const strip_words *s, double a, double h)
{
    const calculation *c = &d->c;
    const double w = sqrt(a * a - h * h), angle = asin(h / a), area = h * w + a * a * angle;
    const strip of = {area, (h * w * w * w / 2 + 0.75 * a * a * area) / 3, (h * (2 * h * h - a * a) * w + a * a * a * a * angle) / 4};
    STEP(c, s->half_chord, s->w, "√(#² − #²)", w, c->length, strips, a, h);
    STEP(c, s->angle, s->phi, "asin(# / #)", angle, "rad", strips, h, a);
    STEP(c, s->area, s->a, "# × # + #² × #", area, c->area, strips, h, w, a, angle);
    STEP(c, s->along, s->u, "(# × #³ / 2 + 3/4 × #² × #) / 3", of.along, c->inertia, strips, h, w, a, area);
    STEP(c, s->across, s->v, "(# × (2 × #² − #²) × # + #^4 × #) / 4", of.across, c->inertia, strips, h, h, a, w, a, angle);
    return of;
}

static void centroid_steps(const detail_calculation *d, double mean, double h)
{
    const calculation *c = &d->c;
    const double wall = d->metal.section.wall, first = 2 * wall * mean * h;
    STEP(c, "first moment of the wall that is lost", "Q = 2 t (R − t/2) h", "2 × # × # × #", first, c->modulus, strips, wall, mean, h);
    STEP(c, "centroid from the tube's axis, away from the hole", "e = Q / A_net", "# / #", d->net.shift, c->length, strips, first, d->net.area);
}

void hole_section_steps(detail_calculation *d)
{
    const calculation *c = &d->c;
    const rbow_section *s = &d->metal.section;
    const double h = d->d.hole / 2, outer = s->od / 2, inner = outer - s->wall, walls = d->d.walls;
    rbow_net_section_of(s->od, s->wall, d->d.hole, d->d.walls, &d->net);
    working_heading(c->w, "Net section at the middle of the hole", strips);
    STEP(c, "diameter of the hole", "d", "#", d->d.hole, c->length, detail_table, d->d.hole);
    STEP(c, "walls that it goes through", "n", "#", walls, "", detail_table, walls);
    STEP(c, "half of the hole", "h = d/2", "# / 2", h, c->length, strips, d->d.hole);
    STEP(c, "outside radius", "R = D/2", "# / 2", outer, c->length, strips, s->od);
    STEP(c, "radius of the bore", "r = D/2 − t", "# / 2 − #", inner, c->length, strips, s->od, s->wall);
    const strip o = strip_steps(d, &outside, outer, h), i = strip_steps(d, &inside, inner, h);
    STEP(c, "net area", "A_net = A − n (A_s outside − A_s bore)", "# − # × (# − #)", d->net.area, c->area, strips, s->area, walls, o.area, i.area);
    centroid_steps(d, d->d.walls == 1 ? outer - s->wall / 2 : 0, h);
    STEP(c, "net second moment, for moments toward the hole", "I_u = I − n (outside − bore) − A_net e²", "# − # × (# − #) − # × #²",
         d->net.inertia_along, c->inertia, strips, s->inertia, walls, o.along, i.along, d->net.area, d->net.shift);
    STEP(c, "net second moment, for moments across the hole", "I_v = I − n (outside − bore)", "# − # × (# − #)", d->net.inertia_across,
         c->inertia, strips, s->inertia, walls, o.across, i.across);
    STEP(c, "edge of the hole along its axis", "u_e = √(R² − h²)", "√(#² − #²)", d->net.edge, c->length, strips, outer, h);
}

/* ---- its stresses ------------------------------------------------------------------------------------------------ */

typedef struct extremes { /* of the section: stretched and compressed fibre, both positive where they are */
    double pulled, pressed;
} extremes;

/* A point of the outline: the corner of the hole, or of the circle. */
typedef struct point {
    double u, v;
    bool corner;
} point;

static point extreme_point(const rbow_net_section *n, double a, double b)
{
    const double length = hypot(a, b);
    const bool whole = a < 0 && n->shift > 0;
    if (!(length > 0)) return (point){n->edge, n->half, true};
    if (!whole && fabs(b) * n->radius < n->half * length) return (point){copysign(n->edge, a), copysign(n->half, b), true};
    return (point){n->radius * a / length, n->radius * b / length, false};
}

static double stress_at(const detail_calculation *d, const detail_forces *f, const char *step, const char *place, double a, double b,
                        point at)
{
    const calculation *c = &d->c;
    const rbow_net_section *n = &d->net;
    const double stress = -f->of.axial / n->area + a * (at.u + n->shift) + b * at.v;
    STEP(c, place, at.corner ? "u, at the hole's edge" : "u, at the circle", "#", at.u, c->length, "outline of the section", at.u);
    STEP(c, "and across the hole", "v", "#", at.v, c->length, "outline of the section", at.v);
    STEP(c, step, "σ = −P/A_net + a (u + e) + b v", "−# / # + # × (# + #) + # × #", stress, c->stress, textbook, f->of.axial, n->area, a,
         at.u, n->shift, b, at.v);
    return stress;
}

static const char *slope_unit(const calculation *c)
{
    return c->units == UNITS_SI ? "MPa/mm" : "psi/in";
}

static extremes toward_a_clock(const detail_calculation *d, const detail_forces *f)
{
    const calculation *c = &d->c;
    const rbow_net_section *n = &d->net;
    const double clock = d->d.hole_clock, degrees = clock * 180 / pi, up = f->of.moment_up, right = f->of.moment_right;
    double axis[2];
    rbow_clock_components(1, clock, axis);
    const double along = up * axis[0] + right * axis[1], beside = right * axis[0] - up * axis[1];
    STEP(c, "moment toward the hole", "M_u = M_up cos(clock) + M_right sin(clock)", "# × cos(#°) + # × sin(#°)", along, c->moment, "geometry", up,
         degrees, right, degrees);
    STEP(c, "moment across the hole", "M_v = M_right cos(clock) − M_up sin(clock)", "# × cos(#°) − # × sin(#°)", beside, c->moment, "geometry",
         right, degrees, up, degrees);
    const double a = (along - f->of.axial * n->shift) / n->inertia_along, b = beside / n->inertia_across;
    STEP(c, "slope of the stress toward the hole", "a = (M_u − P e) / I_u", "(# − # × #) / #", a, slope_unit(c), textbook, along, f->of.axial, n->shift,
         n->inertia_along);
    STEP(c, "slope of the stress across the hole", "b = M_v / I_v", "# / #", b, slope_unit(c), textbook, beside, n->inertia_across);
    return (extremes){stress_at(d, f, "stress of the most stretched fibre", "the most stretched fibre", a, b, extreme_point(n, a, b)),
                      -stress_at(d, f, "stress of the most compressed fibre", "the most compressed fibre", a, b, extreme_point(n, -a, -b))};
}

typedef struct worst_words {
    const char *direct, *per_moment, *pulled, *pressed;
} worst_words;

static extremes worst_of_point(const detail_calculation *d, const detail_forces *f, const worst_words *w, point at)
{
    const calculation *c = &d->c;
    const rbow_net_section *n = &d->net;
    const double u = at.u, v = at.v, p = f->of.axial;
    const double direct = -p / n->area - p * n->shift / n->inertia_along * (u + n->shift);
    const double per_moment = hypot((u + n->shift) / n->inertia_along, v / n->inertia_across);
    STEP(c, w->direct, "σ_P = −P/A_net − P e/I_u (u + e)", "−# / # − # × # / # × (# + #)", direct, c->stress, textbook, p, n->area, p, n->shift,
         n->inertia_along, u, n->shift);
    STEP(c, w->per_moment, "1/S = √(((u + e)/I_u)² + (v/I_v)²)", "√(((# + #) / #)² + (# / #)²)", per_moment,
         c->units == UNITS_SI ? "1/mm^3" : "1/in^3", "the hole turned so that M hurts most", u, n->shift, n->inertia_along, v, n->inertia_across);
    const extremes of = {direct + f->moment * per_moment, -(direct - f->moment * per_moment)};
    STEP(c, w->pulled, "σ_t = σ_P + M/S", "# + # × #", of.pulled, c->stress, textbook, direct, f->moment, per_moment);
    STEP(c, w->pressed, "σ_c = M/S − σ_P", "# × # − #", of.pressed, c->stress, textbook, f->moment, per_moment, direct);
    return of;
}

static extremes toward_the_worst(const detail_calculation *d, const detail_forces *f)
{
    static const worst_words edge = {"stress of the push at the hole's edge", "stress of a moment of 1 at the hole's edge",
                                     "stretched, at the hole's edge", "compressed, at the hole's edge"};
    static const worst_words far = {"stress of the push at the far side", "stress of a moment of 1 at the far side", "stretched, at the far side",
                                    "compressed, at the far side"};
    const rbow_net_section *n = &d->net;
    const extremes one = worst_of_point(d, f, &edge, (point){n->edge, n->half, true});
    const extremes two = worst_of_point(d, f, &far, n->shift > 0 ? (point){-n->radius, 0, false} : (point){-n->edge, n->half, true});
    return (extremes){fmax(one.pulled, two.pulled), fmax(one.pressed, two.pressed)};
}

double hole_yield_steps(const detail_calculation *d, const detail_forces *f)
{
    const calculation *c = &d->c;
    const rbow_net_section *n = &d->net;
    const bool any = d->d.hole_clock <= RBOW_ANY_CLOCK && d->d.hole_clock >= RBOW_ANY_CLOCK;
    const extremes s = any ? toward_the_worst(d, f) : toward_a_clock(d, f);
    const double shear = f->torque * n->radius / (n->inertia_along + n->inertia_across);
    const double fc = d->metal.compression_yield, ft = d->metal.yield;
    if (f->torque > 0)
        STEP(c, "shear of the torque", "τ = λ T R / (I_u + I_v)", "# × # / (# + #)", shear, c->stress, textbook, f->torque, n->radius,
             n->inertia_along, n->inertia_across);
    const double pressed = hypot(fmax(s.pressed, 0), sqrt(3) * shear) / fc, pulled = hypot(fmax(s.pulled, 0), sqrt(3) * shear) / ft;
    STEP(c, "utilisation of the compressed fibre", "√(max(σ_c, 0)² + 3 τ²) / Fc", "√(max(#, 0)² + 3 × #²) / #", pressed, "", yield_rule, s.pressed,
         shear, fc);
    STEP(c, "utilisation of the stretched fibre", "√(max(σ_t, 0)² + 3 τ²) / Ft", "√(max(#, 0)² + 3 × #²) / #", pulled, "", yield_rule, s.pulled,
         shear, ft);
    STEP(c, "utilisation of yield; 1 is the limit", "the larger", "max(#, #)", fmax(pressed, pulled), "", yield_rule, pressed, pulled);
    return fmax(pressed, pulled);
}
