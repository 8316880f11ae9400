#include "detail/damage.h"
#include "detail/frame_forces.h"
#include "frame/bows.h"
#include "frame/margin.h"
#include "mechanics/no_result.h"

/* A tube of a frame under the runs of one run of the car. */
typedef struct frame_part {
    rbow_frame_solver *solver;
    const rbow_frame_life_row *rows;
    size_t count, tube;
    const detail_model *model;
    const rbow_sn_curve *curve;
} frame_part;

/* Returned: false without a state */
static bool forces_in(const frame_part *t, const rbow_frame_run *run, double factor, place_side side, rbow_section_forces *f)
{
    return rbow_frame_set_run(t->solver, run) == RBOW_OK
        && rbow_frame_forces_signed(t->solver, factor, t->tube, t->model->detail.at, side, f) == RBOW_OK;
}

static rbow_life_cycle cycle_beside(const frame_part *t, size_t row, place_side side)
{
    const rbow_frame_life_row *r = &t->rows[row];
    rbow_section_forces low, high;
    if (!forces_in(t, r->run, r->low, side, &low) || !forces_in(t, r->run, r->high, side, &high)) return no_cycle(RBOW_LIFE_NO_STATE);
    return rbow_cycle_between(t->model, t->curve, &low, &high, true);
}

/* Of the side on which a row does more damage. */
static rbow_life_cycle cycle_of_row(const frame_part *t, size_t row)
{
    const rbow_life_cycle b = cycle_beside(t, row, SIDE_OF_B);
    if (!rbow_shear_jumps_at(&t->solver->tubes[t->tube].member, t->model->detail.at)) return b;
    const rbow_life_cycle a = cycle_beside(t, row, SIDE_OF_A);
    return rbow_worse_cycle(&a, &b);
}

/* Of all rows, fit and bows as they are set. Returned: r  of the row that does most damage; may be NULL */
static damage damage_of_rows(const frame_part *t, rbow_life_result *r)
{
    damage sum = {0, 0, 0}, most = {-1, -1, 0};
    for (size_t row = 0; row < t->count; row++) {
        const rbow_life_cycle c = cycle_of_row(t, row);
        const damage one = {damage_of(t->rows[row].cycles, &c), c.equivalent, 0};
        add_damage(&sum, t->rows[row].cycles, &c);
        if (r == NULL || !is_worse(&one, &most)) continue;
        most = one;
        tell_cycle(row, &c, r);
    }
    return sum;
}

/* Bows of unknown clock point to the side to which they move in the first row, all of them, or to the opposite side. */
static rbow_status life_of(const frame_part *t, rbow_life_result *r)
{
    rbow_frame_solver *s = t->solver;
    const int sides = rbow_frame_has_open_bow(s) ? 2 : 1;
    damage built = {-1, -1, 0}, unforced = built;
    const rbow_status status = rbow_frame_set_run(s, t->rows[0].run);
    if (status != RBOW_OK) return status;
    s->fit = s->bows = 1;
    if (sides == 2) rbow_frame_find_sides(s);
    for (int side = 0; side < sides; side++) {
        rbow_life_result here = *r;
        rbow_frame_turn_bows(s, side == 0 ? 1 : -1);
        s->fit = 0;
        const damage without = damage_of_rows(t, NULL);
        s->fit = 1;
        const damage with = damage_of_rows(t, &here);
        if (is_worse(&without, &unforced)) unforced = without;
        if (!is_worse(&with, &built)) continue;
        built = with;
        *r = here;
    }
    tell_runs(&built, &unforced, r);
    return RBOW_OK;
}

rbow_status rbow_frame_life_of(rbow_frame_solver *s, const rbow_frame_life_row *rows, size_t count, size_t tube, const rbow_detail *detail,
                               const rbow_sn_curve *curve, rbow_life_result *result)
{
    detail_model m;
    rbow_status status;
    NO_RESULT_BEFORE(rbow_life_result, result, remarks);
    rbow_life_result r = *result;
    if (count < 1) return RBOW_OUT_OF_RANGE;
    if (rbow_frame_detail_faults(&s->frame, tube, detail, &status, 1) > 0) return status;
    for (size_t row = 0; row < count; row++) {
        status = swing_fault(rows[row].cycles, rows[row].low, rows[row].high);
        if (status == RBOW_OK && rbow_frame_run_faults(&s->frame, rows[row].run, NULL, 0) > 0) status = RBOW_OUT_OF_RANGE;
        result->row = (int)row;
        if (status != RBOW_OK) return status;
    }
    result->row = 0;
    status = rbow_detail_model_of(detail, &s->tubes[tube].member, s->frame.tubes[tube].material, &m);
    if (status == RBOW_OK) status = rbow_sn_fault(curve, &m);
    const frame_part t = {.solver = s, .rows = rows, .count = count, .tube = tube, .model = &m, .curve = curve};
    if (status == RBOW_OK) status = life_of(&t, &r);
    if (status == RBOW_OK) *result = r;
    return status;
}
