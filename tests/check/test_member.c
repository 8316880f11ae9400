/* The check of one member: published examples, values by hand, and the states at its edges. */
#include "members.h"

#include <gsl/gsl_errno.h>

static const double pi = 3.14159265358979323846;

/* A steel in other units: the formulas take any coherent set (N, mm, MPa here). */
static rbow_material metric(double modulus, double yield)
{
    rbow_material k = steel;
    k.elastic_modulus = modulus;
    k.density = 1e-9;
    k.yield = k.compression_yield = k.weld_yield = k.column_intercept = yield;
    return k;
}

/* ---- published examples ----------------------------------------------------------------------------- */

/* Gere & Goodno, Mechanics of Materials, 7th ed., 11.6-4 (read): 68/60 mm, L 2.1 m, pinned, P 10 kN, e 30 mm, E 210 GPa:
 * 38.8 MPa; 50 MPa is reached at a length of 5.03 m. */
START_TEST(gere_eccentric_column)
{
    const rbow_material k = metric(210e3, 250);
    rbow_member m = tube_of(68, 4, 2100);
    m.compression = 10e3;
    m.eccentricity = 30;
    near_within(check(&m, &k).peak_stress, 38.8, 0, 0.05);
    m.length = 5025;
    ck_assert_double_lt(check(&m, &k).peak_stress, 50);
    m.length = 5035;
    ck_assert_double_gt(check(&m, &k).peak_stress, 50);
}
END_TEST

/* Sarkar, Strength of Materials, 9.8 (read): 38/35 mm, L 1.5 m, pinned, P 20 kN, e 2 mm, E 210 GPa: 246.79 MPa. */
START_TEST(sarkar_eccentric_column)
{
    const rbow_material k = metric(210e3, 300);
    rbow_member m = tube_of(38, 1.5, 1500);
    m.compression = 20e3;
    m.eccentricity = 2;
    m.eccentricity_clock = 1; /* any */
    const rbow_result r = check(&m, &k);
    near_within(r.peak_stress, 246.79, 0, 5e-3);
    near_within(r.peak_moment_at, 750, 0, 1e-3);
}
END_TEST

/* Gere & Goodno, 7th ed., 11.4-2 (read): 40/36 mm, L 1.2 m, E 210 GPa; N. */
START_TEST(gere_column_ends)
{
    static const struct {
        double a, b, want, half;
    } ends[] = {{RBOW_PINNED, RBOW_PINNED, 62.2e3, 50},
                {RBOW_FIXED, RBOW_FREE, 15.6e3, 50},
                {RBOW_FIXED, RBOW_PINNED, 127e3, 500},
                {RBOW_FIXED, RBOW_FIXED, 249e3, 500}};
    const rbow_material k = metric(210e3, 250);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        rbow_member m = tube_of(40, 2, 1200);
        m.end_a = ends[i].a;
        m.end_b = ends[i].b;
        near_within(check(&m, &k).critical_load, ends[i].want, 0, ends[i].half);
    }
}
END_TEST

/* Junnarkar, Mechanics of Structures, ch. 9 ex. 11 (read): l/k 72.707, eta 0.21812, yield 18, E 13 000 ton/in^2: failing
 * stress 12.437 ton/in^2. The formula is a pinned column with a half-wave bow of eta k^2/c; any tube of that slenderness. */
START_TEST(junnarkar_failing_stress)
{
    const rbow_material k = metric(13000, 18);
    rbow_section s;
    rbow_section_of(8, 0.5, &s);
    rbow_member m = tube_of(8, 0.5, 72.707 * s.radius);
    m.bow = 0.21812 * s.radius * s.radius / (m.od / 2);
    m.compression = s.area;
    near_within(check(&m, &k).yield_factor, 12.437, 0, 5e-4);
}
END_TEST

/* Case, Chilver & Ross, Strength of Materials and Structures, eq. 18.32 (derived): first yield of 1.25 x .049 in, pinned,
 * with a half-wave bow of 0.030 in per 36 in of length. Upside down in any plane. */
START_TEST(perry_first_yield)
{
    static const double points[][2] = {{20, 12383}, {30, 8947}, {40, 5518}};
    for (int i = 0; i < 3; i++) {
        rbow_member m = tube_of(1.25, 0.049, points[i][0]);
        m.bow = 0.030 * m.length / 36;
        m.bow_clock = i;
        m.compression = 1000;
        const rbow_result r = check(&m, &steel);
        near_within(r.yield_factor * 1000, points[i][1], 0, 0.5);
        ck_assert(r.governs == RBOW_BY_COLUMN ? isnan(r.governs_at) : fabs(r.governs_at - m.length / 2) < 1e-6);
    }
}
END_TEST

