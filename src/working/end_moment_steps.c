#include "working/end_moment_steps.h"

/* A tube between two held ends, after Timoshenko & Gere, Theory of Elastic Stability, ch. 1: each load on pinned
 * ends by its own formula, the joints' moments from the two rules M_A = m_A − k_A (v'(0) − α_A) and
 * M_B = m_B + k_B (v'(L) + β_B), all added at the place. */
static const char beam[] = "Timoshenko & Gere 1961, ch. 1";

/* ---- rotations of pinned ends by the loads --------------------------------------------------------------- */

static void rotation_by_spread(const loaded_tube *b, plane *l)
{
    static const formula_words words[] = {
        [PUSHED] = {"q L³/(2EI) (tan(u/2)/(u/2) − 1) / u²", "# × #³ / (2 × #) × (tan(# / 2) / (# / 2) − 1) / #²"},
        [PULLED] = {"q L³/(2EI) (1 − tanh(u/2)/(u/2)) / u²", "# × #³ / (2 × #) × (1 − tanh(# / 2) / (# / 2)) / #²"},
        [NEITHER] = {"q L³/(24 EI)", "# × #³ / (24 × #)"},
    };
    if (!acts(l->spread)) return;
    const double u = b->u, half = u / 2, l3 = b->length * b->length * b->length;
    const double share = b->way == PUSHED ? (tan(half) / half - 1) / (u * u)
        : b->way == PULLED                ? (1 - tanh(half) / half) / (u * u)
                                          : 1.0 / 12;
    const double rotation = l->spread * l3 / (2 * b->stiffness) * share;
    l->rotation_a += rotation;
    l->rotation_b += rotation;
    STEP(b->c, "spread load turns each pinned end by", words[b->way].formula, words[b->way].numbers, rotation, "rad", beam,
         l->spread, b->length, b->stiffness, u, u, u);
}

/* `near` is the distance from the end to the load, `far` that from the load to the other end. */
static double rotation_by_point(const loaded_tube *b, const char *step, double load, double near, double far)
{
    static const formula_words words[] = {
        [PUSHED] = {"F (sin(u b/L)/sin u − b/L) / P", "# × (sin(# × # / #) / sin(#) − # / #) / #"},
        [PULLED] = {"F (sinh(u b/L)/sinh u − b/L) / P", "# × (sinh(# × # / #) / sinh(#) − # / #) / #"},
        [NEITHER] = {"F a b (L + b) / (6 L EI)", "# × # × # × (# + #) / (6 × # × #)"},
    };
    const double length = b->length, u = b->u;
    if (b->way == NEITHER) {
        const double rotation = load * near * far * (length + far) / (6 * length * b->stiffness);
        STEP(b->c, step, words[NEITHER].formula, words[NEITHER].numbers, rotation, "rad", beam, load, near, far, length, far,
             length, b->stiffness);
        return rotation;
    }
    const double rotation = load * (wave(b, u * far / length) / wave(b, u) - far / length) / b->axial;
    STEP(b->c, step, words[b->way].formula, words[b->way].numbers, rotation, "rad", beam, load, u, far, length, u, far, length,
         b->axial);
    return rotation;
}

static void rotations_by_loads(const loaded_tube *b, plane *l)
{
    const double length = b->length, point = b->c->m.point_at, kink = b->c->m.bow_at;
    rotation_by_spread(b, l);
    if (acts(l->point)) {
        l->rotation_a += rotation_by_point(b, "point load turns pinned end A by", l->point, point, length - point);
        l->rotation_b += rotation_by_point(b, "point load turns pinned end B by", l->point, length - point, point);
    }
    if (acts(l->kink)) {
        l->rotation_a += rotation_by_point(b, "kink turns pinned end A by (F = K)", l->kink, kink, length - kink);
        l->rotation_b += rotation_by_point(b, "kink turns pinned end B by (F = K)", l->kink, length - kink, kink);
    }
    if (acts(l->bow)) {
        const double ratio = b->axial / b->elastic, rotation = pi * l->bow / length * ratio / (1 - ratio);
        l->rotation_a += rotation;
        l->rotation_b += rotation;
        STEP(b->c, "bow turns each pinned end by", "π e/L × (P/Pe) / (1 − P/Pe)", "π × # / # × (# / #) / (1 − # / #)", rotation,
             "rad", beam, l->bow, length, b->axial, b->elastic, b->axial, b->elastic);
    }
}

/* ---- the joints' moments ------------------------------------------------------------------------------ */

/* The right side of the rule of one joint, over L/EI. */
static double joint_side(const loaded_tube *b, const char *step, double flexibility, double moment, double slope, double rotation)
{
    const double side = flexibility * moment + b->stiffness / b->length * (slope - rotation);
    STEP(b->c, step, "R = g m + EI/L (miss slope − turn)", "# × # + # / # × (# − #)", side, b->c->moment, beam, flexibility, moment,
         b->stiffness, b->length, slope, rotation);
    return side;
}

