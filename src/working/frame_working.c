#include "working/frame_working.h"

#include "working/column_steps.h"
#include "working/frame_steps.h"
#include "working/tube_steps.h"
#include "working/use_steps.h"

#include <math.h>
#include <stdlib.h>

/* ---- the tube as a member ------------------------------------------------------------------------------- */

/* What the steps of a load case take of it. Its loads are those of the frame. */
static rbow_member member_of(const frame_tube_answer *r, const rbow_frame_tube *t)
{
    rbow_member m = rbow_member_default();
    m.od = t->od;
    m.wall = t->wall;
    m.length = r->result.length;
    m.end_a = t->end_a;
    m.end_b = t->end_b;
    m.column_curve = t->column_curve;
    m.bow = t->bow;
    m.bow_clock = t->bow > 0 ? t->bow_clock : 0;
    m.bow_shape = t->bow_shape;
    m.bow_at = t->bow_at;
    m.miss_a = t->miss_a;
    m.miss_a_clock = t->miss_a > 0 ? t->miss_a_clock : 0;
    m.miss_b = t->miss_b;
    m.miss_b_clock = t->miss_b > 0 ? t->miss_b_clock : 0;
    m.gap = t->gap;
    m.weld_zone = t->weld_zone;
    m.dressed = t->dressed;
    m.factor = r->factor;
    m.factor_yield = r->factor_yield;
    return m;
}

/* ---- a state and the limits in it ----------------------------------------------------------------------- */

static void stress_step(const calculation *c, const rbow_stress *r)
{
    const bool pressed = r->utilisation_pressed >= r->utilisation_pulled;
    const double fibre = pressed ? r->pressed : r->pulled;
    STEP(c, "equivalent stress of the fibre with the larger utilisation", "√(max(σ, 0)² + 3 τ²)", "√(max(#, 0)² + 3 × #²)",
         sqrt(fmax(fibre, 0) * fmax(fibre, 0) + 3 * r->shear * r->shear), c->stress, "von Mises", fibre, r->shear);
}

/* The place where a limit is used most at a load factor, from the movements of the joints to the utilisation.
 * Returned: false without a state */
static bool traced(explained *e, double factor, int fit, int check, end_moments *ends, rbow_stress *r)
{
    rbow_limit use;
    if (rbow_frame_use(e->solver, e->run, factor, fit, e->place, check, &use) != RBOW_OK || !frame_state_steps(e, factor, fit)) return false;
    working_heading(e->c.w, "Moments along the tube", "");
    const double moment = moment_steps(&e->c, &use, ends);
    const rbow_actions a = {.axial = e->axial, .moment = moment, .torque = fabs(e->torque)};
    use_steps(&e->c, check, use.in_weld_zone, &a, r);
    return true;
}

/* The same where another check governs: moment and axial force there come from the solution. */
static bool told(const explained *e, double factor, int fit, int check)
{
    const calculation *c = &e->c;
    rbow_limit use;
    rbow_stress r;
    if (rbow_frame_use(e->solver, e->run, factor, fit, e->place, check, &use) != RBOW_OK) return false;
    const rbow_actions a = {.axial = shown_value(c, DIM_FORCE, use.axial),
                            .moment = shown_value(c, DIM_MOMENT, hypot(use.moment_up, use.moment_right)),
                            .torque = shown_value(c, DIM_MOMENT, fabs(use.torque))};
    static const char as_above[] = "as for the check that governs";
    STEP(c, "axial load, push positive", "P at this load factor", "by solution", a.axial, c->force, as_above, 0);
    STEP(c, "place", "x, from A", "by search", shown_value(c, DIM_LENGTH, use.at), c->length, "largest use along the tube", 0);
    STEP(c, "moment there", "M = √(M_up² + M_right²)", "by solution", a.moment, c->moment, as_above, 0);
    use_steps(c, check, use.in_weld_zone, &a, &r);
    return true;
}