/* Gere & Goodno, 7th ed., example 3.6 (read): 80/60 mm, 4000 N m: 58.2 MPa. The equivalent stress is sqrt 3 times that. */
START_TEST(gere_torsion)
{
    const rbow_material k = metric(200e3, 250);
    rbow_member m = tube_of(80, 10, 1000);
    m.torque = 4e6;
    near_within(check(&m, &k).peak_stress / sqrt(3.0), 58.2, 0, 0.05);
    m.torque = -4e6;
    near_within(check(&m, &k).peak_stress / sqrt(3.0), 58.2, 0, 0.05);
}
END_TEST

/* Beer & Johnston, Mechanics of Materials, 7.24 (read): 102 x 6 mm, torque 2000 N m with a moment of 1500 N m: bending stress
 * 36.56, shear 24.37, largest shear 30.46 MPa. The quotient is 36.5547: the book rounds on its way to 36.56, so a unit of the
 * last digit there. */
START_TEST(beer_johnston_torsion_and_bending)
{
    const rbow_material k = metric(200e3, 250);
    rbow_member m = tube_of(102, 6, 1000);
    m.moment_a = m.moment_b = 1.5e6;
    const double bent = check(&m, &k).peak_stress;
    m.torque = 2e6;
    const double both = check(&m, &k).peak_stress;
    m.moment_a = m.moment_b = 0;
    const double twisted = check(&m, &k).peak_stress / sqrt(3.0);
    near_within(bent, 36.56, 0, 1e-2);
    near_within(twisted, 24.37, 0, 5e-3);
    near_within(hypot(bent / 2, twisted), 30.46, 0, 5e-3);
    near_within(both, hypot(bent, sqrt(3.0) * twisted), 1e-12, 0);
}
END_TEST

/* AISC Design Examples v14, E.11 (from memory, recomputed): pipe A 11.5 in^2, r 3.68 in, Fy 35 ksi, KL 30 ft: Pn 247 kip. A
 * tube of these A and r: mean diameter m and wall t with pi m t = A, m^2 + t^2 = 8 r^2. */
START_TEST(aisc_pipe)
{
    double mean = 10, wall = 0.5;
    for (int i = 0; i < 60; i++) {
        wall = 11.5 / (pi * mean);
        mean = sqrt(8 * 3.68 * 3.68 - wall * wall);
    }
    rbow_material k = metric(29e3, 35);
    k.column_curve = RBOW_CURVE_AISC;
    rbow_member m = tube_of(mean + wall, wall, 360);
    m.compression = 100;
    const rbow_result r = check(&m, &k);
    near_within(r.section.area, 11.5, 1e-12, 0);
    near_within(r.slenderness, 97.8, 0, 0.05);
    near_within(r.column_stress, 21.4, 0, 0.05);
    near_within(r.column_load, 247, 0, 0.5);
    near_within(r.column_factor * 100, r.column_load, 1e-14, 0);
}
END_TEST

/* Weight by hand: 1.25 x .049, 0.18488 in^2 x 0.283 lb/in^3 x 36 in. */
START_TEST(weight)
{
    const rbow_member m = tube_of(1.25, 0.049, 36);
    near_within(check(&m, &steel).weight, 1.8836, 0, 5e-5);
}
END_TEST

/* Own weight on a pinned tube that slopes: w L^2/8 cos(slope), downward (any text, from memory). */
START_TEST(own_weight)
{
    rbow_member m = tube_of(1.25, 0.049, 80);
    m.vertical_g = 3;
    m.slope = 0.7;
    const rbow_result r = check(&m, &steel);
    near_within(r.peak_moment, r.weight * 3 * cos(0.7) * 80 / 8, 1e-12, 0);
    near_within(r.deflection_clock, pi, 1e-12, 0);
    m.vertical_g = -3;
    near_within(check(&m, &steel).deflection_clock, 0, 0, 1e-12);
}
END_TEST

/* Two planes add as vectors: 3 and 4 give 5. */
START_TEST(two_planes)
{
    rbow_member m = tube_of(1.25, 0.049, 40);
    m.spread_load = 3;
    m.spread_clock = 0;
    m.point_load = 4 * 40.0 / 2; /* the same moment in the middle as 4 spread */
    m.point_clock = pi / 2;
    const rbow_result r = check(&m, &steel);
    near_within(r.peak_moment, 5 * 40.0 * 40.0 / 8, 1e-12, 0);
    near_within(r.peak_moment_at, 20, 0, 1e-7 * 40);
}
END_TEST

