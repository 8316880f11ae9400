#include "command/working_bent.h"

/* A tube between two held ends, after Timoshenko & Gere, Theory of Elastic Stability, ch. 1: each load on pinned
 * ends by its own formula, the joints' moments from the two rules M_A = m_A − k_A (v'(0) − α_A) and
 * M_B = m_B + k_B (v'(L) + β_B), all added at the place. */
static const char beam[] = "Timoshenko & Gere ch. 1";
static const char given[] = "load case";
static const char statics[] = "statics";

/* ---- what the loads turn pinned ends by --------------------------------------------------------------- */

typedef struct turn_words { /* formula and numbers, by way */
    const char *formula, *numbers;
} turn_words;

static void turn_by_spread(const bent *b, lateral *l)
{
    static const turn_words words[] = {
        [PUSHED] = {"q L³/(2EI) (tan(u/2)/(u/2) − 1) / u²", "# × #³ / (2 × #) × (tan(# / 2) / (# / 2) − 1) / #²"},
        [PULLED] = {"q L³/(2EI) (1 − tanh(u/2)/(u/2)) / u²", "# × #³ / (2 × #) × (1 − tanh(# / 2) / (# / 2)) / #²"},
        [NEITHER] = {"q L³/(24 EI)", "# × #³ / (24 × #)"},
    };
    if (!work_acts(l->spread)) return;
    const double u = b->u, half = u / 2, l3 = b->length * b->length * b->length;
    const double share = b->way == PUSHED ? (tan(half) / half - 1) / (u * u)
        : b->way == PULLED                ? (1 - tanh(half) / half) / (u * u)
                                          : 1.0 / 12;
    const double turn = l->spread * l3 / (2 * b->stiffness) * share;
    l->turn_a += turn;
    l->turn_b += turn;
    STEP(b->d, "spread load turns each pinned end by", words[b->way].formula, words[b->way].numbers, turn, "rad", beam,
         l->spread, b->length, b->stiffness, u, u, u);
}

static double wave(const bent *b, double angle)
{
    return b->way == PUSHED ? sin(angle) : sinh(angle);
}

/* From the end to the load `near`, from the load to the other end `far`. */
static double turn_of_point(const bent *b, const char *step, double load, double near, double far)
{
    static const turn_words words[] = {
        [PUSHED] = {"F (sin(u b/L)/sin u − b/L) / P", "# × (sin(# × # / #) / sin(#) − # / #) / #"},
        [PULLED] = {"F (sinh(u b/L)/sinh u − b/L) / P", "# × (sinh(# × # / #) / sinh(#) − # / #) / #"},
        [NEITHER] = {"F a b (L + b) / (6 L EI)", "# × # × # × (# + #) / (6 × # × #)"},
    };
    const double length = b->length, u = b->u;
    if (b->way == NEITHER) {
        const double turn = load * near * far * (length + far) / (6 * length * b->stiffness);
        STEP(b->d, step, words[NEITHER].formula, words[NEITHER].numbers, turn, "rad", beam, load, near, far, length, far,
             length, b->stiffness);
        return turn;
    }
    const double turn = load * (wave(b, u * far / length) / wave(b, u) - far / length) / b->axial;
    STEP(b->d, step, words[b->way].formula, words[b->way].numbers, turn, "rad", beam, load, u, far, length, u, far, length,
         b->axial);
    return turn;
}