static double one_joint(const loaded_tube *b, const char *step, double side, double flexibility, double other)
{
    const double moment = (side - b->far * other) / (flexibility + b->own);
    STEP(b->c, step, "M = (R − f2 M of the other end) / (g + f1)", "(# − # × #) / (# + #)", moment, b->c->moment, beam, side,
         b->far, other, flexibility, b->own);
    return moment;
}

static void both_joints(const loaded_tube *b, plane *l)
{
    const double ga = b->flexibility_a, gb = b->flexibility_b;
    const double ra = joint_side(b, "right side at A", ga, l->moment_a, l->slope_a, l->rotation_a);
    const double rb = joint_side(b, "right side at B", gb, l->moment_b, l->slope_b, l->rotation_b);
    const double own = b->own, far = b->far, whole = (ga + own) * (gb + own) - far * far;
    l->end_a = (ra * (gb + own) - far * rb) / whole;
    l->end_b = (rb * (ga + own) - far * ra) / whole;
    STEP(b->c, "divisor of both joints", "N = (g_A + f1)(g_B + f1) − f2²", "(# + #) × (# + #) − #²", whole, "", beam, ga, own, gb,
         own, far);
    STEP(b->c, "moment at joint A", "M_A = (R_A (g_B + f1) − f2 R_B) / N", "(# × (# + #) − # × #) / #", l->end_a, b->c->moment, beam,
         ra, gb, own, far, rb, whole);
    STEP(b->c, "moment at joint B", "M_B = (R_B (g_A + f1) − f2 R_A) / N", "(# × (# + #) − # × #) / #", l->end_b, b->c->moment, beam,
         rb, ga, own, far, ra, whole);
}

void end_moment_steps(const loaded_tube *b, plane *l)
{
    const bool restrained_a = b->c->stiffness_a > 0, restrained_b = b->c->stiffness_b > 0;
    l->end_a = l->moment_a; /* at a pinned joint, the applied moment */
    l->end_b = l->moment_b;
    if (restrained_a || restrained_b) rotations_by_loads(b, l);
    if (restrained_a && restrained_b) {
        both_joints(b, l);
    } else if (restrained_a) {
        const double flexibility = b->flexibility_a;
        const double side = joint_side(b, "right side at A", flexibility, l->moment_a, l->slope_a, l->rotation_a);
        l->end_a = one_joint(b, "moment at joint A", side, flexibility, l->end_b);
    } else if (restrained_b) {
        const double flexibility = b->flexibility_b;
        const double side = joint_side(b, "right side at B", flexibility, l->moment_b, l->slope_b, l->rotation_b);
        l->end_b = one_joint(b, "moment at joint B", side, flexibility, l->end_a);
    }
}

/* ---- flexibilities ----------------------------------------------------------------------------------- */

static double joint_flexibility(const loaded_tube *b, const char *step, double stiffness)
{
    const double flexibility = b->stiffness / (b->length * stiffness);
    if (isinf(stiffness))
        STEP(b->c, step, "g = 0: fixed", "0", flexibility, "", beam, 0);
    else
        STEP(b->c, step, "g = EI / (k L)", "# / (# × #)", flexibility, "", beam, b->stiffness, stiffness, b->length);
    return flexibility;
}

void flexibility_steps(loaded_tube *b)
{
    static const formula_words own[] = {[PUSHED] = {"f1 = (1 − u/tan u) / u²", "(1 − # / tan(#)) / #²"},
                                     [PULLED] = {"f1 = (u/tanh u − 1) / u²", "(# / tanh(#) − 1) / #²"},
                                     [NEITHER] = {"f1 = 1/3", "1/3"}};
    static const formula_words far[] = {[PUSHED] = {"f2 = (u/sin u − 1) / u²", "(# / sin(#) − 1) / #²"},
                                     [PULLED] = {"f2 = (1 − u/sinh u) / u²", "(1 − # / sinh(#)) / #²"},
                                     [NEITHER] = {"f2 = 1/6", "1/6"}};
    const double u = b->u, square = u * u;
    b->own = b->way == PUSHED ? (1 - u / tan(u)) / square : b->way == PULLED ? (u / tanh(u) - 1) / square : 1.0 / 3;
    b->far = b->way == PUSHED ? (u / sin(u) - 1) / square : b->way == PULLED ? (1 - u / sinh(u)) / square : 1.0 / 6;
    STEP(b->c, "an end turns by its own moment", own[b->way].formula, own[b->way].numbers, b->own, "", beam, u, u, u);
    STEP(b->c, "and by the other end's", far[b->way].formula, far[b->way].numbers, b->far, "", beam, u, u, u);
    if (b->c->stiffness_a > 0) b->flexibility_a = joint_flexibility(b, "give of joint A", b->c->stiffness_a);
    if (b->c->stiffness_b > 0) b->flexibility_b = joint_flexibility(b, "give of joint B", b->c->stiffness_b);
}
