#include "detail/cycle.h"

#include "mechanics/restraint.h"

#include <math.h>

static bool weld_is_sound(const rbow_sn_curve *c)
{
    const bool bends = !isnan(c->log_a2) || !isnan(c->m2);
    return isfinite(c->log_a1) && c->m1 > 0 && isfinite(c->m1) && (!bends || (isfinite(c->log_a2) && c->m2 > 0 && isfinite(c->m2)))
        && (isnan(c->knee_cycles) ? !bends : c->knee_cycles > 0) && (isnan(c->cutoff_cycles) || c->cutoff_cycles > 0);
}

static bool metal_is_sound(const rbow_sn_curve *c)
{
    return isfinite(c->a1) && c->a2 < 0 && isfinite(c->a2) && c->a3 >= 0 && c->a3 <= 1 && c->a4 >= 0 && isfinite(c->a4)
        && (isnan(c->deviation) || c->deviation >= 0);
}

static bool is_sound(const rbow_sn_curve *c)
{
    if (!(c->stress_unit > 0 && isfinite(c->stress_unit))) return false;
    return c->kind == RBOW_SN_WELD ? weld_is_sound(c) : c->kind == RBOW_SN_METAL && metal_is_sound(c);
}

rbow_status rbow_sn_fault(const rbow_sn_curve *c, const detail_model *m)
{
    if (!is_sound(c)) return RBOW_BAD_SN;
    return c->kind == RBOW_SN_METAL && rbow_detail_has_rosettes(m) ? RBOW_SN_NOT_WELD : RBOW_OK;
}

static double weld_cycles(const rbow_sn_curve *c, double range)
{
    if (!(range > 0)) return INFINITY;
    const double log_range = log10(range / c->stress_unit);
    double cycles = pow(10, c->log_a1 - c->m1 * log_range);
    if (cycles > c->knee_cycles && !isnan(c->log_a2)) cycles = pow(10, c->log_a2 - c->m2 * log_range);
    return cycles > c->cutoff_cycles ? (double)INFINITY : cycles;
}

static double metal_cycles(const rbow_sn_curve *c, double equivalent)
{
    const double beyond = equivalent / c->stress_unit - c->a4;
    if (!(beyond > 0)) return INFINITY;
    return pow(10, c->a1 + c->a2 * log10(beyond) - (isnan(c->deviation) ? 0 : 2 * c->deviation));
}

double rbow_cycles_at(const rbow_sn_curve *c, double range, double equivalent)
{
    return c->kind == RBOW_SN_WELD ? weld_cycles(c, range) : metal_cycles(c, equivalent);
}

/* stress_max (1 - R)^a3, with 1 - R = range/stress_max. */
double rbow_equivalent_stress(const rbow_sn_curve *c, double most, double range)
{
    return most * pow(range / most, c->a3);
}

rbow_status rbow_sn_cycles(const rbow_sn_curve *c, double range, double stress_max, double ratio, double *cycles)
{
    *cycles = NAN;
    if (!is_sound(c)) return RBOW_BAD_SN;
    if (c->kind == RBOW_SN_WELD) {
        if (!(range >= 0 && isfinite(range))) return RBOW_OUT_OF_RANGE;
        *cycles = weld_cycles(c, range);
        return RBOW_OK;
    }
    if (!isfinite(stress_max) || (stress_max > 0 && !(ratio <= 1 && isfinite(ratio)))) return RBOW_OUT_OF_RANGE;
    *cycles = stress_max > 0 ? metal_cycles(c, rbow_equivalent_stress(c, stress_max, (1 - ratio) * stress_max)) : (double)INFINITY;
    return RBOW_OK;
}

const char *rbow_life_usual_curve(const rbow_detail *d, const rbow_member *member)
{
    rbow_member m = *member;
    m.weld_zone = weld_zone_taken(member);
    const bool welded = rbow_detail_in_weld_zone(&m, d->at);
    switch ((rbow_detail_kind)d->kind) {
        case RBOW_DETAIL_SOCKET: return "W3";
        case RBOW_DETAIL_SLEEVE: return d->butt ? "F3" : "W3";
        case RBOW_DETAIL_HOLE: return welded ? "W2" : "4130 kt 4";
        case RBOW_DETAIL_PLACE: return welded ? "W2" : "4130 kt 1";
        case RBOW_DETAIL_RING_WELD:
        case RBOW_DETAIL_KIND_COUNT: break;
    }
    return "W2";
}

#define TEXT_CASE(value, text)                                                                                 \
    case value: return text;

const char *rbow_life_remark_text(unsigned bit)
{
    switch (bit) {
        RBOW_LIFE_REMARK_LIST(TEXT_CASE)
    }
    return NULL;
}