/* ---- load factor 1 -------------------------------------------------------------------------------------- */

static bool is_loaded(const explained *e)
{
    return !isnan(e->result->axial);
}

static bool sum_steps(const explained *e)
{
    if (!is_loaded(e)) return true;
    if (rbow_frame_state(e->solver, e->run, 1, RBOW_FRAME_AS_BUILT, e->motions, e->axials) != RBOW_OK) return false;
    frame_sum_steps(e);
    return true;
}

static bool loaded_steps(explained *e)
{
    end_moments ends;
    rbow_stress r;
    if (!is_loaded(e)) {
        working_heading(e->c.w, "Load factor 1", "");
        STEP(&e->c, "end of the path of states", "the frame folds or buckles below load factor 1: there is no state", "by search",
             e->result->path_end, "", "search", 0);
        return true;
    }
    working_heading(e->c.w, "Load factor 1, as built", "");
    STEP(&e->c, "load factor", "λ", "1", 1, "", "the run as given", 0);
    if (!traced(e, 1, RBOW_FRAME_AS_BUILT, RBOW_BY_YIELD, &ends, &r)) return false;
    stress_step(&e->c, &r);
    frame_end_force_steps(e, &ends);
    return true;
}

/* ---- the three checks ----------------------------------------------------------------------------------- */

static bool frame_first(const explained *e, double factor)
{
    const double rounding = 3e-7; /* a limit so close to the end counts as that of the end; see rbow_frame_path_end */
    return factor >= e->path_end * (1 - rounding) || isinf(factor);
}

/* Returned: whether the limit is one of the tube itself. */
static bool factor_step(const explained *e, const char *heading, const char *step, const char *formula, double factor)
{
    working_heading(e->c.w, heading, "");
    if (isinf(factor)) formula = "no load factor brings it there";
    else if (frame_first(e, factor)) formula = "where the path of states ends: the frame buckles first";
    STEP(&e->c, step, formula, "by search", factor, "", "search along the path of states", 0);
    return !frame_first(e, factor);
}

static bool column_check(const explained *e)
{
    const double factor = e->result->column_factor;
    double *axials = e->axials;
    if (!factor_step(e, "The column's load factor", "column factor", "λ at which P = Pcol", factor)) return true;
    if (rbow_frame_state(e->solver, e->run, factor, e->result->fit_taken, NULL, axials) != RBOW_OK) return false;
    const double axial = shown_value(&e->c, DIM_FORCE, axials[e->place]);
    STEP(&e->c, "axial load, push positive", "P at this load factor", "by solution", axial, e->c.force, "balance of all joints", 0);
    STEP(&e->c, "use of the column load; 1 is the limit", "P / Pcol", "# / #", axial / e->c.column_load, "", "column load over push", axial,
         e->c.column_load);
    return true;
}

static bool stress_check(explained *e, int check, int name, double factor)
{
    static const char formula[] = "λ at which the utilisation below reaches 1";
    end_moments ends;
    rbow_stress r;
    const bool of_tube = check == RBOW_BY_YIELD
        ? factor_step(e, "The load factor of yield", "yield factor", formula, factor)
        : factor_step(e, "The load factor of push and bending together", "interaction factor", formula, factor);
    if (!of_tube) return true;
    if (e->result->governs == name) return traced(e, factor, e->result->fit_taken, check, &ends, &r);
    return told(e, factor, e->result->fit_taken, check);
}

/* ---- the margin ----------------------------------------------------------------------------------------- */

static void fit_steps(const explained *e)
{
    const rbow_frame_tube_result *r = e->result;
    const double built = r->margin_as_built, unforced = r->margin_unforced;
    STEP(&e->c, "margin as built", "with all misses and gaps of the frame", "by checking", built, "", "search", 0);
    STEP(&e->c, "margin without misses and gaps", "with nothing locked in", "by checking", unforced, "", "search", 0);
    if (isfinite(built) && isfinite(unforced)) {
        STEP(&e->c, "what governs", r->fit_taken == RBOW_FRAME_AS_BUILT ? "the lower: as built" : "the lower: without misses and gaps", "min(#, #)",
             fmin(built, unforced), "", "what is locked in can relax", built, unforced);
        STEP(&e->c, "what the forced fit costs", "their difference", "# − #", unforced - built, "", "difference", unforced, built);
    }
}

