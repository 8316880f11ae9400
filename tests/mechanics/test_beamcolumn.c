/* The beam-column in one plane: published values, textbook cases, statics and curvature of random beams, and both
 * sides of every place where the formulas change. */
#include "dice.h"
#include "near.h"

#include <railbow/beamcolumn.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <stdio.h>

static const double pi = 3.14159265358979323846;

typedef struct solved {
    rbow_beam beam;
    rbow_loading loading;
    rbow_prepared prepared;
    rbow_solution solution;
} solved;

static bool is_free(const rbow_beam *b)
{
    return b->stiffness_b < 0;
}

static double critical_of(const rbow_beam *b)
{
    double load;
    ck_assert_int_eq(rbow_critical_load(b->bending_stiffness, b->length, b->stiffness_a, b->stiffness_b, &load), RBOW_OK);
    return load;
}

static solved solve(rbow_beam beam, rbow_loading loading)
{
    solved s = {.beam = beam, .loading = loading};
    s.beam.critical_load = critical_of(&beam);
    ck_assert_int_eq(rbow_beam_prepare(&s.beam, &s.prepared), RBOW_OK);
    rbow_beam_solve(&s.prepared, &s.loading, &s.solution);
    return s;
}

static rbow_station at(const solved *s, double x)
{
    rbow_station station;
    rbow_beam_at(&s->prepared, &s->solution, x, &station);
    return station;
}

/* A plain beam: EI 5e5, L 20, loads and kink in the middle. z = P L^2/EI. */
static const double EI = 5e5, L = 20;

static rbow_beam plain(double z, double stiffness_a, double stiffness_b)
{
    return (rbow_beam){.bending_stiffness = EI, .length = L, .compression = z * EI / (L * L), .stiffness_a = stiffness_a,
                       .stiffness_b = stiffness_b, .point_at = L / 2, .bow_at = L / 2};
}

/* ---- published values ------------------------------------------------------------------------------- */

/* Timoshenko & Gere, Theory of Elastic Stability, ch. 1 (derived): what compression does to the largest moment of a pinned
 * beam under a central load, tan u/u, a spread load, 2(1 - cos u)/(u^2 cos u), and end couples, sec u; u = (pi/2)
 * sqrt(P/P_E). */
START_TEST(timoshenko_amplification)
{
    static const double table[][4] = {
        {0.1, 1.0913, 1.1143, 1.1375}, {0.5, 1.8168, 2.0299, 2.2522}, {0.9, 8.3069, 10.2845, 12.4191}};
    for (int i = 0; i < 3; i++) {
        const rbow_beam b = plain(table[i][0] * pi * pi, 0, 0);
        const solved point = solve(b, (rbow_loading){.point_load = 100});
        const solved spread = solve(b, (rbow_loading){.spread_load = 10});
        const solved couples = solve(b, (rbow_loading){.moment_a = 700, .moment_b = 700});
        near_within(at(&point, L / 2).moment / (100 * L / 4), table[i][1], 0, 5e-5);
        near_within(at(&spread, L / 2).moment / (10 * L * L / 8), table[i][2], 0, 5e-5);
        near_within(at(&couples, L / 2).moment / 700, table[i][3], 0, 5e-5);
    }
}
END_TEST

/* Livesley & Chandler, Stability Functions for Structural Frameworks (derived): stiffness s and carry-over c of a member
 * whose far end is fixed, by P/P_E. The near joint turned by 1 bends the tube by s EI/L there and by -c s EI/L, convex the
 * other way, at the far end. */
START_TEST(livesley_chandler)
{
    static const struct {
        double load, s, s_half, c, c_half;
    } table[] = {
        {-4, 7.7367, 5e-5, 0.1848, 5e-5},  {0, 4, 1e-12, 0.5, 1e-13},         {0.5, 3.2945, 5e-5, 0.6659, 5e-5},
        {1.0, 2.4674, 5e-5, 1.0, 5e-5},    {2.0, 0.1428, 5e-5, 24.684, 5e-4}, {3.9, -78.335, 5e-4, -1.0031, 5e-5},
    };
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        const rbow_beam b = plain(table[i].load * pi * pi, INFINITY, INFINITY);
        const solved a_turned = solve(b, (rbow_loading){.slope_a = 1}), b_turned = solve(b, (rbow_loading){.slope_b = 1});
        const double s = at(&a_turned, 0).moment / (EI / L);
        near_within(s, table[i].s, 0, table[i].s_half);
        near_within(-at(&a_turned, L).moment / (EI / L) / s, table[i].c, 0, table[i].c_half);
        near_within(at(&b_turned, L).moment, at(&a_turned, 0).moment, 1e-10, 0);
        near_within(at(&b_turned, 0).moment, at(&a_turned, L).moment, 1e-10, 0);
        near_within(at(&a_turned, 0).slope, 1, 1e-12, 0);
        near_within(at(&a_turned, L).slope, 0, 0, 1e-12);
    }
    /* at P = P_E exactly: s = pi^2/4, c = 1 (from memory) */
    const solved euler = solve(plain(pi * pi, INFINITY, INFINITY), (rbow_loading){.slope_a = 1});
    near_within(at(&euler, 0).moment, pi * pi / 4 * EI / L, 1e-13, 0);
    near_within(at(&euler, L).moment, -pi * pi / 4 * EI / L, 1e-13, 0);
}
END_TEST

