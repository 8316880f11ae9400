#include "working/detail_steps.h"

#include "working/tube_steps.h"

const char detail_table[] = "table of details";
static const char textbook[] = "mechanics of materials";
static const char line_method[] = "Blodgett, Design of Welded Structures, 7.4, table 5";
static const char rupture_rule[] = "AISC 360-10 J2.4, nominal strength";

bool detail_has_ring(const detail_calculation *d)
{
    return d->d.kind == RBOW_DETAIL_RING_WELD || d->d.kind == RBOW_DETAIL_SOCKET
        || (d->d.kind == RBOW_DETAIL_SLEEVE && d->d.butt && d->own_detail->throat > 0 && d->d.throat < d->metal.section.wall);
}

bool detail_has_rosettes(const detail_calculation *d)
{
    return d->d.kind == RBOW_DETAIL_SLEEVE && !d->d.butt;
}

bool detail_yields(const detail_calculation *d)
{
    return d->d.kind != RBOW_DETAIL_RING_WELD;
}

static void length_step(const detail_calculation *d, const char *step, const char *symbol, double value)
{
    STEP(&d->c, step, symbol, "#", value, d->c.length, detail_table, value);
}

static void place_steps(detail_calculation *d)
{
    const bool zone = d->own_result->in_weld_zone;
    d->metal = zone ? d->c.weld : d->c.tube;
    d->metal.column_load = 1; /* not used */
    working_heading(d->c.w, "Place", "");
    length_step(d, "place of the detail", "x, from A", d->d.at);
    STEP(&d->c, "outside diameter there", zone ? "D, in the weld zone" : "D, outside the weld zones", "#", d->metal.section.od,
         d->c.length, d->c.given, d->metal.section.od);
    STEP(&d->c, "wall there", "t", "#", d->metal.section.wall, d->c.length, d->c.given, d->metal.section.wall);
    STEP(&d->c, "compression strength there", "Fc", "#", d->metal.compression_yield, d->c.stress, "from above", d->metal.compression_yield);
    STEP(&d->c, "tension yield there", "Ft", "#", d->metal.yield, d->c.stress, "from above", d->metal.yield);
}

/* ---- strengths with the weld yield --------------------------------------------------------------------------- */

static const char *const welded_words[3] = {"wall ratio beside the weld", "wall reduction beside the weld",
                                            "compression strength beside the weld"};
static const char *const other_words[2][3] = {
    {"wall ratio of the sleeve", "wall reduction of the sleeve", "compression strength of the sleeve"},
    {"wall ratio of the stub", "wall reduction of the stub", "compression strength of the stub"},
};

static void welded_steps(detail_calculation *d)
{
    d->welded = d->metal;
    working_heading(d->c.w, "Tube beside the weld", "");
    STEP(&d->c, "yield beside the weld", "Fw, both fibres", "#", d->c.k.weld_yield, d->c.stress, "material", d->c.k.weld_yield);
    if (d->own_result->in_weld_zone) return; /* the zone has it already */
    wall_reduction_steps(&d->c, &d->welded, d->c.k.weld_yield, welded_words);
    d->welded.yield = d->c.k.weld_yield;
}

static void other_steps(detail_calculation *d, bool stub, double od, double wall)
{
    d->other = d->metal;
    working_heading(d->c.w, stub ? "Stub" : "Sleeve", "");
    length_step(d, stub ? "outside diameter of the stub" : "outside diameter of the sleeve", "D", od);
    length_step(d, stub ? "wall of the stub" : "wall of the sleeve", "t", wall);
    section_steps(&d->c, (rbow_tube_size){od, wall}, &d->other.section);
    wall_reduction_steps(&d->c, &d->other, d->c.k.weld_yield, other_words[stub]);
    d->other.yield = d->c.k.weld_yield;
}

/* ---- welds --------------------------------------------------------------------------------------------------- */

static void filler_steps(detail_calculation *d)
{
    const bool own = !is_unset(d->own_detail->weld_strength);
    STEP(&d->c, "tensile strength of the filler", own ? "F_EXX" : "F_EXX, none was given", "#", d->d.weld_strength, d->c.stress,
         own ? detail_table : "AWS ER70S-2 and its like; common practice, no source", d->d.weld_strength);
    d->rupture = 0.6 * d->d.weld_strength;
    STEP(&d->c, "strength of the weld metal in shear", "F_w = 0.6 F_EXX", "0.6 × #", d->rupture, d->c.stress, rupture_rule, d->d.weld_strength);
}

static double ring_od_of(const detail_calculation *d)
{
    const double od = d->metal.section.od;
    if (d->d.kind == RBOW_DETAIL_RING_WELD) return is_unset(d->own_detail->weld_od) ? od : d->d.weld_od;
    return d->d.kind == RBOW_DETAIL_SOCKET ? fmin(d->d.stub_od, od) : od;
}

