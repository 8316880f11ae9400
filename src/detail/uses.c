#include "detail/model.h"
#include "detail/net_section.h"
#include "mechanics/no_result.h"
#include "mechanics/stress_body.h"

#include <gsl/gsl_math.h>

static double size_of_moment(const rbow_section_forces *f)
{
    return hypot(f->moment_up, f->moment_right);
}

/* ---- yield ------------------------------------------------------------------------------------------------ */

static double tube_use(const rbow_strength *s, const rbow_section_forces *f)
{
    const fibre_factors k = fibre_factors_of(s, 1);
    const double torque = fabs(f->torque);
    const fibres at = fibres_of(&k, size_of_moment(f), f->axial, torque, torque > 0);
    return larger(at.utilisation_pressed, at.utilisation_pulled);
}

static double hole_use(const detail_model *m, const rbow_section_forces *f)
{
    const net_stress s = rbow_net_stress(&m->net, f, m->detail.hole_clock);
    const double shear = sqrt(3.0) * fabs(f->torque) * rbow_net_shear_per_torque(&m->net);
    return larger(hypot(larger(0, -s.least), shear) / m->metal.compression_yield, hypot(larger(0, s.most), shear) / m->metal.yield);
}

static double weaker_use(const detail_model *m, const rbow_section_forces *f)
{
    return larger(tube_use(&m->welded, f), tube_use(&m->other, f));
}

static double yield_use(const detail_model *m, const rbow_section_forces *f)
{
    switch ((rbow_detail_kind)m->detail.kind) {
        case RBOW_DETAIL_HOLE: return hole_use(m, f);
        case RBOW_DETAIL_SLEEVE: return tube_use(m->detail.butt ? &m->welded : &m->other, f);
        case RBOW_DETAIL_SOCKET: return weaker_use(m, f);
        case RBOW_DETAIL_RING_WELD: return -1;
        case RBOW_DETAIL_PLACE:
        case RBOW_DETAIL_KIND_COUNT: break;
    }
    return tube_use(&m->metal, f);
}

/* ---- welds ------------------------------------------------------------------------------------------------- */

bool rbow_detail_has_ring(const detail_model *m)
{
    const rbow_detail *d = &m->detail;
    return d->kind == RBOW_DETAIL_RING_WELD || d->kind == RBOW_DETAIL_SOCKET
        || (d->kind == RBOW_DETAIL_SLEEVE && d->butt && m->throat < m->metal.section.wall);
}

double rbow_ring_direct(const detail_model *m, double axial, double moment)
{
    const double d = m->ring_od;
    return (axial / (M_PI * d) + moment / (M_PI * d * d / 4)) / m->throat;
}

/* The shear of a thin ring is largest at its neutral axis: 2V/(pi d). */
double rbow_ring_shear(const detail_model *m, double torque, double shear)
{
    const double d = m->ring_od;
    return (fabs(torque) / (M_PI * d * d / 2) + 2 * shear / (M_PI * d)) / m->throat;
}

static double ring_use(const detail_model *m, const rbow_section_forces *f)
{
    return hypot(rbow_ring_direct(m, fabs(f->axial), size_of_moment(f)), rbow_ring_shear(m, f->torque, hypot(f->shear_up, f->shear_right)))
        / m->rupture;
}

double rbow_rosette_force(const detail_model *m, double axial, double torque)
{
    const double n = m->detail.rosettes, arm = m->detail.sleeve_od / 2;
    return hypot(axial / n, torque / (n * arm));
}

double rbow_rosette_area(const detail_model *m)
{
    return M_PI * m->detail.rosette * m->detail.rosette / 4;
}

bool rbow_detail_has_rosettes(const detail_model *m)
{
    return m->detail.kind == RBOW_DETAIL_SLEEVE && !m->detail.butt;
}

detail_uses rbow_detail_uses_of(const detail_model *m, const rbow_section_forces *f)
{
    detail_uses u = {{-1, -1, -1, -1}};
    u.of[RBOW_DETAIL_BY_YIELD] = yield_use(m, f);
    if (rbow_detail_has_ring(m)) u.of[RBOW_DETAIL_BY_WELD] = ring_use(m, f);
    if (rbow_detail_has_rosettes(m)) {
        const double force = rbow_rosette_force(m, f->axial, f->torque);
        const double wall = fmin(m->metal.section.wall, m->detail.sleeve_wall);
        u.of[RBOW_DETAIL_BY_ROSETTES] = force / (m->rupture * rbow_rosette_area(m));
        u.of[RBOW_DETAIL_BY_BEARING] = force / (2.4 * m->detail.rosette * wall * m->ultimate);
    }
    return u;
}

/* ---- slopes ------------------------------------------------------------------------------------------------ */

static double share_of(const rbow_strength *s)
{
    return 1 / fmin(s->compression_yield, s->yield);
}

static double tube_slope(const rbow_strength *s)
{
    return share_of(s) / s->section.section_modulus;
}

detail_slopes rbow_detail_slopes_of(const detail_model *m)
{
    detail_slopes s = {fmax(tube_slope(&m->metal), fmax(tube_slope(&m->welded), tube_slope(&m->other))), 0};
    if (m->detail.kind == RBOW_DETAIL_HOLE) s.moment = fmax(s.moment, rbow_net_stress_per_moment(&m->net) * share_of(&m->metal));
    if (rbow_detail_has_ring(m)) {
        s.moment = fmax(s.moment, rbow_ring_direct(m, 0, 1) / m->rupture);
        s.shear = rbow_ring_shear(m, 0, 1) / m->rupture;
    }
    return s;
}

/* ---- for others -------------------------------------------------------------------------------------------- */

rbow_status rbow_detail_use(const rbow_detail *detail, const rbow_member *member, const rbow_material *material,
                            const rbow_section_forces *forces, double use[RBOW_DETAIL_MODES])
{
    prepared p;
    detail_model m;
    rbow_status status;
    for (int i = 0; i < RBOW_DETAIL_MODES; i++) use[i] = NAN;
    if (rbow_faults_of(member, material, &status, 1) > 0) return status;
    status = rbow_detail_prepare(member, material, &p);
    if (status != RBOW_OK) return status;
    if (rbow_detail_faults_of(detail, &p, material, &status, 1) > 0) return status;
    status = rbow_detail_model_of(detail, &p, material, &m);
    if (status != RBOW_OK) return status;
    const detail_uses u = rbow_detail_uses_of(&m, forces);
    for (int i = 0; i < RBOW_DETAIL_MODES; i++)
        if (isnan(u.of[i]) || isinf(u.of[i])) return RBOW_STRESS_OVERFLOW;
    for (int i = 0; i < RBOW_DETAIL_MODES; i++)
        if (u.of[i] >= 0) use[i] = u.of[i];
    return RBOW_OK;
}