static void turn_by_loads(const bent *b, lateral *l)
{
    const double length = b->length, point = b->d->m.point_at, kink = b->d->m.bow_at;
    turn_by_spread(b, l);
    if (work_acts(l->point)) {
        l->turn_a += turn_of_point(b, "point load turns pinned end A by", l->point, point, length - point);
        l->turn_b += turn_of_point(b, "point load turns pinned end B by", l->point, length - point, point);
    }
    if (work_acts(l->kink)) {
        l->turn_a += turn_of_point(b, "kink turns pinned end A by (F = K)", l->kink, kink, length - kink);
        l->turn_b += turn_of_point(b, "kink turns pinned end B by (F = K)", l->kink, length - kink, kink);
    }
    if (work_acts(l->bow)) {
        const double ratio = b->axial / b->elastic, turn = work_pi * l->bow / length * ratio / (1 - ratio);
        l->turn_a += turn;
        l->turn_b += turn;
        STEP(b->d, "bow turns each pinned end by", "π e/L × (P/Pe) / (1 − P/Pe)", "π × # / # × (# / #) / (1 − # / #)", turn,
             "rad", beam, l->bow, length, b->axial, b->elastic, b->axial, b->elastic);
    }
}

/* ---- the joints' moments ------------------------------------------------------------------------------ */

/* The right side of one joint's rule, over L/EI. */
static double joint_side(const bent *b, const char *step, double give, double moment, double slope, double turn)
{
    const double side = give * moment + b->stiffness / b->length * (slope - turn);
    STEP(b->d, step, "R = g m + EI/L (miss slope − turn)", "# × # + # / # × (# − #)", side, b->d->moment, beam, give, moment,
         b->stiffness, b->length, slope, turn);
    return side;
}

static double one_joint(const bent *b, const char *step, double side, double give, double other)
{
    const double moment = (side - b->far * other) / (give + b->own);
    STEP(b->d, step, "M = (R − f2 M of the other end) / (g + f1)", "(# − # × #) / (# + #)", moment, b->d->moment, beam, side,
         b->far, other, give, b->own);
    return moment;
}

static double give_of(const bent *b, const char *step, double stiffness)
{
    const double give = b->stiffness / (b->length * stiffness);
    if (isinf(stiffness))
        STEP(b->d, step, "g = 0: fixed", "0", give, "", beam, 0);
    else
        STEP(b->d, step, "g = EI / (k L)", "# / (# × #)", give, "", beam, b->stiffness, stiffness, b->length);
    return give;
}

static void both_joints(const bent *b, lateral *l)
{
    const double ga = b->give_a, gb = b->give_b;
    const double ra = joint_side(b, "right side at A", ga, l->moment_a, l->slope_a, l->turn_a);
    const double rb = joint_side(b, "right side at B", gb, l->moment_b, l->slope_b, l->turn_b);
    const double own = b->own, far = b->far, whole = (ga + own) * (gb + own) - far * far;
    l->end_a = (ra * (gb + own) - far * rb) / whole;
    l->end_b = (rb * (ga + own) - far * ra) / whole;
    STEP(b->d, "divisor of both joints", "N = (g_A + f1)(g_B + f1) − f2²", "(# + #) × (# + #) − #²", whole, "", beam, ga, own, gb,
         own, far);
    STEP(b->d, "moment at joint A", "M_A = (R_A (g_B + f1) − f2 R_B) / N", "(# × (# + #) − # × #) / #", l->end_a, b->d->moment, beam,
         ra, gb, own, far, rb, whole);
    STEP(b->d, "moment at joint B", "M_B = (R_B (g_A + f1) − f2 R_A) / N", "(# × (# + #) − # × #) / #", l->end_b, b->d->moment, beam,
         rb, ga, own, far, ra, whole);
}

static void joints(const bent *b, lateral *l)
{
    const bool holds_a = b->d->stiffness_a > 0, holds_b = b->d->stiffness_b > 0;
    l->end_a = l->moment_a; /* what a pinned joint passes on */
    l->end_b = l->moment_b;
    if (holds_a || holds_b) turn_by_loads(b, l);
    if (holds_a && holds_b) {
        both_joints(b, l);
    } else if (holds_a) {
        const double give = b->give_a;
        const double side = joint_side(b, "right side at A", give, l->moment_a, l->slope_a, l->turn_a);
        l->end_a = one_joint(b, "moment at joint A", side, give, l->end_b);
    } else if (holds_b) {
        const double give = b->give_b;
        const double side = joint_side(b, "right side at B", give, l->moment_b, l->slope_b, l->turn_b);
        l->end_b = one_joint(b, "moment at joint B", side, give, l->end_a);
    }
}

