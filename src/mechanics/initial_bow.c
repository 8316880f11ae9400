#include <railbow/initial_bow.h>

#include "mechanics/no_result.h"

#include <gsl/gsl_math.h>
#include <stdbool.h>

RESULT_OF_DOUBLES(rbow_bow_place);
RESULT_OF_DOUBLES(rbow_bow_load);

static bool is_sound(const rbow_bow *b)
{
    const bool place = b->shape != RBOW_BOW_KINK || (b->kink_at > 0 && b->kink_at < b->length);
    return isfinite(b->amplitude) && b->length > 0 && isfinite(b->length) && place;
}

rbow_status rbow_bow_at(const rbow_bow *b, double x, rbow_bow_place *place)
{
    NO_RESULT(place);
    if (!is_sound(b) || !(x >= 0 && x <= b->length)) return RBOW_OUT_OF_RANGE;
    const double e = b->amplitude, length = b->length, rest = length - x;
    switch (b->shape) {
        case RBOW_BOW_SINE:
            *place = (rbow_bow_place){e * sin(M_PI * x / length), e * M_PI / length * cos(M_PI * x / length)};
            return RBOW_OK;
        case RBOW_BOW_ARC:
            *place = (rbow_bow_place){e * (4 * x * rest / (length * length)), e * 4 * (rest - x) / (length * length)};
            return RBOW_OK;
        case RBOW_BOW_KINK:
            *place = x < b->kink_at ? (rbow_bow_place){e * (x / b->kink_at), e / b->kink_at}
                                    : (rbow_bow_place){e * (rest / (length - b->kink_at)), -e / (length - b->kink_at)};
            return RBOW_OK;
        case RBOW_BOW_SHAPE_COUNT: break;
    }
    return RBOW_OUT_OF_RANGE;
}

/* -P y0'': P e pi^2/L^2 sin(pi x/L) for the sine, 8 P e/L^2 for the arc; for the kink the sum of both slopes, P e (1/c + 1/(L - c)). */
rbow_status rbow_bow_equivalent(const rbow_bow *b, double compression, rbow_bow_load *load)
{
    NO_RESULT(load);
    if (!is_sound(b) || !isfinite(compression)) return RBOW_OUT_OF_RANGE;
    const double e = b->amplitude, length = b->length, near = b->kink_at, far = length - near;
    switch (b->shape) {
        case RBOW_BOW_SINE:
            *load = (rbow_bow_load){.slope_a = M_PI * e / length, .slope_b = -M_PI * e / length,
                                    .half_wave = compression * e * M_PI * M_PI / (length * length)};
            return RBOW_OK;
        case RBOW_BOW_ARC:
            *load = (rbow_bow_load){.slope_a = 4 * e / length, .slope_b = -4 * e / length,
                                    .spread = 8 * compression * e / (length * length)};
            return RBOW_OK;
        case RBOW_BOW_KINK:
            *load = (rbow_bow_load){.slope_a = e / near, .slope_b = -e / far, .force = compression * e * (1 / near + 1 / far)};
            return RBOW_OK;
        case RBOW_BOW_SHAPE_COUNT: break;
    }
    return RBOW_OUT_OF_RANGE;
}
