/* The library against what books print of welds, splices, holes and fatigue: tests/detail/published.csv, one value a row.
 *
 * With the argument "proof" it prints every row beside the library's value. */
#include "published_rows.h"

#include <gsl/gsl_errno.h>

static const double pi = 3.14159265358979323846;
static curves all;
static table published;

static void read_all(void)
{
    gsl_set_error_handler_off();
    read_curves(&all);
    read_published(&published);
}

static const rbow_sn_curve *curve_in(const printed *r)
{
    char name[40] = "";
    const char *at = input_at(r, "curve");
    ck_assert_ptr_nonnull(at);
    sscanf(at, "%39[^;]", name);
    return curve_of(&all, name);
}

/* ---- welds --------------------------------------------------------------------------------------------------- */

/* Stress of a ring weld: its utilisation where 0.6 F_EXX is 1. */
static double ring_stress(double od, double throat, rbow_section_forces f)
{
    const rbow_member m = tube_of(od, od / 10, 30 * od);
    rbow_detail d = detail_of(RBOW_DETAIL_RING_WELD, 10 * od);
    d.throat = throat;
    d.weld_strength = 1 / 0.6;
    return use_of(&d, &m, f, RBOW_DETAIL_BY_WELD);
}

static double ring_modulus(const printed *r) { return 1 / ring_stress(in(r, "od"), 1, (rbow_section_forces){.moment_up = 1}); }
static double ring_torsion(const printed *r) { return in(r, "od") / 2 / ring_stress(in(r, "od"), 1, (rbow_section_forces){.torque = 1}); }
static double ring_length(const printed *r) { return 1 / ring_stress(in(r, "od"), 1, (rbow_section_forces){.axial = 1}); }

static double ring_leg(const printed *r)
{
    const double force = in(r, "shear");
    return ring_stress(in(r, "od"), 1, (rbow_section_forces){.moment_up = force * in(r, "arm"), .shear_up = force / 2}) / in(r, "limit");
}

static double ring_leg_by_shear(const printed *r)
{
    const double force = in(r, "shear"), od = in(r, "od");
    const double n = ring_stress(od, 1, (rbow_section_forces){.moment_up = force * in(r, "arm")}), t = ring_stress(od, 1, (rbow_section_forces){.shear_up = force / 2});
    return hypot(n / 2, t) / (0.707 * in(r, "limit"));
}

/* Under a load along a weld of some length. */
static double straight_stress(double length, double throat, double load)
{
    return ring_stress(length / pi, throat, (rbow_section_forces){.axial = load});
}

static double weld_stress(const printed *r) { return straight_stress(in(r, "length"), 0.707 * in(r, "leg"), in(r, "load")); }
static double weld_load(const printed *r) { return in(r, "limit") / straight_stress(in(r, "length"), 0.707 * in(r, "leg"), 1); }

static double weld_length(const printed *r)
{
    const double throat = input_at(r, "line") != NULL ? 1 : 0.707 * in(r, "leg"), limit = input_at(r, "line") != NULL ? in(r, "line") : in(r, "limit");
    return straight_stress(1, throat, in(r, "load") * in(r, "factor")) / limit / in(r, "welds") + in(r, "ends");
}

static double with_filler(const printed *r, double throat)
{
    const rbow_member m = tube_of(1.25, .058, 30);
    rbow_detail d = detail_of(RBOW_DETAIL_RING_WELD, 10);
    d.throat = throat;
    d.weld_strength = in(r, "strength");
    return 1 / use_of(&d, &m, (rbow_section_forces){.axial = pi * 1.25}, RBOW_DETAIL_BY_WELD); /* 1 on each inch */
}

static double fillet_load(const printed *r) { return with_filler(r, sqrt(0.5) * in(r, "leg")) * in(r, "share"); }
static double weld_strength(const printed *r) { return with_filler(r, 1); }

/* ---- sections ------------------------------------------------------------------------------------------------- */

static rbow_net_section net(const printed *r)
{
    rbow_net_section n;
    ck_assert_int_eq(rbow_net_section_of(in(r, "od"), in(r, "wall"), in(r, "hole"), (int)in(r, "walls"), &n), RBOW_OK);
    return n;
}

static double net_area(const printed *r) { return net(r).area; }
static double net_inertia_along(const printed *r) { return net(r).inertia_along; }
static double net_inertia_across(const printed *r) { return net(r).inertia_across; }

static rbow_material yielding_at(double yield)
{
    rbow_material k = steel;
    k.yield = k.compression_yield = k.weld_yield = yield;
    k.elastic_modulus = 1e4 * yield; /* no wall is reduced */
    k.column_intercept = yield;
    return k;
}