/* ---- the moment at the place -------------------------------------------------------------------------- */

static double at_by_ends(const bent *b, const lateral *l)
{
    static const turn_words words[] = {
        [PUSHED] = {"(M_A sin(u (1 − x/L)) + M_B sin(u x/L)) / sin u",
                    "(# × sin(# × (1 − # / #)) + # × sin(# × # / #)) / sin(#)"},
        [PULLED] = {"(M_A sinh(u (1 − x/L)) + M_B sinh(u x/L)) / sinh u",
                    "(# × sinh(# × (1 − # / #)) + # × sinh(# × # / #)) / sinh(#)"},
        [NEITHER] = {"M_A (1 − x/L) + M_B x/L", "# × (1 − # / #) + # × # / #"},
    };
    const double u = b->u, x = b->place, length = b->length, share = x / length;
    if (!work_acts(l->end_a) && !work_acts(l->end_b)) return 0;
    if (b->way == NEITHER) {
        const double moment = l->end_a * (1 - share) + l->end_b * share;
        STEP(b->d, "moment there of the joints", words[NEITHER].formula, words[NEITHER].numbers, moment, b->d->moment, beam,
             l->end_a, x, length, l->end_b, x, length);
        return moment;
    }
    const double moment = (l->end_a * wave(b, u * (1 - share)) + l->end_b * wave(b, u * share)) / wave(b, u);
    STEP(b->d, "moment there of the joints", words[b->way].formula, words[b->way].numbers, moment, b->d->moment, beam, l->end_a,
         u, x, length, l->end_b, u, x, length, u);
    return moment;
}

static double at_by_spread(const bent *b, const lateral *l)
{
    static const turn_words words[] = {
        [PUSHED] = {"q L²/u² (cos(u (1/2 − x/L)) / cos(u/2) − 1)", "# × #² / #² × (cos(# × (1/2 − # / #)) / cos(# / 2) − 1)"},
        [PULLED] = {"q L²/u² (1 − cosh(u (1/2 − x/L)) / cosh(u/2))", "# × #² / #² × (1 − cosh(# × (1/2 − # / #)) / cosh(# / 2))"},
        [NEITHER] = {"q x (L − x) / 2", "# × # × (# − #) / 2"},
    };
    const double u = b->u, x = b->place, length = b->length, q = l->spread, turned = u * (0.5 - x / length);
    if (!work_acts(q)) return 0;
    if (b->way == NEITHER) {
        const double moment = q * x * (length - x) / 2;
        STEP(b->d, "moment there of the spread load", words[NEITHER].formula, words[NEITHER].numbers, moment, b->d->moment, beam,
             q, x, length, x);
        return moment;
    }
    const double shape = b->way == PUSHED ? cos(turned) / cos(u / 2) - 1 : 1 - cosh(turned) / cosh(u / 2);
    const double moment = q * length * length / (u * u) * shape;
    STEP(b->d, "moment there of the spread load", words[b->way].formula, words[b->way].numbers, moment, b->d->moment, beam, q,
         length, u, u, x, length, u);
    return moment;
}

