#include "working/moment_steps.h"

#include "working/end_moment_steps.h"
#include "working/load_steps.h"

static const char beam[] = "Timoshenko & Gere 1961, ch. 1";
static const char statics[] = "statics";

/* ---- the moment at the station -------------------------------------------------------------------------- */

static double at_by_ends(const loaded_tube *b, const plane *l)
{
    static const formula_words words[] = {
        [PUSHED] = {"(M_A sin(u (1 − x/L)) + M_B sin(u x/L)) / sin u",
                    "(# × sin(# × (1 − # / #)) + # × sin(# × # / #)) / sin(#)"},
        [PULLED] = {"(M_A sinh(u (1 − x/L)) + M_B sinh(u x/L)) / sinh u",
                    "(# × sinh(# × (1 − # / #)) + # × sinh(# × # / #)) / sinh(#)"},
        [NEITHER] = {"M_A (1 − x/L) + M_B x/L", "# × (1 − # / #) + # × # / #"},
    };
    const double u = b->u, x = b->station, length = b->length, share = x / length;
    if (!acts(l->end_a) && !acts(l->end_b)) return 0;
    if (b->way == NEITHER) {
        const double moment = l->end_a * (1 - share) + l->end_b * share;
        STEP(b->c, "moment there of the joints", words[NEITHER].formula, words[NEITHER].numbers, moment, b->c->moment, beam,
             l->end_a, x, length, l->end_b, x, length);
        return moment;
    }
    const double moment = (l->end_a * wave(b, u * (1 - share)) + l->end_b * wave(b, u * share)) / wave(b, u);
    STEP(b->c, "moment there of the joints", words[b->way].formula, words[b->way].numbers, moment, b->c->moment, beam, l->end_a,
         u, x, length, l->end_b, u, x, length, u);
    return moment;
}

static double at_by_spread(const loaded_tube *b, const plane *l)
{
    static const formula_words words[] = {
        [PUSHED] = {"q L²/u² (cos(u (1/2 − x/L)) / cos(u/2) − 1)", "# × #² / #² × (cos(# × (1/2 − # / #)) / cos(# / 2) − 1)"},
        [PULLED] = {"q L²/u² (1 − cosh(u (1/2 − x/L)) / cosh(u/2))", "# × #² / #² × (1 − cosh(# × (1/2 − # / #)) / cosh(# / 2))"},
        [NEITHER] = {"q x (L − x) / 2", "# × # × (# − #) / 2"},
    };
    const double u = b->u, x = b->station, length = b->length, q = l->spread, from_middle = u * (0.5 - x / length);
    if (!acts(q)) return 0;
    if (b->way == NEITHER) {
        const double moment = q * x * (length - x) / 2;
        STEP(b->c, "moment there of the spread load", words[NEITHER].formula, words[NEITHER].numbers, moment, b->c->moment, beam,
             q, x, length, x);
        return moment;
    }
    const double shape = b->way == PUSHED ? cos(from_middle) / cos(u / 2) - 1 : 1 - cosh(from_middle) / cosh(u / 2);
    const double moment = q * length * length / (u * u) * shape;
    STEP(b->c, "moment there of the spread load", words[b->way].formula, words[b->way].numbers, moment, b->c->moment, beam, q,
         length, u, u, x, length, u);
    return moment;
}

static double at_by_point(const loaded_tube *b, const char *step, double load, double at)
{
    static const formula_words words[] = {
        [PUSHED] = {"F L/u sin(u p/L) sin(u w/L) / sin u; p: load to the end beyond it, w: place to the other end",
                    "# × # / # × sin(# × # / #) × sin(# × # / #) / sin(#)"},
        [PULLED] = {"F L/u sinh(u p/L) sinh(u w/L) / sinh u; p: load to the end beyond it, w: place to the other end",
                    "# × # / # × sinh(# × # / #) × sinh(# × # / #) / sinh(#)"},
        [NEITHER] = {"F p w / L; p: load to the end beyond it, w: place to the other end", "# × # × # / #"},
    };
    const double length = b->length, u = b->u;
    const double p = b->station <= at ? length - at : at, w = b->station <= at ? b->station : length - b->station;
    if (!acts(load)) return 0;
    if (b->way == NEITHER) {
        STEP(b->c, step, words[NEITHER].formula, words[NEITHER].numbers, load * p * w / length, b->c->moment, beam, load, p, w,
             length);
        return load * p * w / length;
    }
    const double moment = load * length / u * wave(b, u * p / length) * wave(b, u * w / length) / wave(b, u);
    STEP(b->c, step, words[b->way].formula, words[b->way].numbers, moment, b->c->moment, beam, load, length, u, u, p, length, u,
         w, length, u);
    return moment;
}

static double at_by_bow(const loaded_tube *b, const plane *l)
{
    if (!acts(l->bow)) return 0;
    const double x = b->station, moment = b->axial * l->bow * sin(pi * x / b->length) / (1 - b->axial / b->elastic);
    STEP(b->c, "moment there of the bow", "P e sin(π x/L) / (1 − P/Pe)", "# × # × sin(π × # / #) / (1 − # / #)", moment,
         b->c->moment, beam, b->axial, l->bow, x, b->length, b->axial, b->elastic);
    return moment;
}