/* Locked-in moments and forces by hand (any structures text, from memory): 3EI miss/L^2 at a fixed A, B pinned; gap EA/L; with
 * surroundings as soft as the tube, half of it. */
START_TEST(forced_fit_by_hand)
{
    rbow_member m = tube_of(1.25, 0.049, 30);
    m.end_a = RBOW_FIXED;
    m.miss_a = 0.1;
    rbow_result r = check(&m, &steel);
    near_within(r.fit_moment, 3 * 29e6 * r.section.inertia * 0.1 / 900, 1e-12, 0);
    near_within(r.fit_stress, r.fit_moment / r.section.section_modulus, 1e-12, 0);
    near_within(r.fit_axial, 0, 0, 0);
    m.miss_a = 0;
    m.gap = 0.01;
    r = check(&m, &steel);
    near_within(r.fit_axial, -29e6 * r.section.area / 30 * 0.01, 1e-12, 0);
    near_within(r.fit_stress, 29e6 / 30 * 0.01, 1e-12, 0);
    m.gap_stiffness = 29e6 * r.section.area / 30;
    near_within(check(&m, &steel).fit_axial, r.fit_axial / 2, 1e-12, 0);
}
END_TEST

/* A pulled straight tube: A x yield; a tube at the column curve; bending alone: S x yield. */
START_TEST(factors_by_hand)
{
    rbow_member m = tube_of(1.25, 0.049, 20);
    m.compression = -1000;
    rbow_result r = check(&m, &steel);
    near_within(r.yield_factor, 75e3 * r.section.area / 1000, 1e-9, 0);
    ck_assert(isinf(r.column_factor) && isinf(r.interaction_factor));
    near_within(r.margin, r.yield_factor / 1.5 - 1, 1e-12, 0);
    ck_assert_int_eq(r.governs, RBOW_BY_YIELD);

    m.compression = 1000; /* straight: nothing but the column */
    r = check(&m, &steel);
    near_within(r.column_factor, r.column_load / 1000, 1e-14, 0);
    near_within(r.interaction_factor, r.column_factor, 1e-9, 0);
    ck_assert_int_eq(r.governs, RBOW_BY_COLUMN);
    ck_assert(isnan(r.governs_at));

    m.compression = 0;
    m.moment_a = m.moment_b = 1000;
    r = check(&m, &steel);
    near_within(r.yield_factor, 75e3 * r.section.section_modulus / 1000, 1e-9, 0);
    near_within(r.peak_moment_at, 0, 0, 0); /* all alike: nearest to A */
}
END_TEST

/* Handbooks' Rc + sqrt(Rb^2 + Rst^2) = 1 with bending that does not grow with the push: end moments on a fixed tube are idle,
 * so the torque stands alone: lambda (P/column load + sqrt 3 tau/Fc) = 1. */
START_TEST(interaction_by_hand)
{
    rbow_member m = tube_of(1.5, 0.065, 30);
    m.compression = 2000;
    m.torque = 1500;
    const rbow_result r = check(&m, &steel);
    const double tau = 1500 * 0.75 / r.section.polar_inertia;
    near_within(r.interaction_factor, 1 / (2000 / r.column_load + sqrt(3.0) * tau / 75e3), 1e-9, 0);
    const double use = hypot(2000 / r.section.area, sqrt(3.0) * tau) / 75e3;
    near_within(r.stress_use, use, 1e-12, 0);
    near_within(r.yield_factor, 1 / use, 1e-9, 0);
}
END_TEST

/* In the weld zone the dressed section and the weld's yield count. */
START_TEST(weld_zone_by_hand)
{
    rbow_member m = tube_of(1.25, 0.065, 30);
    m.end_a = RBOW_FIXED;
    m.end_b = RBOW_FREE;
    m.moment_b = 1000;
    m.weld_zone = 1;
    m.dressed = 0.01;
    const rbow_result r = check(&m, &steel);
    rbow_section dressed;
    rbow_section_of(1.23, 0.055, &dressed);
    near_within(r.stress_use, 1000 / dressed.section_modulus / 60e3, 1e-12, 0);
    near_within(r.peak_stress, 1000 / dressed.section_modulus, 1e-12, 0);
    ck_assert_int_eq(r.governs_in_weld_zone, 1);
    near_within(r.governs_at, 0, 0, 0);
    m.end_a = RBOW_PINNED;
    m.end_b = RBOW_FIXED; /* now B's zone has 500, the tube by A 1000: 1000/75 beats 500/60 only in plain section */
    m.moment_a = 1000;
    m.moment_b = 0;
    m.weld_zone = 0;
    near_within(check(&m, &steel).stress_use, 1000 / r.section.section_modulus / 75e3, 1e-12, 0);
}
END_TEST