static double at_by_point(const bent *b, const char *step, double load, double at)
{
    static const turn_words words[] = {
        [PUSHED] = {"F L/u sin(u p/L) sin(u w/L) / sin u; p: load to the end beyond it, w: place to the other end",
                    "# × # / # × sin(# × # / #) × sin(# × # / #) / sin(#)"},
        [PULLED] = {"F L/u sinh(u p/L) sinh(u w/L) / sinh u; p: load to the end beyond it, w: place to the other end",
                    "# × # / # × sinh(# × # / #) × sinh(# × # / #) / sinh(#)"},
        [NEITHER] = {"F p w / L; p: load to the end beyond it, w: place to the other end", "# × # × # / #"},
    };
    const double length = b->length, u = b->u;
    const double p = b->place <= at ? length - at : at, w = b->place <= at ? b->place : length - b->place;
    if (!work_acts(load)) return 0;
    if (b->way == NEITHER) {
        STEP(b->d, step, words[NEITHER].formula, words[NEITHER].numbers, load * p * w / length, b->d->moment, beam, load, p, w,
             length);
        return load * p * w / length;
    }
    const double moment = load * length / u * wave(b, u * p / length) * wave(b, u * w / length) / wave(b, u);
    STEP(b->d, step, words[b->way].formula, words[b->way].numbers, moment, b->d->moment, beam, load, length, u, u, p, length, u,
         w, length, u);
    return moment;
}

static double at_by_bow(const bent *b, const lateral *l)
{
    if (!work_acts(l->bow)) return 0;
    const double x = b->place, moment = b->axial * l->bow * sin(work_pi * x / b->length) / (1 - b->axial / b->elastic);
    STEP(b->d, "moment there of the bow", "P e sin(π x/L) / (1 − P/Pe)", "# × # × sin(π × # / #) / (1 − # / #)", moment,
         b->d->moment, beam, b->axial, l->bow, x, b->length, b->axial, b->elastic);
    return moment;
}

static double held_plane(const bent *b, lateral *l)
{
    joints(b, l);
    const double parts[] = {at_by_ends(b, l), at_by_spread(b, l),
                            at_by_point(b, "moment there of the point load", l->point, b->d->m.point_at),
                            at_by_point(b, "moment there of the kink", l->kink, b->d->m.bow_at), at_by_bow(b, l)};
    const double moment = parts[0] + parts[1] + parts[2] + parts[3] + parts[4];
    STEP(b->d, OF_PLANE(l, "moment there, up", "moment there, right"), "M = sum of these", "# + # + # + # + #", moment,
         b->d->moment, beam, parts[0], parts[1], parts[2], parts[3], parts[4]);
    return moment;
}

/* ---- a free end --------------------------------------------------------------------------------------- */

static double bow_there(const bent *b, const lateral *l)
{
    const rbow_member *m = &b->d->m;
    const double e = work_part(l, m->bow, m->bow_clock), x = b->place, c = m->bow_at, length = b->length;
    switch (m->bow_shape) {
        case RBOW_BOW_SINE: return e * sin(work_pi * x / length);
        case RBOW_BOW_ARC: return 4 * e * x * (length - x) / (length * length);
        default: return e * (x < c ? x / c : (length - x) / (length - c));
    }
}

/* By equilibrium of what lies beyond the place; how far the free end has moved comes from the solution. */
static double free_plane(const bent *b, lateral *l, bool up)
{
    const rbow_limit *at = b->at;
    rbow_profile ends[] = {{.at = at->at}, {.at = b->d->own_member->length}};
    rbow_member_profile(b->d->own_member, b->d->own_material, at->factor, at->tension, ends, 2);
    const double moved = up ? ends[1].deflection_up - ends[0].deflection_up
                            : ends[1].deflection_right - ends[0].deflection_right;
    const double ahead = work_shown(b->d, DIM_LENGTH, moved) - bow_there(b, l), x = b->place;
    const double plain = l->spread - (b->d->m.bow_shape == RBOW_BOW_ARC ? 8 * b->axial * work_part(l, b->d->m.bow, b->d->m.bow_clock)
                                          / (b->length * b->length) : 0);
    const double beyond = fmax(0, b->d->m.point_at - x), rest = b->length - x;
    const double moment = l->moment_b - l->point * beyond - plain * rest * rest / 2 - b->axial * ahead;
    STEP(b->d, "how much farther B has moved than this place, bow included", "Δ", "from the solution of the equation", ahead,
         b->d->length, beam, 0);
    STEP(b->d, up ? "moment there, up" : "moment there, right", "M = M_B − F (a − x) − q (L − x)²/2 − P Δ",
         "# − # × # − # × #² / 2 − # × #", moment, b->d->moment, statics, l->moment_b, l->point, beyond, plain, rest, b->axial,
         ahead);
    return moment;
}

