#include "detail/model.h"
#include "mechanics/no_result.h"

RESULT_OF_DOUBLES(rbow_section_forces);

rbow_status rbow_forces_at(const prepared *p, double factor, double at, rbow_section_forces *f)
{
    return rbow_forces_beside(p, factor, at, SIDE_OF_MORE, f);
}

rbow_status rbow_forces_beside(const prepared *p, double factor, double at, place_side side, rbow_section_forces *f)
{
    solution solved;
    const double axial = axial_at(p, factor);
    NO_RESULT(f);
    if (!(axial < p->critical_load)) return RBOW_UNSTABLE;
    rbow_equilibrium_at(p, factor, &solved);
    *f = rbow_forces_of(p, &solved, axial, factor * p->member.torque, at, side);
    if (isfinite(f->axial + f->torque + f->moment_up + f->moment_right + f->shear_up + f->shear_right)) return RBOW_OK;
    NO_RESULT(f);
    return RBOW_STRESS_OVERFLOW;
}

static bool is_concrete(const rbow_member *m)
{
    return !end_is(m->end_a, RBOW_WELDED) && !end_is(m->end_b, RBOW_WELDED) && !(m->bow > 0 && end_is(m->bow_clock, RBOW_ANY_CLOCK))
        && !(m->miss_a > 0 && end_is(m->miss_a_clock, RBOW_ANY_CLOCK)) && !(m->miss_b > 0 && end_is(m->miss_b_clock, RBOW_ANY_CLOCK))
        && !(m->eccentricity > 0 && end_is(m->eccentricity_clock, RBOW_ANY_CLOCK));
}

rbow_status rbow_member_forces(const rbow_member *member, const rbow_material *material, double factor, double at,
                               rbow_section_forces *forces)
{
    prepared p;
    rbow_status status;
    NO_RESULT(forces);
    if (rbow_faults_of(member, material, &status, 1) > 0) return status;
    if (!is_concrete(member) || !isfinite(factor) || !(at >= 0 && at <= member->length)) return RBOW_OUT_OF_RANGE;
    rbow_member known = *member;
    double *const clocks[] = {&known.bow_clock, &known.miss_a_clock, &known.miss_b_clock, &known.eccentricity_clock};
    for (int i = 0; i < 4; i++)
        if (end_is(*clocks[i], RBOW_ANY_CLOCK)) *clocks[i] = 0; /* of nothing */
    status = rbow_prepare(&known, material, &p);
    return status == RBOW_OK ? rbow_forces_at(&p, factor, at, forces) : status;
}
