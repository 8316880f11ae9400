#include <railbow/pull.h>

#include "mechanics/plastic.h"
#include "mechanics/root.h"

#include <math.h>
#include <stdbool.h>

/* All movements are shares of yield_strain length^2/half_height. The movement at first yield is 1/3, and springback is
 * 1/3 times the moment at the root over that at first yield. */
typedef struct horn {
    plastic_shape shape;
    double first; /* modulus at first yield, S */
    double set;   /* sought */
    rbow_status status;
} horn;

static double springback(const horn *h, double core)
{
    return h->shape.modulus(&h->shape, core) / h->first / 3;
}

static double set_left(const horn *h, double core, rbow_status *status)
{
    double travel;
    *status = rbow_plastic_travel(&h->shape, core, &travel);
    return travel - springback(h, core);
}

static double missing(double core, void *context)
{
    horn *h = context;
    rbow_status status;
    const double set = set_left(h, core, &status);
    if (status != RBOW_OK) h->status = status;
    return set - h->set;
}

/* The unknown is the core, because its range is finite; the set has no slope at first yield (it grows with the square of
 * the excess). The limit without a core is approached to a millionth; the error of the set is the square of this. */
static const double least_core = 1e-6;

static const rbow_pulled no_pull = {NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, 0};

static bool pull_is_sound(const rbow_pull *p)
{
    return p->elastic_modulus > 0 && isfinite(p->elastic_modulus) && p->yield > 0 && isfinite(p->yield) && p->set >= 0
        && isfinite(p->set);
}

static void tell(const rbow_pull *p, const horn *h, double core, double scale, rbow_pulled *out)
{
    const double modulus = h->shape.modulus(&h->shape, core);
    out->pull = modulus * p->yield / p->length;
    out->springback = springback(h, core) * scale;
    out->travel = out->springback + p->set;
    out->strain_over_yield = h->shape.half_height / core;
    out->peak_strain = out->strain_over_yield * p->yield / p->elastic_modulus;
    out->residual_stress = p->yield * (1 - modulus / h->first);
    out->yielded_length = p->length * (1 - h->first / modulus);
}

rbow_status rbow_pull_straight(const rbow_pull *pull, rbow_pulled *pulled)
{
    rbow_section s;
    *pulled = no_pull;
    const rbow_status tube = rbow_section_of(pull->od, pull->wall, &s);
    if (tube != RBOW_OK) return tube;
    if (!(pull->length > 0 && isfinite(pull->length))) return RBOW_BAD_LENGTH;
    if (!pull_is_sound(pull)) return RBOW_OUT_OF_RANGE;

    const double scale = pull->yield / pull->elastic_modulus * pull->length * pull->length / (s.od / 2);
    horn h = {.shape = rbow_plastic_tube(s.od, s.bore), .set = pull->set / scale};
    rbow_pulled p = no_pull;
    rbow_status status;
    p.yield_travel = scale / 3;
    p.yield_pull = s.section_modulus * pull->yield / pull->length;
    const double full = h.shape.half_height, least = full * least_core;
    h.first = h.shape.modulus(&h.shape, full); /* S, rounded like the others, so that a set of 0 leaves no stress */
    const double most = set_left(&h, least, &status);
    if (status != RBOW_OK) return status;
    p.most_set = most * scale;
    p.beyond = h.set > most;
    if (!p.beyond) {
        const bracket b = {least, most - h.set, full, -h.set};
        double core;
        status = rbow_root_between(missing, &h, &b, 0, &core);
        if (status == RBOW_OK) status = h.status;
        if (status != RBOW_OK) return status;
        tell(pull, &h, core, scale, &p);
    }
    *pulled = p;
    return RBOW_OK;
}
