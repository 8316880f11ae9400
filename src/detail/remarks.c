#include "detail/model.h"
#include "mechanics/restraint.h"

#include <gsl/gsl_math.h>
#include <stddef.h>

static const double sixteenth = 1.0 / 16;

static bool is_slip_fit(const detail_model *m)
{
    return m->detail.kind == RBOW_DETAIL_SLEEVE || m->detail.kind == RBOW_DETAIL_SOCKET;
}

/* The bore of the outer tube less the OD of the inner one. */
double rbow_detail_clearance(const detail_model *m)
{
    const rbow_section *tube = &m->metal.section, *other = &m->other.section;
    if (!is_slip_fit(m)) return NAN;
    return fmax(0, other->od > tube->od ? other->bore - tube->od : tube->bore - other->od);
}

double rbow_detail_play(const detail_model *m)
{
    return rbow_detail_clearance(m) / m->detail.overlap * fmax(m->detail.at, m->length - m->detail.at);
}

double rbow_detail_prying(const detail_model *m, double moment)
{
    return is_slip_fit(m) ? moment / (2.0 / 3 * m->detail.overlap) : (double)NAN;
}

/* The rosettes stand in one row round the tube. */
static bool rosettes_are_off(const detail_model *m)
{
    const rbow_detail *d = &m->detail;
    const double wall = m->metal.section.wall;
    const double least = wall + 5 * sixteenth, most = fmax(wall + 7 * sixteenth, 2.25 * wall);
    return is_slip_fit(m) && d->rosettes > 0
        && (d->rosette < least || d->rosette > most || (d->rosettes > 1 && M_PI * m->metal.section.od / d->rosettes < 4 * d->rosette));
}

static unsigned remark_if(bool so, unsigned remark)
{
    return so ? remark : 0;
}

unsigned rbow_detail_size_remarks(const rbow_detail *given, const detail_model *m)
{
    const rbow_detail *d = &m->detail;
    const double wall = m->metal.section.wall;
    const bool slip = is_slip_fit(m), welded = d->kind == RBOW_DETAIL_RING_WELD || d->kind == RBOW_DETAIL_SOCKET;
    return remark_if(welded && end_is(given->throat, RBOW_UNSET), RBOW_DETAIL_THROAT_TAKEN)
        | remark_if(welded && m->throat > wall * (1 + 1e-12), RBOW_DETAIL_THICK_THROAT)
        | remark_if(slip && rbow_detail_clearance(m) > sixteenth * (1 + 1e-12), RBOW_DETAIL_LOOSE)
        | remark_if(slip && rbow_detail_play(m) > sixteenth * (1 + 1e-12), RBOW_DETAIL_PLAYS)
        | remark_if(slip && d->overlap < 1.5 * m->metal.section.od * (1 - 1e-12), RBOW_DETAIL_SHORT_OVERLAP)
        | remark_if(slip && m->other.section.wall < wall * (1 - 1e-12), RBOW_DETAIL_THIN_SLEEVE)
        | remark_if(rosettes_are_off(m), RBOW_DETAIL_ROSETTE);
}

#define NAME_CASE(value, name)                                                                                 \
    case value: return name;

const char *rbow_detail_kind_name(int kind)
{
    switch (kind) {
        RBOW_DETAIL_KIND_LIST(NAME_CASE)
    }
    return NULL;
}

const char *rbow_detail_mode_name(int mode)
{
    switch (mode) {
        RBOW_DETAIL_MODE_LIST(NAME_CASE)
    }
    return NULL;
}

const char *rbow_detail_remark_text(unsigned bit)
{
    switch (bit) {
        RBOW_DETAIL_REMARK_LIST(NAME_CASE)
    }
    return NULL;
}
