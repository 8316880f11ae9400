#include <railbow/forced_fit.h>

#include "mechanics/no_result.h"
#include "mechanics/restraint.h"

RESULT_OF_DOUBLES(rbow_forced_ends);

double rbow_fit_slope(double miss, double length)
{
    return length > 0 ? miss / length : (double)NAN;
}

static bool is_sound(const rbow_forced_fit *f)
{
    return f->bending_stiffness > 0 && f->length > 0 && f->stiffness_a >= 0 && f->stiffness_b >= 0;
}

/* With the moments in EI/L, a pinned tube's ends turn by M_A/3 + M_B/6 and M_A/6 + M_B/3 (slope-deflection), and each joint
 * takes the rest of its socket's slope: M = k (slope - turn). The springs' weights keep both rules finite from pinned to
 * fixed:
 *     A   M_A (m_a + s_a/3) + M_B s_a/6 = s_a slope_a        B   M_A s_b/6 + M_B (m_b + s_b/3) = s_b slope_b  */
rbow_status rbow_fit_moments(const rbow_forced_fit *f, const rbow_forced_ends *slopes, rbow_forced_ends *moments)
{
    NO_RESULT(moments);
    if (!is_sound(f) || !isfinite(slopes->a) || !isfinite(slopes->b)) return RBOW_OUT_OF_RANGE;
    const double unit = f->bending_stiffness / f->length;
    const spring a = spring_of(f->stiffness_a / unit), b = spring_of(f->stiffness_b / unit);
    const double own_a = a.moment + a.slope / 3, own_b = b.moment + b.slope / 3;
    const double right_a = a.slope * slopes->a, right_b = b.slope * slopes->b;
    const double whole = own_a * own_b - a.slope * b.slope / 36;
    *moments = (rbow_forced_ends){unit * (right_a * own_b - a.slope / 6 * right_b) / whole,
                               unit * (right_b * own_a - b.slope / 6 * right_a) / whole};
    return RBOW_OK;
}

rbow_status rbow_fit_slopes(const rbow_forced_fit *f, const rbow_forced_ends *moments, rbow_forced_ends *slopes)
{
    NO_RESULT(slopes);
    if (!is_sound(f) || !(f->stiffness_a > 0 && f->stiffness_b > 0)) return RBOW_OUT_OF_RANGE;
    if (!isfinite(moments->a) || !isfinite(moments->b)) return RBOW_OUT_OF_RANGE;
    const double sixth = f->length / (6 * f->bending_stiffness);
    *slopes = (rbow_forced_ends){moments->a * (1 / f->stiffness_a) + sixth * (2 * moments->a + moments->b),
                              moments->b * (1 / f->stiffness_b) + sixth * (moments->a + 2 * moments->b)};
    return RBOW_OK;
}

rbow_status rbow_fit_tension(double gap, double length, double axial_stiffness, double gap_stiffness, double *tension)
{
    *tension = NAN;
    if (!(isfinite(gap) && length > 0 && axial_stiffness > 0 && gap_stiffness > 0)) return RBOW_OUT_OF_RANGE;
    *tension = gap / (length / axial_stiffness + 1 / gap_stiffness);
    return RBOW_OK;
}