static void ring_steps(detail_calculation *d)
{
    const bool own = !is_unset(d->own_detail->throat);
    d->ring_od = ring_od_of(d);
    working_heading(d->c.w, "Ring weld as a line", line_method);
    length_step(d, "diameter of the ring", d->d.kind == RBOW_DETAIL_SOCKET ? "d, OD of the inner tube" : "d", d->ring_od);
    STEP(&d->c, "throat", own ? "a" : "a = t, none was given; of a fillet with leg = wall it is 0.707 t", "#", d->d.throat, d->c.length,
         own ? detail_table : "default", d->d.throat);
    STEP(&d->c, "length of the line", "l = π d", "π × #", pi * d->ring_od, d->c.length, line_method, d->ring_od);
    STEP(&d->c, "modulus of the line in bending", "S_l = π d² / 4", "π × #² / 4", pi * d->ring_od * d->ring_od / 4, d->c.area,
         line_method, d->ring_od);
    STEP(&d->c, "modulus of the line in torsion", "J_l / (d/2) = π d² / 2", "π × #² / 2", pi * d->ring_od * d->ring_od / 2, d->c.area,
         line_method, d->ring_od);
    filler_steps(d);
}

static void rosette_steps(detail_calculation *d)
{
    working_heading(d->c.w, "Rosettes", "");
    STEP(&d->c, "rosettes on each side", "n", "#", d->d.rosettes, "", detail_table, (double)d->d.rosettes);
    length_step(d, "diameter of a rosette", "d_r", d->d.rosette);
    STEP(&d->c, "area of a rosette", "A_r = π d_r² / 4", "π × #² / 4", pi * d->d.rosette * d->d.rosette / 4, d->c.area, textbook, d->d.rosette);
    STEP(&d->c, "thinner wall", "t_m = min(t, wall of the sleeve)", "min(#, #)", fmin(d->metal.section.wall, d->d.sleeve_wall), d->c.length,
         detail_table, d->metal.section.wall, d->d.sleeve_wall);
    STEP(&d->c, "tensile ultimate", "Fu", "#", d->c.k.ultimate, d->c.stress, "material", d->c.k.ultimate);
    filler_steps(d);
}

/* ---- all kinds ------------------------------------------------------------------------------------------------- */

void detail_size_steps(detail_calculation *d)
{
    place_steps(d);
    if (is_unset(d->own_detail->throat)) d->d.throat = d->metal.section.wall;
    switch ((rbow_detail_kind)d->d.kind) {
        case RBOW_DETAIL_HOLE: hole_section_steps(d); break;
        case RBOW_DETAIL_SLEEVE:
            if (d->d.butt) welded_steps(d);
            else other_steps(d, false, d->d.sleeve_od, d->d.sleeve_wall);
            break;
        case RBOW_DETAIL_SOCKET:
            welded_steps(d);
            other_steps(d, true, d->d.stub_od, d->d.stub_wall);
            break;
        case RBOW_DETAIL_PLACE:
        case RBOW_DETAIL_RING_WELD:
        case RBOW_DETAIL_KIND_COUNT: break;
    }
    if (detail_has_ring(d)) ring_steps(d);
    if (detail_has_rosettes(d)) rosette_steps(d);
}

void detail_fit_steps(const detail_calculation *d)
{
    const rbow_detail *k = &d->d;
    const bool stub = k->kind == RBOW_DETAIL_SOCKET;
    const rbow_section *tube = &d->metal.section;
    if (!stub && k->kind != RBOW_DETAIL_SLEEVE) return;
    const double od = stub ? k->stub_od : k->sleeve_od, wall = stub ? k->stub_wall : k->sleeve_wall;
    const bool over = od > tube->od;
    const double outer = over ? od : tube->od, outer_wall = over ? wall : tube->wall, inner = over ? tube->od : od;
    const double clearance = shown_value(&d->c, DIM_LENGTH, d->own_result->clearance), longer = fmax(k->at, d->c.m.length - k->at);
    working_heading(d->c.w, "Fit", "");
    STEP(&d->c, "clearance on the diameter", "bore − OD of the inner tube, at least 0", "max(0, # − 2 × # − #)", clearance, d->c.length,
         "geometry", outer, outer_wall, inner);
    length_step(d, stub ? "overlap" : "overlap on each side", "o", k->overlap);
    STEP(&d->c, "play at the far end, unless the weld draws it tight", "clearance / o × longer way to a joint", "# / # × #",
         shown_value(&d->c, DIM_LENGTH, d->own_result->play), d->c.length, "geometry", clearance, k->overlap, longer);
    if (isnan(d->own_result->moment)) return;
    const double moment = shown_value(&d->c, DIM_MOMENT, d->own_result->moment);
    STEP(&d->c, "prying force at load factor 1", "M / (2/3 o)", "# / (2/3 × #)", shown_value(&d->c, DIM_FORCE, d->own_result->prying), d->c.force,
         "statics; contact over the overlap, common practice, no source", moment, k->overlap);
}