/* s and c by plain trigonometry, every P/P_E from -60 to 4 except near 0, where the quotients cancel. */
START_TEST(stability_functions)
{
    for (double load = -59.9; load < 3.99; load += 0.37) {
        const double u = pi * sqrt(fabs(load));
        const double half = load > 0 ? u / 2 / tan(u / 2) : u / 2 / tanh(u / 2);
        const double p = 2 * half, q = (load > 0 ? 1 : -1) * u * u / 2 / (1 - half); /* s - sc, s + sc */
        const solved turned = solve(plain(load * pi * pi, INFINITY, INFINITY), (rbow_loading){.slope_a = 1});
        near_within(at(&turned, 0).moment, (q + p) / 2 * EI / L, 1e-11, 0);
        near_within(at(&turned, L).moment, -(q - p) / 2 * EI / L, 1e-11, 0);
    }
}
END_TEST

/* Sarkar, Strength of Materials, 9.10 (read): bar 40 x 100 mm, L 3 m, E 210 GPa, pinned, 10/3 kN/m; 3.750 kN m alone, 4.328
 * with P 100 kN, and 89.92 MPa. N, mm. */
START_TEST(sarkar_spread_load)
{
    rbow_beam b = {.bending_stiffness = 210e3 * 40 * 1e6 / 12, .length = 3000, .point_at = 0, .bow_at = 1};
    const rbow_loading load = {.spread_load = 10.0 / 3};
    const solved alone = solve(b, load);
    b.compression = 100e3;
    const solved pressed = solve(b, load);
    near_within(at(&alone, 1500).moment, 3.750e6, 0, 500);
    near_within(at(&pressed, 1500).moment, 4.328e6, 0, 500);
    near_within(100e3 / 4000 + at(&pressed, 1500).moment / (40 * 1e4 / 6), 89.92, 0, 5e-3);
}
END_TEST

/* ---- textbook cases without axial load -------------------------------------------------------------- */

typedef struct textbook {
    double a, b; /* end stiffness */
    rbow_loading load;
    double x, moment, deflection;
} textbook;

/* Any strength-of-materials text (from memory). F = 120, q = 9; kinds of ends in the order of the rows. */
START_TEST(beams_without_axial_load)
{
    const double f = 120, q = 9, fl = f * L, ql2 = q * L * L, l2 = L * L / EI;
    const textbook rows[] = {
        {0, 0, {.point_load = f}, L / 2, fl / 4, fl * l2 / 48},
        {INFINITY, INFINITY, {.point_load = f}, L / 2, fl / 8, fl * l2 / 192},
        {INFINITY, INFINITY, {.point_load = f}, 0, -fl / 8, 0},
        {INFINITY, 0, {.point_load = f}, 0, -3 * fl / 16, 0},
        {INFINITY, 0, {.point_load = f}, L / 2, 5 * fl / 32, 7 * fl * l2 / 768},
        {INFINITY, RBOW_FREE, {.point_load = f}, 0, -fl / 2, 0},
        {INFINITY, RBOW_FREE, {.point_load = f}, L, 0, 5 * fl * l2 / 48},
        {0, 0, {.spread_load = q}, L / 2, ql2 / 8, 5 * ql2 * l2 / 384},
        {INFINITY, INFINITY, {.spread_load = q}, 0, -ql2 / 12, 0},
        {INFINITY, INFINITY, {.spread_load = q}, L / 2, ql2 / 24, ql2 * l2 / 384},
        {INFINITY, 0, {.spread_load = q}, 0, -ql2 / 8, 0},
        {INFINITY, RBOW_FREE, {.spread_load = q}, 0, -ql2 / 2, 0},
        {INFINITY, RBOW_FREE, {.spread_load = q}, L, 0, ql2 * l2 / 8},
        {INFINITY, RBOW_FREE, {.moment_b = f}, L, f, -f * l2 / 2},
        {INFINITY, 0, {.moment_b = f}, 0, -f / 2, 0},
        {0, 0, {.moment_a = f, .moment_b = f}, L / 2, f, f * l2 / 8},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const solved s = solve(plain(0, rows[i].a, rows[i].b), rows[i].load);
        const rbow_station got = at(&s, rows[i].x);
        near_within(got.moment, rows[i].moment, 1e-13, 1e-13 * fl);
        near_within(got.deflection, rows[i].deflection, 1e-13, 1e-14);
    }
}
END_TEST

/* Slope-deflection, any structures text (from memory): what a joint that points past its landing locks in. */
START_TEST(locked_in_moments)
{
    const double miss = 0.125, unit = EI * miss / (L * L);
    const rbow_loading from_a = {.slope_a = miss / L}, from_b = {.slope_b = miss / L};
    const rbow_loading step = {.slope_a = miss / L, .slope_b = -miss / L};
    const solved propped = solve(plain(0, INFINITY, 0), from_a);
    near_within(at(&propped, 0).moment, 3 * unit, 1e-13, 0);
    near_within(at(&propped, L).moment, 0, 0, 1e-12 * unit);
    const solved built = solve(plain(0, INFINITY, INFINITY), from_a);
    near_within(at(&built, 0).moment, 4 * unit, 1e-13, 0);
    near_within(at(&built, L).moment, -2 * unit, 1e-13, 0);
    const solved other = solve(plain(0, INFINITY, INFINITY), from_b);
    near_within(at(&other, 0).moment, -2 * unit, 1e-13, 0);
    near_within(at(&other, L).moment, 4 * unit, 1e-13, 0);
    const solved side = solve(plain(0, INFINITY, INFINITY), step);
    near_within(at(&side, 0).moment, 6 * unit, 1e-13, 0);
    near_within(at(&side, L).moment, -6 * unit, 1e-13, 0);
    const solved pinned = solve(plain(0, 0, 0), from_a); /* nothing holds it */
    near_within(at(&pinned, L / 2).moment, 0, 0, 0);
}
END_TEST