static double yield_load(const printed *r)
{
    const rbow_member m = tube_of(in(r, "od"), in(r, "wall"), 100);
    const rbow_material k = yielding_at(in(r, "yield"));
    const rbow_detail d = detail_of(RBOW_DETAIL_PLACE, 50);
    double use[RBOW_DETAIL_MODES];
    const rbow_section_forces f = {.axial = -1};
    ck_assert_int_eq(rbow_detail_use(&d, &m, &k, &f, use), RBOW_OK);
    return 1 / use[RBOW_DETAIL_BY_YIELD];
}

/* ---- remarks: the size at which one comes or goes -------------------------------------------------------------- */

typedef struct fit { /* of a sleeve in a tube */
    rbow_member member;
    rbow_detail detail;
} fit;

static fit fit_of(const printed *r)
{
    fit s = {tube_of(in_or(r, "od", 1.25), in(r, "wall"), 40), sleeve_at(20, in_or(r, "od", 1.25) - 2 * in(r, "wall"), in(r, "wall"), 0)};
    s.detail.rosettes = (int)in_or(r, "rosettes", 1);
    s.detail.rosette = in_or(r, "rosette", s.detail.rosette);
    s.detail.overlap = 4 * s.member.od;
    return s;
}

static bool remarked(const fit *s, unsigned remark)
{
    rbow_detail_result result;
    rbow_member m = s->member;
    m.compression = -1;
    ck_assert_int_eq(rbow_detail_check(&s->detail, &m, &steel, &result), RBOW_OK);
    return (result.remarks & remark) != 0;
}

/* Between a size with the remark and one without. */
static double border(fit *s, double *size, double with, double without, unsigned remark)
{
    *size = with;
    ck_assert(remarked(s, remark));
    *size = without;
    ck_assert(!remarked(s, remark));
    while (fabs(with - without) > 1e-9) {
        *size = (with + without) / 2;
        if (remarked(s, remark)) with = *size;
        else without = *size;
    }
    return *size;
}

static double least_overlap(const printed *r)
{
    fit s = fit_of(r);
    return border(&s, &s.detail.overlap, .1, 5, RBOW_DETAIL_SHORT_OVERLAP);
}

static double most_clearance(const printed *r)
{
    fit s = fit_of(r);
    const double bore = s.member.od - 2 * s.member.wall;
    return bore - border(&s, &s.detail.sleeve_od, bore - .3, bore, RBOW_DETAIL_LOOSE);
}

static double least_sleeve_wall(const printed *r)
{
    fit s = fit_of(r);
    return border(&s, &s.detail.sleeve_wall, .02, .2, RBOW_DETAIL_THIN_SLEEVE);
}

static double least_rosette(const printed *r)
{
    fit s = fit_of(r);
    return border(&s, &s.detail.rosette, .1, .42, RBOW_DETAIL_ROSETTE);
}

static double most_rosette(const printed *r)
{
    fit s = fit_of(r);
    return border(&s, &s.detail.rosette, 3, .9, RBOW_DETAIL_ROSETTE);
}

static double least_pitch(const printed *r)
{
    fit s = fit_of(r);
    s.detail.sleeve_od = .7; /* fits all of them */
    border(&s, &s.member.od, .9, 3, RBOW_DETAIL_ROSETTE);
    return pi * s.member.od / s.detail.rosettes / s.detail.rosette;
}

/* ---- S-N curves ------------------------------------------------------------------------------------------------ */

static double cycles_at(const rbow_sn_curve *c, double range, double stress, double ratio)
{
    double n;
    ck_assert_int_eq(rbow_sn_cycles(c, range, stress, ratio, &n), RBOW_OK);
    return n;
}

static double weld_cycles(const printed *r) { return cycles_at(curve_in(r), in(r, "range"), NAN, NAN); }

/* Of a curve of the table, or of constants for ksi. */
static double metal_cycles(const printed *r)
{
    rbow_sn_curve c;
    if (input_at(r, "curve") != NULL) return cycles_at(curve_in(r), NAN, in(r, "stress"), in(r, "ratio"));
    c = (rbow_sn_curve){.kind = RBOW_SN_METAL, .a1 = in(r, "a1"), .a2 = in(r, "a2"), .a3 = in(r, "a3"), .a4 = in(r, "a4"),
                        .stress_unit = 1000, .deviation = NAN};
    return cycles_at(&c, NAN, in(r, "stress"), in(r, "ratio"));
}