/* ---- all of it ---------------------------------------------------------------------------------------- */

static void flexibilities(bent *b)
{
    static const turn_words own[] = {[PUSHED] = {"f1 = (1 − u/tan u) / u²", "(1 − # / tan(#)) / #²"},
                                     [PULLED] = {"f1 = (u/tanh u − 1) / u²", "(# / tanh(#) − 1) / #²"},
                                     [NEITHER] = {"f1 = 1/3", "1/3"}};
    static const turn_words far[] = {[PUSHED] = {"f2 = (u/sin u − 1) / u²", "(# / sin(#) − 1) / #²"},
                                     [PULLED] = {"f2 = (1 − u/sinh u) / u²", "(1 − # / sinh(#)) / #²"},
                                     [NEITHER] = {"f2 = 1/6", "1/6"}};
    const double u = b->u, square = u * u;
    b->own = b->way == PUSHED ? (1 - u / tan(u)) / square : b->way == PULLED ? (u / tanh(u) - 1) / square : 1.0 / 3;
    b->far = b->way == PUSHED ? (u / sin(u) - 1) / square : b->way == PULLED ? (1 - u / sinh(u)) / square : 1.0 / 6;
    STEP(b->d, "an end turns by its own moment", own[b->way].formula, own[b->way].numbers, b->own, "", beam, u, u, u);
    STEP(b->d, "and by the other end's", far[b->way].formula, far[b->way].numbers, b->far, "", beam, u, u, u);
    if (b->d->stiffness_a > 0) b->give_a = give_of(b, "give of joint A", b->d->stiffness_a);
    if (b->d->stiffness_b > 0) b->give_b = give_of(b, "give of joint B", b->d->stiffness_b);
}

static double plane_moment(const bent *b, bool up)
{
    lateral l = {.share = up ? cos : sin, .degrees = up ? "cos" : "sin"};
    working_heading(b->d->w, up ? "Moment at that place: upward" : "Moment at that place: to the right", "");
    if (work_loads(b, &l)) return b->d->free_b ? free_plane(b, &l, up) : held_plane(b, &l);
    STEP(b->d, up ? "moment there, up" : "moment there, right", "nothing acts in this plane", "0", 0, b->d->moment, given, 0);
    return 0;
}

double work_moment(const desk *d, const rbow_limit *at)
{
    bent b = {.d = d, .at = at, .factor = at->factor, .axial = work_shown(d, DIM_FORCE, at->axial),
              .place = work_shown(d, DIM_LENGTH, at->at), .length = d->m.length, .stiffness = d->bending_stiffness};
    b.u = b.length * sqrt(fabs(b.axial) / b.stiffness);
    b.way = b.u * b.u < 1e-6 ? NEITHER : b.axial > 0 ? PUSHED : PULLED;
    b.elastic = work_pi * work_pi * b.stiffness / (b.length * b.length);
    STEP(d, "place", "x, from A", "by search", b.place, d->length, "largest use along the tube", 0);
    if (b.way != NEITHER)
        STEP(d, "angle of the push", "u = L √(|P|/EI)", "# × √(# / #)", b.u, "", beam, b.length, fabs(b.axial), b.stiffness);
    STEP(d, "critical load between pins", "Pe = π² EI / L²", "π² × # / #²", b.elastic, d->force, "Euler", b.stiffness, b.length);
    if (!d->free_b && (d->stiffness_a > 0 || d->stiffness_b > 0)) flexibilities(&b);
    const double up = plane_moment(&b, true), right = plane_moment(&b, false), moment = hypot(up, right);
    working_heading(d->w, "Stress at that place", "");
    STEP(d, "moment", "M = √(M_up² + M_right²)", "√(#² + #²)", moment, d->moment, statics, up, right);
    return moment;
}