static void governing_steps(const explained *e)
{
    static const char *const words[] = {
        [RBOW_FRAME_BY_COLUMN] = "column: the tube as a whole bows out", [RBOW_FRAME_BY_YIELD] = "yield of the outer fibre",
        [RBOW_FRAME_BY_INTERACTION] = "interaction: push and bending together", [RBOW_FRAME_BY_NONE] = "none",
        [RBOW_FRAME_BY_FRAME] = "frame: it buckles before the tube reaches a limit of its own"};
    const double factors[] = {e->result->yield_factor, e->result->column_factor, e->result->interaction_factor};
    margin_steps(&e->c, factors, e->result->margin);
    STEP(&e->c, "load factor of the check that governs", words[e->result->governs], "#", e->deciding, "", "least of the three",
         e->deciding);
    if (frame_has_fit(e->answers->model)) fit_steps(e);
    STEP(&e->c, "end of the path of states", "load factor at which the frame as built buckles", "by search", e->result->path_end, "", "search", 0);
    if (e->result->fit_taken == RBOW_FRAME_UNFORCED)
        STEP(&e->c, "end of the path of states without misses and gaps", "load factor at which the frame buckles then", "by search", e->path_end, "", "search", 0);
    STEP(&e->c, "critical factor", "load factor at which the straight frame buckles", "by search", e->answers->runs[0].result.critical_factor, "",
         "determinant of the stiffness", 0);
}

/* ---- all of it ------------------------------------------------------------------------------------------ */

static bool put_steps(explained *e)
{
    if (!sum_steps(e)) return false;
    frame_direction_steps(e);
    tube_steps(&e->c);
    frame_column_steps(&e->c, e->tube->fixity);
    working_heading(e->c.w, "What acts on the tube, load factor 1", "");
    frame_load_steps(e, weight_step(&e->c));
    return loaded_steps(e) && column_check(e) && stress_check(e, RBOW_BY_INTERACTION, RBOW_FRAME_BY_INTERACTION, e->result->interaction_factor)
        && stress_check(e, RBOW_BY_YIELD, RBOW_FRAME_BY_YIELD, e->result->yield_factor);
}

bool frame_working_of(working *w, const frame_answers *a, rbow_frame_solver *solver, unit_system units)
{
    const frame_tube_answer *r = a->tubes;
    const rbow_member m = member_of(r, &a->model->frame.tubes[a->places[0]]);
    frame_tube_answer alone = *r; /* without its details */
    alone.result = r->alone;
    alone.detail.governs = false;
    rbow_result result;
    if (rbow_member_check(&m, r->given.tube.material, &result) != RBOW_OK) return false;
    explained e = {.c = calculation_of(w, &m, r->given.tube.material, &result, units), .answers = a, .solver = solver, .run = &a->model->runs[0].run,
                   .tube = &a->model->frame.tubes[a->places[0]], .result = &r->alone, .deciding = frame_deciding_factor(&alone), .place = a->places[0],
                   .motions = malloc(a->model->joint_count * sizeof *e.motions), .axials = malloc(a->model->tube_count * sizeof *e.axials)};
    e.c.across = &e.across;
    e.c.given = "tables of the frame";
    rbow_frame_directions(&a->model->frame, e.place, e.along, e.up, e.right);
    const bool fine = e.motions != NULL && e.axials != NULL && rbow_frame_path_end(solver, e.run, r->result.fit_taken, &e.path_end) == RBOW_OK
        && put_steps(&e);
    if (fine) governing_steps(&e);
    free(e.motions);
    free(e.axials);
    return fine;
}