static double log_a_at(const rbow_sn_curve *c, double range, double slope)
{
    return log10(cycles_at(c, range, NAN, NAN)) + slope * log10(range / unit_of("MPa"));
}

static double log_a(const printed *r) { return log_a_at(curve_in(r), in(r, "range"), in(r, "slope")); }

/* Stress of both branches at 1e7 cycles, one over the other. */
static double meeting(const printed *r)
{
    const rbow_sn_curve *c = curve_in(r);
    const double first = (log_a_at(c, 400 * unit_of("MPa"), in(r, "slope")) - 7) / in(r, "slope"), second = (log_a_at(c, 5 * unit_of("MPa"), 5) - 7) / 5;
    return pow(10, first - second);
}

static double strength_of(const rbow_sn_curve *c, double cycles)
{
    double low = 1e-3, high = 1e6;
    while (high / low > 1 + 1e-12) {
        const double range = sqrt(low * high);
        if (cycles_at(c, range, NAN, NAN) > cycles) low = range;
        else high = range;
    }
    return low;
}

static double strength(const printed *r) { return strength_of(curve_in(r), in(r, "cycles")); }
static double strength_share(const printed *r) { return strength(r) / in(r, "category"); }

/* The least range that ever cracks, over the one at 5e6 cycles. */
static double cutoff_share(const printed *r) { return strength_of(curve_in(r), 1e300) / strength_of(curve_in(r), 5e6); }

static double walker(const printed *r)
{
    const rbow_sn_curve c = {.kind = RBOW_SN_METAL, .a1 = 0, .a2 = -1, .a3 = in(r, "exponent"), .a4 = 0, .stress_unit = 1, .deviation = NAN};
    return 1 / cycles_at(&c, NAN, 1, in(r, "ratio"));
}

/* ---- cycles between two states of a round bar ----------------------------------------------------------------------- */

static rbow_life_cycle cycle_of(double od, const rbow_sn_curve *c, rbow_section_forces low, rbow_section_forces high)
{
    const rbow_member m = tube_of(od, od / 2, 20 * od);
    const rbow_material k = yielding_at(1e6); /* no stress of the table is beyond it */
    const rbow_detail d = detail_of(RBOW_DETAIL_PLACE, 10 * od);
    rbow_life_cycle out;
    ck_assert_int_eq(rbow_life_between(&d, &m, &k, c, &low, &high, &out), RBOW_OK);
    return out;
}

static double area_of(double od) { return pi * od * od / 4; }

static double equivalent(const printed *r)
{
    const double pull = in(r, "stress") * area_of(1);
    return cycle_of(1, curve_in(r), (rbow_section_forces){.axial = -in(r, "ratio") * pull}, (rbow_section_forces){.axial = -pull}).equivalent;
}

/* Reversed torsion and bending of a bar of 1 in. */
static rbow_life_cycle reversed(const printed *r, const rbow_sn_curve *c)
{
    const double torque = in(r, "twist") * pi / 16, moment = in_or(r, "bend", 0) * pi / 32;
    return cycle_of(1, c, (rbow_section_forces){.torque = -torque, .moment_up = -moment}, (rbow_section_forces){.torque = torque, .moment_up = moment});
}

static double equivalent_stress(const printed *r) { return reversed(r, curve_of(&all, "4130 kt 1")).stress_max; }
static double endurance_factor(const printed *r) { return in(r, "endurance") / (reversed(r, curve_of(&all, "4130 kt 1")).range / 2); }

static double yield_factor(const printed *r)
{
    const rbow_member m = tube_of(1, .5, 20);
    const rbow_material k = yielding_at(in(r, "yield"));
    const rbow_detail d = detail_of(RBOW_DETAIL_PLACE, 10);
    const rbow_section_forces f = {.torque = in(r, "twist") * pi / 16, .moment_up = in_or(r, "bend", 0) * pi / 32};
    double use[RBOW_DETAIL_MODES];
    ck_assert_int_eq(rbow_detail_use(&d, &m, &k, &f, use), RBOW_OK);
    return 1 / use[RBOW_DETAIL_BY_YIELD];
}

/* N = (S/a)^(1/b) */
static double power_life(const printed *r)
{
    const double b = in(r, "b");
    const rbow_sn_curve c = {.kind = RBOW_SN_METAL, .a1 = -log10(in(r, "a")) / b, .a2 = 1 / b, .a3 = 0, .a4 = 0, .stress_unit = 1, .deviation = NAN};
    return reversed(r, &c).cycles;
}