/* A spring k at A, B pinned: the tube 3EI/L and the spring in series take the miss. */
START_TEST(springs_share_the_miss)
{
    for (double share = 1e-6; share < 1e7; share *= 10) {
        const double k = share * EI / L;
        const solved s = solve(plain(0, k, 0), (rbow_loading){.slope_a = 0.01});
        near_within(at(&s, 0).moment, 0.01 / (1 / k + L / (3 * EI)), 1e-13, 0);
    }
}
END_TEST

/* ---- bows ------------------------------------------------------------------------------------------- */

static double size_of(const solved *s, rbow_station *most)
{
    *most = (rbow_station){0, 0, 0, 0};
    for (int i = 0; i <= 64; i++) {
        const rbow_station here = at(s, fmin(s->beam.length, s->beam.length * i / 64));
        most->moment = fmax(most->moment, fabs(here.moment));
        most->moment_slope = fmax(most->moment_slope, fabs(here.moment_slope));
        most->deflection = fmax(most->deflection, fabs(here.deflection));
        most->slope = fmax(most->slope, fabs(here.slope));
    }
    return most->moment;
}

static double head_room(const solved *s)
{
    return fmin(1, 1 - s->beam.compression / s->beam.critical_load);
}

static void print_beam(const solved *s)
{
    const rbow_beam *b = &s->beam;
    const rbow_loading *q = &s->loading;
    fprintf(stderr, "EI %.17g L %.17g P %.17g (z %.6g, P/Pcr %.9g) ka %.17g kb %.17g point_at %.17g bow_at %.17g shape %d\n",
            b->bending_stiffness, b->length, b->compression, b->compression * b->length / b->bending_stiffness * b->length,
            b->compression / b->critical_load, b->stiffness_a, b->stiffness_b, b->point_at, b->bow_at, (int)b->bow_shape);
    fprintf(stderr, "Ma %.17g Mb %.17g F %.17g q %.17g bow %.17g slopes %.17g %.17g\n", q->moment_a, q->moment_b,
            q->point_load, q->spread_load, q->bow, q->slope_a, q->slope_b);
}

static void balance(const solved *s, const char *what, double x, double got, double want, double allowed)
{
    if (fabs(got - want) <= allowed) return;
    print_beam(s);
    ck_abort_msg("%s at %.17g: %.17g, want %.17g (allowed %.1e)", what, x, got, want, allowed);
}

/* What a sum of these sizes may be off by: the contract's 1e-14 of the largest, more near critical, with room for ten
 * such terms and for the sums made here; and in a strongly pulled tube, whose moments change e-fold over L/n, what the
 * rounding of x itself does, n times 2^-53 for each of ten roundings. */
static double slack(const solved *s)
{
    const rbow_beam *b = &s->beam;
    const double n = sqrt(fabs(b->compression) / b->bending_stiffness) * b->length;
    return 2e-13 / head_room(s) + 10 * n * 0x1p-53;
}

/* A moment that hardly changes along the tube has a slope of nothing but rounding: M/L stands beside it. */
static void same_all_along(const solved *a, const solved *b)
{
    rbow_station most;
    size_of(a, &most);
    const double rel = 5 * slack(a);
    for (int i = 0; i <= 32; i++) {
        const double x = fmin(a->beam.length, a->beam.length * i / 32);
        const rbow_station one = at(a, x), two = at(b, x);
        balance(a, "moment", x, two.moment, one.moment, rel * most.moment);
        balance(a, "its slope", x, two.moment_slope, one.moment_slope,
                rel * (most.moment_slope + most.moment / a->beam.length));
        balance(a, "deflection", x, two.deflection, one.deflection, rel * most.deflection);
        balance(a, "slope", x, two.slope, one.slope, rel * most.slope);
    }
}

static double random_spring(dice *d)
{
    const int kind = dice_below(d, 4);
    if (kind == 0) return 0;
    if (kind == 1) return INFINITY;
    return dice_size(d, 1e-3, 1e3);
}

/* P L^2/EI below critical: gentle, near nothing, nothing, near critical, strong tension. */
static double random_load(dice *d, double critical)
{
    switch (dice_below(d, 8)) {
        case 0: return 0;
        case 1: return dice_size(d, 1e-12, 1e-2) * fmin(1, critical);
        case 2: return -dice_size(d, 1e-12, 1e-2);
        case 3: return critical * (1 - dice_size(d, 1e-4, 0.1));
        case 4: return -dice_size(d, 1, 1e8);
        case 5: return -dice_between(d, 0, 30);
        default: return critical * dice_between(d, 0, 0.99);
    }
}

