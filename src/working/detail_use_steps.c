#include "working/detail_steps.h"

#include "working/use_steps.h"

static const char line_method[] = "Blodgett, Design of Welded Structures, 7.4: weld as a line";
static const char bearing_rule[] = "AISC 360-10 J3.10";
static const char statics[] = "statics";

/* ---- yield --------------------------------------------------------------------------------------------------- */

static double tube_yield(const detail_calculation *d, const rbow_strength *s, const detail_forces *f)
{
    calculation of = d->c;
    rbow_stress r;
    const rbow_actions a = {f->of.axial, f->moment, f->torque};
    of.tube = *s;
    use_steps(&of, RBOW_BY_YIELD, false, &a, &r);
    return fmax(r.utilisation_pressed, r.utilisation_pulled);
}

static double weaker_yield(const detail_calculation *d, const detail_forces *f)
{
    working_heading(d->c.w, "Yield of the tube", "");
    const double tube = tube_yield(d, &d->welded, f);
    working_heading(d->c.w, "Yield of the stub", "");
    const double stub = tube_yield(d, &d->other, f);
    STEP(&d->c, "utilisation of yield; 1 is the limit", "of the weaker one", "max(#, #)", fmax(tube, stub), "", "socket: tube and stub", tube, stub);
    return fmax(tube, stub);
}

double detail_yield_steps(const detail_calculation *d, const detail_forces *f)
{
    switch ((rbow_detail_kind)d->d.kind) {
        case RBOW_DETAIL_HOLE: return hole_yield_steps(d, f);
        case RBOW_DETAIL_SLEEVE: return tube_yield(d, d->d.butt ? &d->welded : &d->other, f);
        case RBOW_DETAIL_SOCKET: return weaker_yield(d, f);
        case RBOW_DETAIL_PLACE:
        case RBOW_DETAIL_RING_WELD:
        case RBOW_DETAIL_KIND_COUNT: break;
    }
    return tube_yield(d, &d->metal, f);
}

/* ---- welds --------------------------------------------------------------------------------------------------- */

static const char *line_unit(const calculation *c)
{
    return c->units == UNITS_SI ? "N/mm" : "lbf/in";
}

static double ring_use(const detail_calculation *d, const detail_forces *f)
{
    const calculation *c = &d->c;
    const double od = d->ring_od, axial = fabs(f->of.axial), throat = d->d.throat;
    const double direct = axial / (pi * od) + f->moment / (pi * od * od / 4);
    const double shear = f->torque / (pi * od * od / 2) + 2 * f->shear / (pi * od);
    const double use = hypot(direct, shear) / (d->rupture * throat);
    STEP(c, "unit load along the tube", "f_n = |P|/(π d) + M/(π d²/4)", "# / (π × #) + # / (π × #² / 4)", direct, line_unit(c), line_method, axial,
         od, f->moment, od);
    STEP(c, "unit load round the ring, at its peak", "f_t = T/(π d²/2) + 2 V/(π d)", "# / (π × #² / 2) + 2 × # / (π × #)", shear, line_unit(c),
         line_method, f->torque, od, f->shear, od);
    STEP(c, "utilisation of the weld; 1 is the limit", "√(f_n² + f_t²) / (F_w a)", "√(#² + #²) / (# × #)", use, "", line_method, direct, shear,
         d->rupture, throat);
    return use;
}

static double rosette_use(const detail_calculation *d, const detail_forces *f)
{
    const calculation *c = &d->c;
    const double n = d->d.rosettes, od = d->d.sleeve_od, size = d->d.rosette, axial = fabs(f->of.axial);
    const double force = hypot(axial / n, f->torque / (n * od / 2)), area = pi * size * size / 4, wall = fmin(d->metal.section.wall, d->d.sleeve_wall);
    const double shear = force / (d->rupture * area), bearing = force / (2.4 * size * wall * c->k.ultimate);
    STEP(c, "force on a rosette", "R = √((P/n)² + (T/(n D_s/2))²), D_s: OD of the sleeve", "√((# / #)² + (# / (# × # / 2))²)", force, c->force,
         statics, axial, n, f->torque, n, od);
    STEP(c, "utilisation of the rosettes in shear; 1 is the limit", "R / (F_w A_r)", "# / (# × #)", shear, "", "AISC 360-10 J2.4", force, d->rupture,
         area);
    STEP(c, "utilisation of the bearing; 1 is the limit", "R / (2.4 d_r t_m Fu)", "# / (2.4 × # × # × #)", bearing, "", bearing_rule, force, size,
         wall, c->k.ultimate);
    return fmax(shear, bearing);
}

double detail_weld_steps(const detail_calculation *d, const detail_forces *f)
{
    return detail_has_ring(d) ? ring_use(d, f) : rosette_use(d, f);
}
