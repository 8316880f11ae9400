#include <railbow/pull.h>

#include "mechanics/no_result.h"
#include "mechanics/plastic.h"
#include "mechanics/restraint.h"
#include "mechanics/root.h"

#include <math.h>
#include <stdbool.h>

/* The moment falls in a straight line from the root to where the pull acts, so with F the pull and M the root's moment
 *     travel = integral of kappa(x) (L - x) dx = (I(M_1) of the tube + I(M) - I(M_1) of the weld)/F^2
 * where I(M) is the integral of kappa M dM from 0, M_1 = F (L - zone) the moment at the border of the weld zone, and each
 * metal has its own yield. rbow_plastic_travel gives I, made
 * dimensionless, as a function of the elastic core that remains. Springback is elastic. */
typedef struct horn {
    const rbow_pull *pull;
    plastic_shape shape;
    double zone;                 /* in, at most the length */
    double root_yield;           /* psi, of the metal at the root */
    double first_modulus;        /* S */
    double first, limit;         /* of the root's moment: first yield anywhere, and where nothing more holds */
    double bending;              /* EI */
    rbow_status status;
} horn;

/* Both from the place, root or border, that gets there first. */
static double first_of(const horn *h, double modulus)
{
    const double share = 1 - h->zone / h->pull->length;
    const double at_root = modulus * h->root_yield, beyond = modulus * h->pull->yield / share;
    return share > 0 && beyond < at_root ? beyond : at_root;
}

/* I(M) of one metal, over F^2 with M = F arm. */
static double travel_by(horn *h, double moment, double arm, double yield)
{
    const double modulus = moment / yield, scale = yield / h->pull->elastic_modulus * arm * arm / h->shape.half_height;
    double core, travel;
    if (!(moment > 0)) return 0;
    if (modulus <= h->first_modulus) return modulus / h->first_modulus / 3 * scale;
    rbow_status status = rbow_plastic_core(&h->shape, modulus, &core);
    if (status == RBOW_OK) status = rbow_plastic_travel(&h->shape, core, &travel);
    if (status != RBOW_OK) h->status = status;
    return status == RBOW_OK ? travel * scale : (double)NAN;
}

static double springback(const horn *h, double moment)
{
    return moment * h->pull->length * h->pull->length / (3 * h->bending);
}

static double travel_of(horn *h, double moment)
{
    const double length = h->pull->length, arm = length - h->zone, border = moment * arm / length;
    if (!(h->zone > 0)) return travel_by(h, moment, length, h->pull->yield);
    return travel_by(h, border, arm, h->pull->yield) + travel_by(h, moment, length, h->root_yield)
        - travel_by(h, border, arm, h->root_yield);
}

/* The moment by how far it is from the limit: near there the core shrinks with the root of what is missing, and from first
 * yield on the set begins without slope. Given: way  1 at first yield ... 0 at the limit */
static double moment_at(const horn *h, double way)
{
    return h->limit - (h->limit - h->first) * way * way;
}

static double missing_set(double way, void *context)
{
    horn *h = context;
    const double moment = moment_at(h, way);
    return travel_of(h, moment) - springback(h, moment) - h->pull->set;
}

/* The limit itself is approached: what the set lacks there is of the order of this squared. */
static const double nearest = 1e-4;

RESULT_WITH_WHOLE(rbow_pulled, beyond, 1);

static bool is_positive(double v)
{
    return v > 0 && isfinite(v);
}

static bool pull_is_sound(const rbow_pull *p)
{
    const bool zone = (p->weld_zone >= 0 && isfinite(p->weld_zone)) || end_is(p->weld_zone, RBOW_UNSET);
    return is_positive(p->elastic_modulus) && is_positive(p->yield) && is_positive(p->weld_yield) && zone && p->set >= 0
        && isfinite(p->set);
}

static horn horn_of(const rbow_pull *p, const rbow_section *s)
{
    const double zone = fmin(end_is(p->weld_zone, RBOW_UNSET) ? 1 : p->weld_zone, p->length);
    horn h = {.pull = p, .shape = rbow_plastic_tube(s->od, s->bore), .zone = zone,
              .root_yield = zone > 0 ? p->weld_yield : p->yield, .bending = p->elastic_modulus * s->inertia, .status = RBOW_OK};
    h.first_modulus = h.shape.modulus(&h.shape, h.shape.half_height);
    h.first = first_of(&h, h.first_modulus);
    h.limit = first_of(&h, h.shape.modulus(&h.shape, 0));
    return h;
}

/* Of a stretch from the root on, or from the border of the weld zone on. */
static double yielded_in(const horn *h, double moment, double yield, double from, double to)
{
    const double until = h->pull->length * (1 - h->first_modulus * yield / moment);
    return fmax(0, fmin(until, to) - from);
}

static rbow_status tell(const horn *h, double moment, rbow_pulled *out)
{
    const rbow_pull *p = h->pull;
    const double modulus = moment / h->root_yield;
    double core = h->shape.half_height;
    rbow_status status = RBOW_OK;
    if (modulus > h->first_modulus) status = rbow_plastic_core(&h->shape, modulus, &core);
    if (status != RBOW_OK) return status;
    const double elastic = modulus < h->first_modulus ? modulus / h->first_modulus : h->shape.half_height / core;
    out->pull = moment / p->length;
    out->springback = springback(h, moment);
    out->travel = out->springback + p->set;
    out->strain_over_yield = elastic;
    out->peak_strain = elastic * h->root_yield / p->elastic_modulus;
    out->residual_stress = elastic < 1 ? 0 : h->root_yield - moment / h->first_modulus;
    out->yielded_length = h->zone > 0 ? yielded_in(h, moment, h->root_yield, 0, h->zone) : 0;
    out->yielded_length += yielded_in(h, moment, p->yield, h->zone, p->length);
    return RBOW_OK;
}

rbow_status rbow_pull_straight(const rbow_pull *pull, rbow_pulled *pulled)
{
    rbow_section s;
    NO_RESULT_BEFORE(rbow_pulled, pulled, beyond);
    const rbow_status tube = rbow_section_of(pull->od, pull->wall, &s);
    if (tube != RBOW_OK) return tube;
    if (!is_positive(pull->length)) return RBOW_BAD_LENGTH;
    if (!pull_is_sound(pull)) return RBOW_OUT_OF_RANGE;

    horn h = horn_of(pull, &s);
    rbow_pulled p = *pulled;
    rbow_status status = RBOW_OK;
    p.yield_travel = springback(&h, h.first);
    p.yield_pull = h.first / pull->length;
    const double most = missing_set(nearest, &h);
    p.most_set = most + pull->set;
    p.beyond = most < 0;
    if (!p.beyond) {
        const bracket b = {nearest, most, 1, -pull->set};
        double way;
        status = rbow_root_between(missing_set, &h, &b, 0, &way);
        if (status == RBOW_OK) status = tell(&h, moment_at(&h, way), &p);
    }
    if (status == RBOW_OK) status = h.status;
    if (status == RBOW_OK) *pulled = p;
    return status;
}