static rbow_life_cycle pulled_and_bent(const printed *r)
{
    const double pull = in(r, "pull"), moment = in(r, "moment");
    return cycle_of(in(r, "od"), curve_of(&all, "4130 kt 1"), (rbow_section_forces){.axial = -pull, .moment_up = -moment},
                    (rbow_section_forces){.axial = -pull, .moment_up = moment});
}

static double mean_of(const rbow_life_cycle *c) { return c->stress_max - c->range / 2; }
static double mean_stress(const printed *r) { const rbow_life_cycle c = pulled_and_bent(r); return mean_of(&c); }
static double alternating_stress(const printed *r) { return in(r, "notch") * pulled_and_bent(r).range / 2; }

typedef double (*line_sum)(const printed *r, double od); /* mean over its limit and alternating over its own */

/* The diameter at which the sum is 1 over the factor. */
static double diameter_for(const printed *r, line_sum sum)
{
    double small = .01, large = 100;
    while (large / small > 1 + 1e-12) {
        const double od = sqrt(small * large);
        if (sum(r, od) > 1 / in(r, "factor")) small = od;
        else large = od;
    }
    return large;
}

static double of_push_and_pull(const printed *r, double od, double limit)
{
    const rbow_life_cycle c = cycle_of(od, curve_of(&all, "D"), (rbow_section_forces){.axial = in(r, "push")}, (rbow_section_forces){.axial = -in(r, "pull")});
    return fabs((in(r, "pull") - in(r, "push")) / 2 / area_of(od)) / limit + c.range / 2 / in(r, "endurance");
}

static double of_moment(const printed *r, double od, double limit)
{
    const rbow_life_cycle c = cycle_of(od, curve_of(&all, "4130 kt 1"), (rbow_section_forces){.axial = 0}, (rbow_section_forces){.moment_up = in(r, "moment")});
    return mean_of(&c) / limit + c.range / 2 / in(r, "endurance");
}

static double goodman(const printed *r, double od) { return of_push_and_pull(r, od, in(r, "ultimate")); }
static double soderberg(const printed *r, double od) { return of_push_and_pull(r, od, in(r, "yield")); }
static double bending_goodman(const printed *r, double od) { return of_moment(r, od, in(r, "ultimate")); }
static double bending_soderberg(const printed *r, double od) { return of_moment(r, od, in(r, "yield")); }

static double goodman_diameter(const printed *r) { return diameter_for(r, goodman); }
static double bending_goodman_diameter(const printed *r) { return diameter_for(r, bending_goodman); }
static double soderberg_diameter(const printed *r) { return diameter_for(r, bending_soderberg); }
static double soderberg_side(const printed *r) { return sqrt(area_of(diameter_for(r, soderberg))); }

static double torsion_factor(const printed *r)
{
    const rbow_life_cycle c = cycle_of(in(r, "od"), curve_of(&all, "4130 kt 1"), (rbow_section_forces){.axial = 0}, (rbow_section_forces){.torque = in(r, "torque")});
    const double shear = c.range / 2 / sqrt(3), mean = mean_of(&c) / sqrt(3);
    return 1 / (mean / (in(r, "yield") / 2) + in(r, "notch") * shear / in(r, "endurance"));
}

static double octahedral_load(const printed *r)
{
    const double lever = in(r, "arm");
    return in(r, "limit")
        / cycle_of(in(r, "od"), curve_of(&all, "4130 kt 1"), (rbow_section_forces){.moment_up = -lever, .torque = -lever},
                   (rbow_section_forces){.moment_up = lever, .torque = lever}).stress_max;
}

static double miner_damage(const printed *r)
{
    rbow_member high = tube_of(1.25, .058, 20), low = high;
    rbow_section s;
    rbow_life_result result;
    rbow_section_of(1.25, .058, &s);
    high.compression = in(r, "range") * s.area;
    low.compression = in(r, "range_2") * s.area;
    const rbow_life_row rows[] = {{&high, in(r, "cycles"), 0, 1}, {&low, in(r, "cycles_2"), 0, 1}};
    const rbow_detail d = detail_of(RBOW_DETAIL_PLACE, 10);
    ck_assert_int_eq(rbow_life_of(&d, rows, 2, &steel, curve_in(r), &result), RBOW_OK);
    return 1 / result.runs;
}

/* ---- the table ------------------------------------------------------------------------------------------------- */