static rbow_beam random_beam(dice *d)
{
    rbow_beam b = {.bending_stiffness = dice_size(d, 1e2, 1e8), .length = dice_size(d, 0.1, 300)};
    const double unit = b.bending_stiffness / b.length;
    b.stiffness_a = unit * random_spring(d);
    b.stiffness_b = unit * random_spring(d);
    if (b.stiffness_a > 0 && dice_chance(d, 0.2)) b.stiffness_b = RBOW_FREE;
    b.critical_load = critical_of(&b);
    b.compression = random_load(d, b.critical_load * b.length / unit) * unit / b.length;
    b.point_at = b.length * (dice_chance(d, 0.1) ? dice_below(d, 2) : dice_between(d, 0.1, 0.9));
    b.bow_at = b.length * dice_between(d, 0.1, 0.9);
    b.bow_shape = (rbow_bow_shape)dice_below(d, 3);
    return b;
}

static double signed_size(dice *d)
{
    return dice_chance(d, 0.3) ? 0 : dice_between(d, -1, 1);
}

/* Loads that bend about alike: slopes of about 1/100. None on a held joint, which would take it: nothing but rounding
 * would be left to look at (load_on_a_joint does). */
static rbow_loading random_loading(dice *d, const rbow_beam *b)
{
    const double moment = 0.01 * b->bending_stiffness / b->length, l = b->length;
    rbow_loading q = {.moment_a = signed_size(d) * moment, .moment_b = signed_size(d) * moment,
                          .point_load = signed_size(d) * 4 * moment / l, .spread_load = signed_size(d) * 8 * moment / (l * l),
                          .bow = signed_size(d) * 0.01 * l, .slope_a = signed_size(d) * 0.01, .slope_b = signed_size(d) * 0.01};
    if (b->point_at <= 0 || (b->point_at >= l && !is_free(b))) q.point_load = 0;
    return q;
}

START_TEST(bows_act_like_loads)
{
    dice d = {21};
    for (int i = 0; i < 2000; i++) {
        rbow_beam b = random_beam(&d);
        if (is_free(&b)) continue; /* there the push on the bow's end slope comes on top */
        const double bow = 0.01 * b.length, p = b.compression, a = b.bow_at;
        b.bow_shape = RBOW_BOW_ARC;
        const solved arc = solve(b, (rbow_loading){.bow = bow});
        const solved spread = solve(b, (rbow_loading){.spread_load = 8 * p * bow / (b.length * b.length)});
        same_all_along(&spread, &arc);
        b.bow_shape = RBOW_BOW_KINK;
        b.point_at = a;
        const solved kink = solve(b, (rbow_loading){.bow = bow});
        const solved point = solve(b, (rbow_loading){.point_load = p * bow * (1 / a + 1 / (b.length - a))});
        same_all_along(&point, &kink);
    }
}
END_TEST

/* A half-wave bow of a pinned tube grows by 1/(1 - P/P_E) (Timoshenko & Gere, ch. 1, from memory). */
START_TEST(half_wave_bow)
{
    for (double load = -30; load < 0.9999; load += load < 0.9 ? 0.0999 : 0.00501) {
        const double bow = 0.07, rest = 1 - load, p = load * pi * pi * EI / (L * L);
        const solved s = solve(plain(load * pi * pi, 0, 0), (rbow_loading){.bow = bow});
        for (int i = 0; i <= 10; i++) {
            const double x = L * i / 10, sine = sin(pi * i / 10);
            near_within(at(&s, x).deflection + bow * sine, bow / rest * sine, 0, 1e-13 / fmin(1, rest) * bow / rest);
            near_within(at(&s, x).moment, p * bow / rest * sine, 0, 1e-13 / fmin(1, rest) * fabs(p) * bow / rest);
        }
    }
}
END_TEST

/* ---- random beams: statics, curvature, end rules ---------------------------------------------------- */

static double bow_at(const solved *s, double x)
{
    const double l = s->beam.length, k = s->beam.bow_at, bow = s->loading.bow;
    switch (s->beam.bow_shape) {
        case RBOW_BOW_SINE: return bow * sin(pi * x / l);
        case RBOW_BOW_ARC: return 4 * bow * x * (l - x) / (l * l);
        default: return x < k ? bow * x / k : bow * (l - x) / (l - k);
    }
}

static double bow_slope(const solved *s, double x)
{
    const double l = s->beam.length, k = s->beam.bow_at, bow = s->loading.bow;
    switch (s->beam.bow_shape) {
        case RBOW_BOW_SINE: return pi * bow / l * cos(pi * x / l);
        case RBOW_BOW_ARC: return 4 * bow * (l - 2 * x) / (l * l);
        default: return x < k ? bow / k : -bow / (l - k);
    }
}

/* Cut at x: M(x) = M(0) + V x + P (v + y0) - q x^2/2 - F (x - a), where V is the side force of A. No stiffness in it. */
static void check_cuts(const solved *s, const rbow_station *most)
{
    const rbow_beam *b = &s->beam;
    const double p = b->compression, q = s->loading.spread_load, f = s->loading.point_load, l = b->length;
    const rbow_station a = at(s, 0);
    const bool at_start = b->point_at <= 0;
    const double v = a.moment_slope + (at_start ? f : 0) - p * (a.slope + bow_slope(s, 0));
    const double scale = most->moment + fabs(p) * (most->deflection + fabs(s->loading.bow) + most->slope * l)
        + fabs(q) * l * l + fabs(f) * l;
    for (int i = 0; i <= 24; i++) {
        const double x = fmin(l, l * i / 24), past = fmax(0, x - b->point_at);
        const rbow_station here = at(s, x);
        const double want = a.moment + v * x + p * (here.deflection + bow_at(s, x)) - q * x * x / 2 - f * past;
        balance(s, "moment of the cut", x, here.moment, want, slack(s) * scale);
        const bool beyond = x >= b->point_at && x < l;
        const double shear = v + p * (here.slope + bow_slope(s, x)) - q * x - (beyond ? f : 0);
        const bool on_step = fabs(x - b->point_at) < 1e-9 * l || fabs(x - b->bow_at) < 1e-9 * l || x >= l;
        if (!on_step) balance(s, "shear of the cut", x, here.moment_slope, shear, slack(s) * scale / l);
    }
    if (is_free(b)) balance(s, "side force of the root", 0, v, q * l + f, slack(s) * scale / l);
}