/* ---- states at the edges ---------------------------------------------------------------------------- */

START_TEST(nothing_runs)
{
    rbow_member m = sound();
    m.compression = 0;
    m.bow = 0.1;
    m.eccentricity = 0.5; /* of no push */
    rbow_result r = check(&m, &steel);
    ck_assert(isinf(r.yield_factor) && isinf(r.column_factor) && isinf(r.interaction_factor) && isinf(r.margin));
    ck_assert(isinf(r.margin_unforced) && r.margin > 0);
    ck_assert_int_eq(r.governs, RBOW_BY_NONE);
    ck_assert_int_eq(r.verdict, RBOW_HOLDS);
    ck_assert(isnan(r.governs_at) && isnan(r.deflection_clock));
    near_within(r.deflection, 0, 0, 0);
    near_within(r.stress_use, 0, 0, 0);
    m.bow = 0;
    m.gap = 0.07; /* 67 667 psi, held */
    r = check(&m, &steel);
    ck_assert(isinf(r.yield_factor) && isinf(r.margin));
    near_within(r.fit_stress, 29e6 * 0.07 / 30, 1e-12, 0);
}
END_TEST

START_TEST(set_by_the_fit)
{
    rbow_member m = sound();
    m.gap = 0.08;
    for (int run = 0; run < 3; run++) {
        m.compression = (run - 1) * 500.0;
        const rbow_result r = check(&m, &steel);
        near_within(r.yield_factor, 0, 0, 0);
        near_within(r.margin, -1, 0, 0);
        ck_assert_int_eq(r.governs, RBOW_BY_YIELD);
        ck_assert_int_eq(r.verdict, RBOW_SHORT);
        ck_assert(r.remarks & RBOW_REMARK_SET);
        ck_assert(run == 1 ? isinf(r.margin_unforced) != 0 : r.margin_unforced > 0);
    }
}
END_TEST

/* Squeezed to its critical load, where it stands: nothing built in can be told. */
START_TEST(squeezed_to_critical)
{
    rbow_member m = sound();
    m.compression = 100;
    const rbow_result plain = check(&m, &steel);
    const double whole = plain.critical_load * 30 / (29e6 * plain.section.area);
    m.gap = -whole * (1 + 1e-9);
    rbow_result r = check(&m, &steel);
    near_within(r.yield_factor, 0, 0, 0);
    near_within(r.column_factor, 0, 0, 0);
    near_within(r.interaction_factor, 0, 0, 0);
    near_within(r.margin, -1, 0, 0);
    ck_assert_int_eq(r.governs, RBOW_BY_COLUMN);
    ck_assert(isnan(r.fit_moment) && isnan(r.fit_stress) && isnan(r.peak_stress) && isnan(r.deflection));
    near_within(r.fit_axial, plain.critical_load, 2e-9, 0);
    near_within(r.margin_unforced, plain.margin, 1e-12, 0);
    ck_assert(r.remarks & RBOW_REMARK_UNSTABLE);
    m.gap = -whole * (1 - 1e-9);
    r = check(&m, &steel);
    ck_assert(!isnan(r.fit_stress));
    m.compression = 0; /* with nothing that runs it still buckles */
    m.gap = -2 * whole;
    r = check(&m, &steel);
    near_within(r.margin, -1, 0, 0);
    m.compression = -1e6; /* and a pull of the car does not take it back */
    r = check(&m, &steel);
    near_within(r.margin, -1, 0, 0);
    ck_assert(isnan(r.fit_moment) && !isnan(r.peak_stress));
}
END_TEST

