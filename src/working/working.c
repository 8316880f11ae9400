#include "working/working.h"

#include "working/calculation.h"
#include "working/column_steps.h"
#include "working/moment_steps.h"
#include "working/tube_steps.h"
#include "working/use_steps.h"

/* ---- the three checks ----------------------------------------------------------------------------------- */

typedef struct limit_words {
    const char *heading, *factor;
} limit_words;

static const limit_words words[] = {
    [RBOW_BY_COLUMN] = {"The column's load factor", "column factor"},
    [RBOW_BY_YIELD] = {"The load factor of yield", "yield factor"},
    [RBOW_BY_INTERACTION] = {"The load factor of push and bending together", "interaction factor"},
};

static void column_check(const calculation *c, const rbow_limit *l)
{
    const double tension = shown_value(c, DIM_FORCE, l->tension), push = c->m.compression;
    working_heading(c->w, words[RBOW_BY_COLUMN].heading, "");
    if (push > 0 && l->factor > 0)
        STEP(c, words[RBOW_BY_COLUMN].factor, "n_c = (Pcol + T) / C; locked-in tension is not counted as help", "(# + #) / #", l->factor, "",
             "column load over push", c->column_load, tension, push);
    else
        STEP(c, words[RBOW_BY_COLUMN].factor, l->factor > 0 ? "no push: no limit" : "the squeeze alone reaches it", "#",
             l->factor, "", "column load over push", l->factor);
}

static double axial_step(const calculation *c, const rbow_limit *l)
{
    const double tension = shown_value(c, DIM_FORCE, l->tension), axial = shown_value(c, DIM_FORCE, l->axial);
    STEP(c, "axial load, push positive", "P = λ C − T", "# × # − #", axial, c->force, "statics", l->factor, c->m.compression, tension);
    return axial;
}

/* The steps of a load factor that no station determines. */
static void without_station(const calculation *c, int check, const rbow_limit *l)
{
    const double tension = shown_value(c, DIM_FORCE, l->tension), push = c->m.compression;
    const double load = check == RBOW_BY_YIELD ? c->critical_load : c->column_load;
    if (isinf(l->factor))
        STEP(c, words[check].factor, "no load factor brings it there", "#", l->factor, "", "search", l->factor);
    else if (push > 0 && l->factor > 0)
        STEP(c, words[check].factor, check == RBOW_BY_YIELD ? "(Pcr + T) / C: it buckles before a fibre yields" : "(Pcol + T) / C",
             "(# + #) / #", l->factor, "", "critical load over push", load, tension, push);
    else
        STEP(c, words[check].factor, "the locked-in state alone is at the limit", "#", l->factor, "", "search", l->factor);
}

static void stress_check(const calculation *c, int check, const rbow_limit *l, bool governs)
{
    working_heading(c->w, words[check].heading, "");
    const bool buckles_first = l->factor > 0 && l->level < 1 - 1e-6;
    if (isnan(l->at) || buckles_first) {
        without_station(c, check, l);
        return;
    }
    STEP(c, words[check].factor, l->factor > 0 ? "λ at which the utilisation below reaches 1"
                                              : "0: what is locked in alone is at the limit or past it", "by search", l->factor, "", "root of the utilisation", 0);
    rbow_actions a = {.axial = axial_step(c, l), .moment = shown_value(c, DIM_MOMENT, hypot(l->moment_up, l->moment_right)),
                      .torque = shown_value(c, DIM_MOMENT, fabs(l->torque))};
    if (governs) {
        a.moment = moment_steps(c, l, NULL);
    } else {
        STEP(c, "place", "x, from A", "by search", shown_value(c, DIM_LENGTH, l->at), c->length, "largest use along the tube", 0);
        STEP(c, "moment there", "from the beam-column's equation; another check governs", "by solution", a.moment, c->moment, "as for the check that governs", 0);
    }
    rbow_stress r;
    use_steps(c, check, l->in_weld_zone, &a, &r);
}

static void margin(const calculation *c, const rbow_result *r)
{
    const double factors[] = {r->yield_factor, r->column_factor, r->interaction_factor};
    margin_steps(c, factors, r->margin);
    if (!r->forced) return;
    STEP(c, "margin as built", "the worst joints and directions with all that is locked in", "by checking each", r->margin_as_built, "", "search", 0);
    STEP(c, "margin without misses and gap", "the worst joints and directions with nothing locked in", "by checking each",
         r->margin_unforced, "", "search", 0);
    if (isfinite(r->margin_unforced) && isfinite(r->margin_as_built))
        STEP(c, "what the forced fit costs", "their difference", "# − #", r->margin_unforced - r->margin_as_built, "", "difference",
             r->margin_unforced, r->margin_as_built);
}

bool working_of(working *w, const rbow_member *member, const rbow_material *material, const rbow_result *result,
                unit_system units)
{
    calculation c = calculation_of(w, member, material, result, units);
    rbow_limit limits[3];
    for (int check = RBOW_BY_COLUMN; check <= RBOW_BY_INTERACTION; check++)
        if (rbow_member_limit(member, material, check, &limits[check]) != RBOW_OK) return false;
    tube_steps(&c);
    column_steps(&c);
    joint_steps(&c);
    locked_in_steps(&c);
    own_weight_steps(&c);
    working_heading(c.w, "Run load", "");
    STEP(&c, "push as given", "C, pull negative", "#", c.m.compression, c.force, "load case", c.m.compression);
    column_check(&c, &limits[RBOW_BY_COLUMN]);
    stress_check(&c, RBOW_BY_INTERACTION, &limits[RBOW_BY_INTERACTION], result->governs == RBOW_BY_INTERACTION);
    stress_check(&c, RBOW_BY_YIELD, &limits[RBOW_BY_YIELD], result->governs == RBOW_BY_YIELD);
    margin(&c, result);
    return true;
}