static double share_of_spring(const rbow_beam *b, double stiffness)
{
    return isinf(stiffness) ? 1 : stiffness * b->length / b->bending_stiffness / (1 + stiffness * b->length / b->bending_stiffness);
}

/* The joints' rules, weighted so that a fixed end is one too. */
static void check_ends(const solved *s, const rbow_station *most)
{
    const rbow_beam *b = &s->beam;
    const double unit = b->bending_stiffness / b->length, l = b->length;
    const rbow_station a = at(s, 0), e = at(s, l);
    const double ra = share_of_spring(b, b->stiffness_a), rb = is_free(b) ? 0 : share_of_spring(b, b->stiffness_b);
    const double allowed = slack(s) * (most->moment + unit * (most->slope + 0.02));
    balance(s, "rule of A", 0, (1 - ra) * (a.moment - s->loading.moment_a) + ra * unit * (a.slope - s->loading.slope_a), 0,
            allowed);
    balance(s, "rule of B", l, (1 - rb) * (e.moment - s->loading.moment_b) - rb * unit * (e.slope + s->loading.slope_b), 0,
            allowed);
    balance(s, "A is held", 0, a.deflection, 0, 0);
    if (!is_free(b)) {
        balance(s, "B is held", l, e.deflection, 0, slack(s) * (most->deflection + 1e-3 * l));
        return;
    }
    const double push = b->compression * (e.slope + bow_slope(s, l));
    const double force = b->point_at >= l ? s->loading.point_load : 0;
    balance(s, "side force of free B", l, e.moment_slope - push, force,
            slack(s) * (most->moment / l + most->moment_slope + fabs(push) + fabs(b->compression) * most->slope
                        + fabs(force)));
}

/* EI v'' = -M, as the two integrals over a stretch without a load inside: the deflections know of the moments. */
static void check_curvature(const solved *s, const rbow_station *most, double from, double to,
                            const gsl_integration_glfixed_table *rule)
{
    double turned = 0, moved = 0;
    for (size_t i = 0; i < rule->n; i++) {
        double x, weight;
        gsl_integration_glfixed_point(from, to, i, &x, &weight, rule);
        const double curvature = -at(s, x).moment / s->beam.bending_stiffness;
        turned += weight * curvature;
        moved += weight * curvature * (to - x);
    }
    const rbow_station left = at(s, from), right = at(s, to);
    const double slope = most->slope + most->moment * (to - from) / s->beam.bending_stiffness;
    balance(s, "turn", to, right.slope - left.slope, turned, slack(s) * slope);
    balance(s, "move", to, right.deflection - left.deflection - left.slope * (to - from), moved,
            slack(s) * (most->deflection + slope * s->beam.length));
}

static double next_break(const rbow_beam *b, double from)
{
    double to = b->length;
    if (b->point_at > from) to = fmin(to, b->point_at);
    if (b->bow_at > from) to = fmin(to, b->bow_at);
    return to;
}

static void check_curvatures(const solved *s, const rbow_station *most, dice *d, const gsl_integration_glfixed_table *rule)
{
    const rbow_beam *b = &s->beam;
    const double wave = sqrt(fabs(b->compression) / b->bending_stiffness) + pi / b->length;
    const double places[] = {0, b->bow_at, b->point_at, b->length * (1 - 1e-4), dice_between(d, 0, b->length),
                             dice_between(d, 0, b->length), dice_between(d, 0, b->length)};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        const double from = places[i], to = fmin(next_break(b, from), from + dice_between(d, 0.01, 1) / wave);
        if (from < to) check_curvature(s, most, from, to, rule);
    }
}

static void check_beam(const solved *s, dice *d, const gsl_integration_glfixed_table *rule)
{
    rbow_station most;
    size_of(s, &most);
    check_cuts(s, &most);
    check_ends(s, &most);
    check_curvatures(s, &most, d, rule);
}

START_TEST(random_beams_obey_statics_and_curvature)
{
    dice d = {22};
    gsl_integration_glfixed_table *rule = gsl_integration_glfixed_table_alloc(12);
    for (int i = 0; i < 20000; i++) {
        const rbow_beam b = random_beam(&d);
        const solved s = solve(b, random_loading(&d, &b));
        check_beam(&s, &d, rule);
    }
    gsl_integration_glfixed_table_free(rule);
}
END_TEST