static double restrained_plane(const loaded_tube *b, plane *l)
{
    end_moment_steps(b, l);
    double parts[5];
    parts[0] = at_by_ends(b, l);
    parts[1] = at_by_spread(b, l);
    parts[2] = at_by_point(b, "moment there of the point load", l->point, b->c->m.point_at);
    parts[3] = at_by_point(b, "moment there of the kink", l->kink, b->c->m.bow_at);
    parts[4] = at_by_bow(b, l);
    const double moment = parts[0] + parts[1] + parts[2] + parts[3] + parts[4];
    STEP(b->c, OF_PLANE(l, "moment there, up", "moment there, right"), "M = sum of these", "# + # + # + # + #", moment,
         b->c->moment, beam, parts[0], parts[1], parts[2], parts[3], parts[4]);
    return moment;
}

/* ---- a free end --------------------------------------------------------------------------------------- */

/* By equilibrium of the part beyond the station; the movement of the free end comes from the solution. */
static double free_plane(const loaded_tube *b, plane *l, bool up)
{
    const rbow_limit *at = b->at;
    rbow_profile ends[] = {{.at = at->at}, {.at = b->c->own_member->length}};
    rbow_member_profile(b->c->own_member, b->c->own_material, at->factor, at->tension, ends, 2);
    const double moved = up ? ends[1].deflection_up - ends[0].deflection_up
                            : ends[1].deflection_right - ends[0].deflection_right;
    const rbow_member *m = &b->c->m;
    rbow_bow bow = rbow_member_bow(m);
    rbow_bow_place here;
    bow.amplitude = component_of(l, m->bow, m->bow_clock);
    rbow_bow_at(&bow, fmin(b->station, b->length), &here);
    const double ahead = shown_value(b->c, DIM_LENGTH, moved) - here.offset, x = b->station;
    const double plain = l->spread - l->bow_load.spread;
    const double beyond = fmax(0, m->point_at - x), rest = b->length - x;
    const double moment = l->moment_b - l->point * beyond - plain * rest * rest / 2 - b->axial * ahead;
    STEP(b->c, "how much farther B has moved than this place, bow included", "Δ", "from the solution of the equation", ahead,
         b->c->length, beam, 0);
    STEP(b->c, up ? "moment there, up" : "moment there, right", "M = M_B − F (a − x) − q (L − x)²/2 − P Δ",
         "# − # × # − # × #² / 2 − # × #", moment, b->c->moment, statics, l->moment_b, l->point, beyond, plain, rest, b->axial,
         ahead);
    return moment;
}

/* ---- both planes ---------------------------------------------------------------------------------------- */

static double plane_moment(const loaded_tube *b, bool up, double ends[2])
{
    plane l = {.component = up ? 0 : 1};
    double moment = 0;
    working_heading(b->c->w, up ? "Moment at that place: upward" : "Moment at that place: to the right", "");
    if (load_steps(b, &l))
        moment = b->c->free_b ? free_plane(b, &l, up) : restrained_plane(b, &l);
    else
        STEP(b->c, up ? "moment there, up" : "moment there, right", "nothing acts in this plane", "0", 0, b->c->moment, b->c->given, 0);
    ends[0] = l.end_a;
    ends[1] = l.end_b;
    return moment;
}

double moment_steps(const calculation *c, const rbow_limit *at, end_moments *ends)
{
    end_moments unwanted;
    if (ends == NULL) ends = &unwanted;
    loaded_tube b = {.c = c, .at = at, .factor = at->factor, .axial = shown_value(c, DIM_FORCE, at->axial),
                     .station = shown_value(c, DIM_LENGTH, at->at), .length = c->m.length, .stiffness = c->bending_stiffness};
    b.u = b.length * sqrt(fabs(b.axial) / b.stiffness);
    b.way = b.u * b.u < 1e-6 ? NEITHER : b.axial > 0 ? PUSHED : PULLED;
    b.elastic = pi * pi * b.stiffness / (b.length * b.length);
    STEP(c, "place", "x, from A", c->place_given ? "#" : "by search", b.station, c->length,
         c->place_given ? "table of details" : "largest use along the tube", b.station);
    if (b.way != NEITHER)
        STEP(c, "angle of the push", "u = L √(|P|/EI)", "# × √(# / #)", b.u, "", beam, b.length, fabs(b.axial), b.stiffness);
    STEP(c, "critical load between pins", "Pe = π² EI / L²", "π² × # / #²", b.elastic, c->force, "Euler", b.stiffness, b.length);
    if (!c->free_b && (c->stiffness_a > 0 || c->stiffness_b > 0)) flexibility_steps(&b);
    const double up = plane_moment(&b, true, ends->up), right = plane_moment(&b, false, ends->right), moment = hypot(up, right);
    working_heading(c->w, "Stress at that place", "");
    STEP(c, "moment", "M = √(M_up² + M_right²)", "√(#² + #²)", moment, c->moment, statics, up, right);
    return moment;
}