/* Between the column curve and the critical load: the column check is spent, the tube still stands. */
START_TEST(squeezed_beyond_the_column_load)
{
    rbow_member m = sound();
    const rbow_result plain = check(&m, &steel);
    ck_assert(plain.column_load < 0.95 * plain.critical_load);
    m.gap = -0.97 * plain.critical_load * 30 / (29e6 * plain.section.area);
    for (int run = 0; run < 3; run++) {
        m.compression = (run - 1) * 100.0;
        const rbow_result r = check(&m, &steel);
        near_within(r.column_factor, 0, 0, 0);
        near_within(r.margin, -1, 0, 0);
        ck_assert_int_eq(r.governs, RBOW_BY_COLUMN);
        ck_assert(!isnan(r.fit_stress) && r.yield_factor > 0);
    }
}
END_TEST

START_TEST(unstable_as_loaded)
{
    rbow_member m = sound();
    const double critical = check(&m, &steel).critical_load;
    m.bow = 0.03;
    m.compression = critical;
    const rbow_result r = check(&m, &steel);
    ck_assert(isnan(r.peak_moment) && isnan(r.peak_moment_at) && isnan(r.peak_stress) && isnan(r.stress_use));
    ck_assert(isnan(r.deflection) && isnan(r.deflection_clock));
    ck_assert(!isnan(r.margin) && r.margin < 0 && r.yield_factor < 1);
    near_within(r.axial, critical, 0, 0);
    near_within(r.fit_moment, 0, 0, 0);
    m.compression = critical * (1 - 1e-9);
    ck_assert(check(&m, &steel).stress_use > 1);
}
END_TEST

/* A straight, slender column has nothing to yield from: its yield factor stops at critical. */
START_TEST(slender_and_straight)
{
    rbow_member m = tube_of(1, 0.035, 90);
    m.compression = 100;
    const rbow_result r = check(&m, &steel);
    near_within(r.yield_factor, r.critical_load / 100, 1e-9, 0);
    near_within(r.column_factor, r.critical_load / 100, 1e-12, 0);
    ck_assert_int_eq(r.governs, RBOW_BY_COLUMN);
}
END_TEST

/* Locked-in tension may have relaxed: it never raises a margin under compression. */
START_TEST(tension_is_no_help)
{
    rbow_member m = sound();
    m.bow = 0.02;
    const rbow_result plain = check(&m, &steel);
    m.gap = 0.002;
    const rbow_result pulled = check(&m, &steel);
    near_within(pulled.column_factor, plain.column_factor, 1e-12, 0);
    near_within(pulled.yield_factor, plain.yield_factor, 1e-9, 0);
    near_within(pulled.interaction_factor, plain.interaction_factor, 1e-9, 0);
    near_within(pulled.peak_moment, plain.peak_moment, 1e-9, 0);
    ck_assert(pulled.fit_axial < 0 && pulled.margin_as_built > pulled.margin); /* the state as built does show it */
    ck_assert_int_eq(pulled.fit_taken, RBOW_FIT_UNFORCED);
    near_within(pulled.axial, 500, 1e-12, 0);
    m.gap = -0.002;
    const rbow_result squeezed = check(&m, &steel);
    near_within(squeezed.column_factor, (plain.column_load - squeezed.fit_axial) / 500, 1e-12, 0);
}
END_TEST

START_TEST(which_check_governs)
{
    rbow_member m = sound();
    m.bow = 0.05;
    rbow_result r = check(&m, &steel);
    ck_assert_int_eq(r.governs, RBOW_BY_INTERACTION);
    near_within(r.margin, r.interaction_factor / 1.5 - 1, 1e-12, 0);
    m.factor_yield = 100;
    r = check(&m, &steel);
    ck_assert_int_eq(r.governs, RBOW_BY_YIELD);
    near_within(r.margin, r.yield_factor / 100 - 1, 1e-12, 0);
    m.factor_yield = RBOW_UNSET;
    m.bow = 0;
    r = check(&m, &steel); /* straight: column and interaction tie */
    ck_assert_int_eq(r.governs, RBOW_BY_COLUMN);
}
END_TEST

/* M = M_A (1 - x/L) + q x (L - x)/2 is largest at L/2 - M_A/(q L): to rounding, though the search stops sooner. */
START_TEST(the_place_of_a_peak_is_exact)
{
    for (int i = 1; i <= 20; i++) {
        rbow_member m = sound();
        m.compression = 0;
        m.spread_load = 3;
        m.moment_a = 17.3 * i;
        near_within(check(&m, &steel).peak_moment_at, 15 - m.moment_a / (3 * 30), 1e-12, 0);
    }
}
END_TEST

/* A zone border or a load within rounding of another leaves a piece of the tube of no length. Without an axial load
 * M = M_B x/L + q x (L - x)/2, at most q L^2/8 + M_B/2 + M_B^2/(2 q L^2). */