/* The equation itself, M'' = -(P/EI) M - q + P y0'', by central differences. */
START_TEST(finite_differences)
{
    dice d = {23};
    for (int i = 0; i < 2000; i++) {
        rbow_beam b = random_beam(&d);
        if (b.bow_shape == RBOW_BOW_KINK) b.bow_shape = RBOW_BOW_SINE;
        if (b.compression * b.length * b.length / b.bending_stiffness < -1e3) continue;
        rbow_loading load = random_loading(&d, &b);
        load.point_load = 0;
        const solved s = solve(b, load);
        const double l = b.length, h = 2e-3 * l, bow = b.bow_shape == RBOW_BOW_ARC ? -8 / (l * l) : 0;
        rbow_station most;
        size_of(&s, &most);
        for (double x = 0.05 * l; x < 0.95 * l; x += 0.1 * l) {
            const double second = (at(&s, x + h).moment - 2 * at(&s, x).moment + at(&s, x - h).moment) / (h * h);
            const double y0 = b.bow_shape == RBOW_BOW_SINE ? -pow(pi / l, 2) * sin(pi * x / l) : bow;
            const double want = b.compression * (-at(&s, x).moment / b.bending_stiffness + load.bow * y0) - load.spread_load;
            const double scale = most.moment + fabs(b.compression * load.bow) + fabs(load.spread_load) * l * l;
            const double z = fabs(b.compression) * l * l / b.bending_stiffness + 10;
            /* h^2/12 of the fourth derivative, z^2 in shares of the length */
            balance(&s, "M''", x, second, want, scale / (l * l) * (h * h / (l * l) / 12 * z * z + 1e-8 / head_room(&s)));
        }
    }
}
END_TEST

/* ---- both sides of every switch --------------------------------------------------------------------- */

static rbow_beam at_load(rbow_beam b, double z)
{
    b.compression = z * b.bending_stiffness / (b.length * b.length);
    return b;
}

static void one_step_apart(dice *d, double z, double step, bool stiff)
{
    rbow_beam b = random_beam(d);
    b.bending_stiffness = EI; /* plain numbers, so that z is met to an ulp */
    b.length = 16;
    const double unit = b.bending_stiffness / b.length;
    b.stiffness_a = stiff ? unit * dice_size(d, 50, 1e5) : unit * random_spring(d);
    b.stiffness_b = stiff ? unit * dice_size(d, 50, 1e5) : unit * random_spring(d);
    b.point_at = 5;
    b.bow_at = 9;
    b.critical_load = critical_of(&b);
    if (b.critical_load < 1.02 * z * unit / b.length) return;
    const rbow_loading load = random_loading(d, &b);
    const solved below = solve(at_load(b, z - step), load), above = solve(at_load(b, z + step), load);
    same_all_along(&below, &above);
}

START_TEST(both_sides_of_every_switch)
{
    dice d = {24};
    for (int i = 0; i < 3000; i++) {
        one_step_apart(&d, -9, 9 * 1e-15, false); /* the two forms of tension */
        one_step_apart(&d, 2, 2e-15, false);      /* series and closed form   */
        one_step_apart(&d, -2, 2e-15, false);
        one_step_apart(&d, 8, 8e-15, true); /* the same at half the length */
        one_step_apart(&d, pi * pi / 2, 5e-15, false); /* the two forms of the half-wave bow */
        one_step_apart(&d, pi * pi / 2, 5e-15, true);
        one_step_apart(&d, pi * pi, 1e-14, true); /* the half wave's own resonance */
        one_step_apart(&d, pi * pi, 0, true);
    }
}
END_TEST

/* Values at P = +-1e-12 P_E (or P_cr, if that is less) lie on a straight line through those at exactly 0: what a push
 * adds, a pull takes, but for 1e-24. */
static void straight_through_zero(const rbow_beam *b, const rbow_loading *load)
{
    const solved none = solve(at_load(*b, 0), *load);
    const double z = 1e-12 * fmin(10, none.beam.critical_load * b->length * b->length / b->bending_stiffness);
    const solved push = solve(at_load(*b, z), *load), pull = solve(at_load(*b, -z), *load);
    rbow_station most;
    size_of(&none, &most);
    const double bow = (fabs(load->bow) + most.deflection) / b->length * 10 * z, unit = b->bending_stiffness / b->length;
    for (int i = 0; i <= 16; i++) {
        const double x = fmin(b->length, b->length * i / 16);
        const rbow_station here = at(&none, x), more = at(&push, x), less = at(&pull, x);
        const double moment = 1e-12 * (most.moment + bow * unit);
        const double moved = 1e-12 * (most.deflection + bow * b->length);
        balance(&none, "moment", x, (more.moment + less.moment) / 2, here.moment, moment);
        balance(&none, "its slope", x, (more.moment_slope + less.moment_slope) / 2, here.moment_slope,
                moment / b->length + 1e-12 * most.moment_slope);
        balance(&none, "deflection", x, (more.deflection + less.deflection) / 2, here.deflection, moved);
        balance(&none, "slope", x, (more.slope + less.slope) / 2, here.slope, moved / b->length + 1e-12 * most.slope);
        balance(&none, "moment of a push", x, more.moment, here.moment, 1e-10 * most.moment + bow * unit);
        balance(&none, "deflection of a push", x, more.deflection, here.deflection,
                1e-10 * most.deflection + bow * b->length);
    }
}

START_TEST(through_zero)
{
    dice d = {25};
    for (int i = 0; i < 3000; i++) {
        const rbow_beam b = random_beam(&d);
        const rbow_loading load = random_loading(&d, &b);
        straight_through_zero(&b, &load);
    }
}
END_TEST

