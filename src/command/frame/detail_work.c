#include "command/frame/detail_work.h"

#include <math.h>

static void set_worked(detail_work *k, const detail_answer *d, const rbow_material *material)
{
    k->worked = (detail_worked){d->of, d->run, d->name, d->note, &d->detail, &k->given, material, &d->result};
}

/* ---- load cases --------------------------------------------------------------------------------------------- */

bool detail_work_of(detail_work *k, const detail_answer *d, const rbow_member *member, const rbow_material *material, unit_system units)
{
    *k = (detail_work){.given = *member, .member = detail_member_taken(member, material, &d->result)};
    set_worked(k, d, material);
    for (int i = 0; i < DETAIL_STATES; i++) {
        const double factor = detail_state_factor(&d->result, i);
        k->states[i].status = isfinite(factor) ? rbow_member_forces(&k->member, material, factor, d->detail.at, &k->states[i].forces) : RBOW_OUT_OF_RANGE;
    }
    return detail_working_of(&k->working, &d->detail, &k->member, material, &d->result, units) && !working_failed(&k->working);
}

/* ---- frames ------------------------------------------------------------------------------------------------- */

/* The tube as far as a detail asks for it. */
static rbow_member member_of(const frame_model *m, const detail_answer *d, size_t tube)
{
    const rbow_frame_tube *t = &m->frame.tubes[tube];
    rbow_member member = rbow_member_default();
    member.od = t->od;
    member.wall = t->wall;
    member.length = d->length;
    member.weld_zone = t->weld_zone;
    member.dressed = t->dressed;
    member.factor = d->factor;
    member.factor_yield = d->factor_yield;
    return member;
}

bool detail_work_in_frame(detail_work *k, const detail_answer *d, rbow_frame_solver *solver, const frame_model *m, size_t run, size_t tube,
                          unit_system units)
{
    const rbow_frame_run *of = &m->runs[run].run;
    const rbow_material *material = m->frame.tubes[tube].material;
    const int fit = d->result.fit_taken == RBOW_FIT_AS_BUILT ? RBOW_FRAME_AS_BUILT : RBOW_FRAME_UNFORCED;
    rbow_detail_result again; /* leaves the solver with the side of the bows that governs */
    *k = (detail_work){.given = member_of(m, d, tube)};
    k->member = k->given;
    set_worked(k, d, material);
    if (rbow_frame_detail_check(solver, of, tube, &d->detail, &again) != RBOW_OK) return false;
    for (int i = 0; i < DETAIL_STATES; i++) {
        const double factor = detail_state_factor(&d->result, i);
        k->states[i].status = isfinite(factor) ? rbow_frame_forces(solver, of, factor, fit, tube, d->detail.at, &k->states[i].forces) : RBOW_OUT_OF_RANGE;
    }
    return frame_detail_working_of(&k->working, &d->detail, &k->given, material, &d->result, k->states, units) && !working_failed(&k->working);
}

void detail_work_free(detail_work *k)
{
    working_free(&k->working);
}