#define NAMED(quantity) {#quantity, quantity}
static const struct {
    const char *name;
    double (*of)(const printed *r);
} quantities[] = {
    NAMED(ring_modulus), NAMED(ring_torsion), NAMED(ring_length), NAMED(ring_leg), NAMED(ring_leg_by_shear), NAMED(weld_stress), NAMED(weld_load),
    NAMED(weld_length), NAMED(fillet_load), NAMED(weld_strength), NAMED(net_area), NAMED(net_inertia_along), NAMED(net_inertia_across),
    NAMED(yield_load), NAMED(least_overlap), NAMED(most_clearance), NAMED(least_sleeve_wall), NAMED(least_rosette), NAMED(most_rosette),
    NAMED(least_pitch), NAMED(weld_cycles), NAMED(metal_cycles), NAMED(log_a), NAMED(meeting), NAMED(strength), NAMED(strength_share),
    NAMED(cutoff_share), NAMED(walker), NAMED(equivalent), NAMED(equivalent_stress), NAMED(endurance_factor), NAMED(yield_factor),
    NAMED(power_life), NAMED(mean_stress), NAMED(alternating_stress), NAMED(goodman_diameter), NAMED(bending_goodman_diameter),
    NAMED(soderberg_diameter), NAMED(soderberg_side), NAMED(torsion_factor), NAMED(octahedral_load), NAMED(miner_damage),
};
enum { QUANTITIES = sizeof quantities / sizeof *quantities };

static int quantity_of(const printed *r)
{
    for (int i = 0; i < QUANTITIES; i++)
        if (strcmp(quantities[i].name, r->cell[QUANTITY]) == 0) return i;
    ck_abort_msg("quantity '%s'", r->cell[QUANTITY]);
    return 0;
}

/* Whether the library gives the value. */
static bool met(const printed *r, bool print)
{
    const double ours = quantities[quantity_of(r)].of(r), value = number_of(r->cell[VALUE]), tolerance = number_of(r->cell[TOLERANCE]);
    const char *blank = strchr(r->cell[VALUE], ' ');
    const double unit = blank != NULL ? unit_of(blank + 1) : 1;
    const bool fine = isinf(value) ? isinf(ours) : fabs(ours - value) <= tolerance * (1 + 1e-9);
    if (print || !fine)
        printf("%s%s%s, %s | %s | %s | %s | %.8g | %s | %s | %s\n", r->cell[TITLE], *r->cell[EDITION] != '\0' ? ", " : "", r->cell[EDITION],
               r->cell[PLACE], r->cell[QUANTITY], r->cell[INPUTS], r->cell[VALUE], ours / unit, r->cell[TOLERANCE], fine ? "met" : "NOT MET",
               r->cell[STANDING]);
    fflush(stdout);
    return fine;
}

static int missed(bool print)
{
    int count = 0;
    for (int i = 0; i < published.count; i++) count += !met(&published.rows[i], print);
    return count;
}

START_TEST(published_values_are_met)
{
    ck_assert_int_ge(published.count, 170);
    ck_assert_int_eq(missed(false), 0);
}
END_TEST

/* Every row says where it comes from and how sure that is; every quantity has a row. */
START_TEST(rows_have_their_source)
{
    static const char *const standings[] = {"read", "part read", "read second hand", "from memory", "derived", "own calculation"};
    bool used[QUANTITIES] = {false};
    for (int i = 0; i < published.count; i++) {
        const printed *r = &published.rows[i];
        bool known = false;
        for (size_t k = 0; k < sizeof standings / sizeof *standings; k++) known = known || strcmp(r->cell[STANDING], standings[k]) == 0;
        ck_assert_msg(known, "standing '%s'", r->cell[STANDING]);
        ck_assert(*r->cell[TITLE] != '\0' && *r->cell[PLACE] != '\0');
        used[quantity_of(r)] = true;
    }
    for (int i = 0; i < QUANTITIES; i++) ck_assert_msg(used[i], "no row of %s", quantities[i].name);
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_unchecked_fixture(c, read_all, NULL);
    tcase_add_test(c, published_values_are_met);
    tcase_add_test(c, rows_have_their_source);
}

START_TEST(the_table)
{
    puts("source | quantity | inputs | published | ours | tolerance | met | standing");
    const int not_met = missed(true);
    printf("\n%d values; %d not met.\n", published.count, not_met);
    ck_assert_int_eq(not_met, 0);
}
END_TEST

static void fill_proof(TCase *c)
{
    tcase_add_unchecked_fixture(c, read_all, NULL);
    tcase_add_test(c, the_table);
}

int main(int arguments, char **words)
{
    const bool proof = arguments > 1 && strcmp(words[1], "proof") == 0;
    return run_tests("published details", proof ? fill_proof : fill);
}