START_TEST(a_piece_of_no_length)
{
    const double l = 30, q = 3, b = 500, none = nextafter(0.5, 0);
    const struct {
        double weld_zone, point_at;
    } pieces[] = {{none * l, RBOW_UNSET}, {0, 1e-15}, {1, l - 1}, {1, 1 + 1e-15}, {2, l * (1 - 2 / l)}};
    for (size_t i = 0; i < sizeof pieces / sizeof *pieces; i++) {
        rbow_member m = tube_of(1.25, 0.049, l);
        m.spread_load = q;
        m.moment_b = b;
        m.weld_zone = pieces[i].weld_zone;
        m.point_at = pieces[i].point_at;
        m.point_load = i == 0 ? 0 : 1e-9;
        near_within(check(&m, &steel).peak_moment, q * l * l / 8 + b / 2 + b * b / (2 * q * l * l), 1e-9, 0);
    }
}
END_TEST

/* A bow of nothing does nothing, of whatever shape and however strong the pull: the moment at a free end is the pull
 * times its offset. */
START_TEST(no_bow_under_a_strong_pull)
{
    for (int shape = RBOW_BOW_SINE; shape <= RBOW_BOW_KINK; shape++) {
        rbow_member m = tube_of(0.5, 0.035, 200);
        m.end_a = RBOW_FIXED;
        m.end_b = RBOW_FREE;
        m.compression = -3e6;
        m.eccentricity = 0.1;
        m.bow_shape = shape;
        near_within(check(&m, &steel).peak_moment, 300e3, 1e-9, 0);
    }
}
END_TEST

/* In a weld zone at A the moment has a second top behind a dip at its very end; found by random search. The wanted value
 * is a scan along the tube at 0.19506 and on, halved to the last digit. */
START_TEST(a_second_top_in_a_weld_zone)
{
    rbow_member m = tube_of(3.6186965681729824, 0.046869179482812093, 38.831173054649611);
    rbow_material k = steel;
    k.elastic_modulus = 15083449.920750771;
    k.yield = 56142.089425560887;
    k.compression_yield = 60756.9776998179;
    k.weld_yield = 28145.820022313041;
    m.end_a = 402536.94843880594;
    m.compression = -75522.363392045925;
    m.point_load = -201.37696321330395;
    m.point_at = 19.089881429842983;
    m.point_clock = -3.9497580458417128;
    m.spread_load = 53.409907933615827;
    m.bow = 0.16248062994762194;
    m.weld_zone = 5.2158198208979369;
    const rbow_result r = check(&m, &k);
    near_within(r.yield_factor, 0.195064332371, 1e-9, 0);
    near_within(r.governs_at, 1.607864, 1e-5, 0);
}
END_TEST

static void fill(TCase *cases)
{
    tcase_add_test(cases, a_second_top_in_a_weld_zone);
    tcase_add_test(cases, the_place_of_a_peak_is_exact);
    tcase_add_test(cases, a_piece_of_no_length);
    tcase_add_test(cases, no_bow_under_a_strong_pull);
    tcase_add_test(cases, gere_eccentric_column);
    tcase_add_test(cases, sarkar_eccentric_column);
    tcase_add_test(cases, gere_column_ends);
    tcase_add_test(cases, junnarkar_failing_stress);
    tcase_add_test(cases, perry_first_yield);
    tcase_add_test(cases, gere_torsion);
    tcase_add_test(cases, beer_johnston_torsion_and_bending);
    tcase_add_test(cases, aisc_pipe);
    tcase_add_test(cases, weight);
    tcase_add_test(cases, own_weight);
    tcase_add_test(cases, two_planes);
    tcase_add_test(cases, forced_fit_by_hand);
    tcase_add_test(cases, factors_by_hand);
    tcase_add_test(cases, interaction_by_hand);
    tcase_add_test(cases, weld_zone_by_hand);
    tcase_add_test(cases, nothing_runs);
    tcase_add_test(cases, set_by_the_fit);
    tcase_add_test(cases, squeezed_to_critical);
    tcase_add_test(cases, squeezed_beyond_the_column_load);
    tcase_add_test(cases, unstable_as_loaded);
    tcase_add_test(cases, slender_and_straight);
    tcase_add_test(cases, tension_is_no_help);
    tcase_add_test(cases, which_check_governs);
}

int main(void)
{
    gsl_set_error_handler_off();
    return run_tests("check/member", fill);
}