/* z = pi^2 (1 + t): a smooth path through resonance and far into it, by statics and curvature. */
START_TEST(around_the_half_wave)
{
    dice d = {26};
    gsl_integration_glfixed_table *rule = gsl_integration_glfixed_table_alloc(12);
    for (int power = -16; power <= -1; power++)
        for (int i = 0; i < 40; i++) {
            rbow_beam b = random_beam(&d);
            const double unit = b.bending_stiffness / b.length, away = pow(10, power) * (i % 2 ? 1 : -1);
            b.stiffness_a = unit * dice_size(&d, 5, 1e4);
            b.stiffness_b = i % 3 ? unit * dice_size(&d, 5, 1e4) : 0;
            b.bow_shape = RBOW_BOW_SINE;
            const solved s = solve(at_load(b, pi * pi * (1 + away)), random_loading(&d, &b));
            check_beam(&s, &d, rule);
        }
    gsl_integration_glfixed_table_free(rule);
}
END_TEST

/* ---- near critical and far in tension --------------------------------------------------------------- */

/* The bend grows as 1/(1 - P/P_cr): the product settles as critical is approached. */
START_TEST(just_below_critical)
{
    dice d = {27};
    for (int i = 0; i < 500; i++) {
        rbow_beam b = random_beam(&d);
        b.critical_load = critical_of(&b);
        const rbow_loading load = {.spread_load = b.bending_stiffness / pow(b.length, 3), .slope_a = 0.01};
        double product[2];
        for (int k = 0; k < 2; k++) {
            const double gap = k == 0 ? 1e-5 : 1e-7;
            b.compression = b.critical_load * (1 - gap);
            const solved s = solve(b, load);
            rbow_station most;
            size_of(&s, &most);
            product[k] = most.deflection * gap;
        }
        near_within(product[1], product[0], 2e-4, 0);
    }
}
END_TEST

/* A pulled tube, n = L sqrt(T/EI) up to 1e4. By hand (derived from cosh and sinh of the half length):
 *     central load     M = F L tanh(n/2)/(2n)          deflection F L/(4T) (1 - tanh(n/2)/(n/2))
 *     spread load      M = q L^2 (1 - 1/cosh(n/2))/n^2
 *     turned fixed end M = (EI/L) n (n - tanh n)/(tanh n (n - 2 tanh(n/2))) */
START_TEST(strong_tension)
{
    for (double n = 1; n <= 1.0001e4; n *= 1.7) {
        const double t = tanh(n / 2), z = -n * n, pull = n * n * EI / (L * L);
        const solved point = solve(plain(z, 0, 0), (rbow_loading){.point_load = 50});
        const solved spread = solve(plain(z, 0, 0), (rbow_loading){.spread_load = 3});
        const solved turned = solve(plain(z, INFINITY, INFINITY), (rbow_loading){.slope_a = 0.01});
        near_within(at(&point, L / 2).moment, 50 * L * t / (2 * n), 1e-12, 0);
        near_within(at(&point, L / 2).deflection, 50 * L / (4 * pull) * (1 - 2 * t / n), 1e-12, 1e-13 * 50 * L / pull);
        near_within(at(&spread, L / 2).moment, 3 * L * L * (1 - 1 / cosh(fmin(n / 2, 700))) / (n * n), 1e-12, 0);
        if (n > 3)
            near_within(at(&turned, 0).moment, 0.01 * EI / L * n * (n - tanh(n)) / (tanh(n) * (n - 2 * t)), 1e-11, 0);
    }
}
END_TEST

/* ---- symmetry and superposition --------------------------------------------------------------------- */

START_TEST(mirrored)
{
    dice d = {28};
    for (int i = 0; i < 3000; i++) {
        const rbow_beam b = random_beam(&d);
        if (is_free(&b)) continue;
        const rbow_loading q = random_loading(&d, &b);
        rbow_beam back = b;
        back.stiffness_a = b.stiffness_b;
        back.stiffness_b = b.stiffness_a;
        back.point_at = b.length - b.point_at;
        back.bow_at = b.length - b.bow_at;
        rbow_loading turned = q;
        turned.moment_a = q.moment_b;
        turned.moment_b = q.moment_a;
        turned.slope_a = q.slope_b;
        turned.slope_b = q.slope_a;
        const solved one = solve(b, q), two = solve(back, turned);
        rbow_station most;
        size_of(&one, &most);
        const double rel = 5 * slack(&one);
        for (double share = 0.013; share < 1; share += 0.0917) {
            const rbow_station here = at(&one, share * b.length), there = at(&two, (1 - share) * b.length);
            balance(&one, "mirrored moment", share, there.moment, here.moment, rel * most.moment);
            balance(&one, "mirrored shear", share, there.moment_slope, -here.moment_slope, rel * most.moment_slope);
            balance(&one, "mirrored deflection", share, there.deflection, here.deflection, rel * most.deflection);
            balance(&one, "mirrored slope", share, there.slope, -here.slope, rel * most.slope);
        }
    }
}
END_TEST

static rbow_loading sum_of(const rbow_loading *a, double share, const rbow_loading *b)
{
    return (rbow_loading){a->moment_a + share * b->moment_a,       a->moment_b + share * b->moment_b,
                          a->point_load + share * b->point_load,   a->spread_load + share * b->spread_load,
                          a->bow + share * b->bow,                 a->slope_a + share * b->slope_a,
                          a->slope_b + share * b->slope_b};
}

