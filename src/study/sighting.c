#include "study/sighting.h"

#include <math.h>

static const char *const shape_names[] = {
#define SHAPE_NAME(value, name) [value] = name,
    RBOW_BOW_SHAPE_LIST(SHAPE_NAME)
#undef SHAPE_NAME
};

static int verdict_of(const rbow_sight *s)
{
    return !s->holds ? SIGHT_RECHECK : s->significant ? SIGHT_SIGNIFICANT : SIGHT_WITHIN_ERROR;
}

rbow_status sight_line(sight_row *r)
{
    const bool is_tube = r->kind == SIGHT_TUBE;
    const rbow_status status = is_tube ? rbow_sight_tube(r->at, r->count, &r->found)
                                       : rbow_sight_socket(r->at, r->count, r->landing, &r->found);
    const rbow_sight *s = &r->found;
    const double none = NAN;
    if (status != RBOW_OK) return status;
    r->verdict = verdict_of(s);
    r->miss = is_tube ? none : s->size;
    r->miss_clock = is_tube ? none : s->clock;
    r->miss_error = is_tube ? none : s->error;
    r->bow = is_tube ? s->size : none;
    r->bow_clock = is_tube ? s->clock : none;
    r->bow_error = is_tube ? s->error : none;
    r->bow_at = is_tube && s->bow_shape == RBOW_BOW_KINK ? s->bow_at : none;
    r->bow_shape = is_tube ? shape_names[s->bow_shape] : "";
    r->readings = 0;
    for (size_t i = 0; i < r->count; i++) r->readings += !isnan(r->at[i].up) + !isnan(r->at[i].right);
    return RBOW_OK;
}