START_TEST(superposed_at_fixed_load)
{
    dice d = {29};
    for (int i = 0; i < 3000; i++) {
        const rbow_beam b = random_beam(&d);
        const rbow_loading first = random_loading(&d, &b), second = random_loading(&d, &b);
        const double share = dice_between(&d, -2, 2);
        const solved one = solve(b, first), two = solve(b, second), both = solve(b, sum_of(&first, share, &second));
        rbow_station most[2];
        size_of(&one, &most[0]);
        size_of(&two, &most[1]);
        for (double x = 0; x <= b.length; x += b.length / 9) {
            const rbow_station p = at(&one, x), q = at(&two, x), r = at(&both, x);
            const double rel = 5 * slack(&one);
            balance(&both, "sum of moments", x, r.moment, p.moment + share * q.moment,
                    rel * (most[0].moment + 2 * most[1].moment));
            balance(&both, "sum of deflections", x, r.deflection, p.deflection + share * q.deflection,
                    rel * (most[0].deflection + 2 * most[1].deflection));
        }
    }
}
END_TEST

/* A held joint takes the load that acts on it; a free end feels it. */
START_TEST(load_on_a_joint)
{
    for (int end = 0; end < 2; end++) {
        rbow_beam b = plain(1.5, EI / L, INFINITY);
        b.point_at = end * L;
        const solved s = solve(b, (rbow_loading){.point_load = 100});
        rbow_station most;
        near_within(size_of(&s, &most), 0, 0, 1e-9);
        near_within(most.deflection, 0, 0, 1e-15);
    }
    rbow_beam b = plain(0, INFINITY, RBOW_FREE);
    b.point_at = L;
    const solved s = solve(b, (rbow_loading){.point_load = 100});
    near_within(at(&s, L).deflection, 100 * L * L * L / (3 * EI), 1e-13, 0); /* any text (from memory) */
    near_within(at(&s, 0).moment, -100 * L, 1e-13, 0);
}
END_TEST

/* ---- statuses --------------------------------------------------------------------------------------- */

START_TEST(at_and_above_critical)
{
    rbow_prepared p;
    rbow_beam b = plain(0, 0, 0);
    b.critical_load = critical_of(&b);
    const double factors[] = {1, 1 + 1e-15, 1.5, 100};
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++) {
        b.compression = factors[i] * b.critical_load;
        ck_assert_int_eq(rbow_beam_prepare(&b, &p), RBOW_UNSTABLE);
    }
    b.compression = nextafter(b.critical_load, 0);
    ck_assert_int_eq(rbow_beam_prepare(&b, &p), RBOW_OK);
}
END_TEST

START_TEST(refused_beams)
{
    static const double bad[] = {-1, NAN, -INFINITY};
    rbow_prepared p;
    rbow_beam b = plain(1, 1e4, 1e4);
    b.critical_load = critical_of(&b);
    ck_assert_int_eq(rbow_beam_prepare(&b, &p), RBOW_OK);
    double *const fields[] = {&b.bending_stiffness, &b.length, &b.critical_load, &b.stiffness_a,
                              &b.stiffness_b,       &b.point_at, &b.bow_at};
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
        for (size_t k = 0; k < sizeof bad / sizeof *bad; k++) {
            const double kept = *fields[i];
            *fields[i] = bad[k];
            ck_assert_int_eq(rbow_beam_prepare(&b, &p), RBOW_OUT_OF_RANGE);
            *fields[i] = kept;
        }
    const struct {
        double *field, value;
    } more[] = {{&b.bending_stiffness, 0}, {&b.length, 0},          {&b.critical_load, 0},   {&b.compression, NAN},
                {&b.compression, INFINITY}, {&b.compression, -INFINITY}, {&b.point_at, L * 1.001}, {&b.bow_at, 0},
                {&b.bow_at, L},            {&b.stiffness_a, RBOW_FREE}, {&b.stiffness_a, RBOW_WELDED}, {&b.stiffness_b, RBOW_WELDED}};
    for (size_t i = 0; i < sizeof more / sizeof *more; i++) {
        const double kept = *more[i].field;
        *more[i].field = more[i].value;
        ck_assert_int_eq(rbow_beam_prepare(&b, &p), RBOW_OUT_OF_RANGE);
        *more[i].field = kept;
    }
    b.stiffness_a = 0;
    b.stiffness_b = RBOW_FREE;
    ck_assert_int_eq(rbow_beam_prepare(&b, &p), RBOW_OUT_OF_RANGE); /* nothing holds it */
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, timoshenko_amplification);
    tcase_add_test(cases, livesley_chandler);
    tcase_add_test(cases, stability_functions);
    tcase_add_test(cases, sarkar_spread_load);
    tcase_add_test(cases, beams_without_axial_load);
    tcase_add_test(cases, locked_in_moments);
    tcase_add_test(cases, springs_share_the_miss);
    tcase_add_test(cases, bows_act_like_loads);
    tcase_add_test(cases, half_wave_bow);
    tcase_add_test(cases, random_beams_obey_statics_and_curvature);
    tcase_add_test(cases, finite_differences);
    tcase_add_test(cases, both_sides_of_every_switch);
    tcase_add_test(cases, through_zero);
    tcase_add_test(cases, around_the_half_wave);
    tcase_add_test(cases, just_below_critical);
    tcase_add_test(cases, strong_tension);
    tcase_add_test(cases, mirrored);
    tcase_add_test(cases, superposed_at_fixed_load);
    tcase_add_test(cases, load_on_a_joint);
    tcase_add_test(cases, at_and_above_critical);
    tcase_add_test(cases, refused_beams);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("mechanics/beamcolumn", fill);
}
