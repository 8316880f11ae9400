/* Every function of the library once, as a program outside would call it: what it gives, and that a refusal gives NaN.
 * Values are worked out by hand beside each. tests/install/run holds the names used here against the library's own. */
#include <gsl/gsl_errno.h>
#include <pthread.h>
#include <railbow/railbow.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int failed;

static void want(int so, const char *what, int line)
{
    if (so) return;
    printf("api.c:%d: %s\n", line, what);
    failed = 1;
}
#define WANT(condition) want(condition, #condition, __LINE__)
#define NEAR(got, wanted) WANT(fabs((got) - (wanted)) <= 1e-9 * fabs(wanted))

static const double pi = 3.14159265358979323846;

static const rbow_material steel = {
    .name = "steel", .wall_up_to = 1, .elastic_modulus = 30e6, .density = 0.25, .yield = 60e3,
    .compression_yield = 60e3, .weld_yield = 40e3, .column_intercept = 60e3, .column_curve = RBOW_CURVE_EULER,
};

/* A solid bar of 1 in between pins. */
static rbow_member bar(void)
{
    rbow_member m = rbow_member_default();
    m.od = 1;
    m.wall = 0.5;
    m.length = 50;
    m.compression = 1000;
    m.factor = 2;
    return m;
}

static void version_and_words(void)
{
    WANT(strcmp(rbow_version(), RBOW_VERSION) == 0);
    WANT(RBOW_VERSION_NUMBER >= 1000);
    WANT(strcmp(rbow_status_text(RBOW_OK), "fine") == 0);
    WANT(strcmp(rbow_status_text((rbow_status)-999), "unknown status") == 0);
    WANT(strcmp(rbow_status_input(RBOW_BAD_WALL), "wall") == 0);
    WANT(strcmp(rbow_status_input((rbow_status)-999), "") == 0);
    WANT(strcmp(rbow_curve_name(RBOW_CURVE_THREE_HALVES), "three-halves") == 0);
    WANT(rbow_curve_name(RBOW_CURVE_OF_MATERIAL) == NULL && rbow_curve_name(RBOW_CURVE_COUNT) == NULL);
    WANT(strstr(rbow_curve_source(RBOW_CURVE_AISC), "360-16") != NULL && rbow_curve_source(RBOW_CURVE_OF_MATERIAL) == NULL);
    WANT(strcmp(rbow_remark_text(RBOW_REMARK_SLENDER), "slender") == 0);
    for (int bit = 0; bit < RBOW_REMARK_COUNT; bit++) WANT(rbow_remark_text(1U << bit) != NULL);
    WANT(rbow_remark_text(0) == NULL && rbow_remark_text(3) == NULL && rbow_remark_text(1U << RBOW_REMARK_COUNT) == NULL);
}

static void sighting(void)
{
    const rbow_sight_reading bar[] = {{0, 0.1, 0, 0.01}, {10, 0.2, 0, 0.01}};                     /* 0.01 an inch */
    const rbow_sight_reading string[] = {{0, 0, 0, 0.01}, {10, 0, 0.05, 0.01}, {20, 0, 0, 0.01}}; /* at mid-length */
    rbow_sight s;
    WANT(rbow_sight_socket(bar, 2, 30, &s) == RBOW_OK && s.freedom == 0);
    NEAR(s.size, 0.3);
    NEAR(s.offset, 0.1);
    WANT(rbow_sight_socket(bar, 1, 30, &s) == RBOW_FEW_UP && isnan(s.size) && isnan(s.error));
    WANT(rbow_sight_tube(string, 3, &s) == RBOW_OK && s.bow_shape == RBOW_BOW_SINE);
    NEAR(s.size, 0.05);
    NEAR(s.clock, pi / 2);
    WANT(rbow_sight_tube(string, 2, &s) == RBOW_FEW_UP && isnan(s.size));
}

static void cutting(void)
{
    const rbow_piece pieces[] = {{50, NAN}, {49.9, 0.1}};
    const rbow_stick sticks[] = {{100, 0.4}}; /* a quarter of it over half of it */
    int stick_of[2];
    rbow_cutting c;
    void *room = malloc(rbow_sticks_room(2, 1));
    WANT(room != NULL);
    WANT(rbow_sticks_plan(pieces, 2, sticks, 1, 0.1, room, stick_of, &c) == RBOW_OK && c.sticks == 1 && c.left == 0);
    WANT(rbow_sticks_plan(pieces, 2, sticks, 1, 0.2, room, stick_of, &c) == RBOW_OK && c.left == 1);
    WANT(rbow_sticks_plan(pieces, 2, sticks, 1, -1, room, stick_of, &c) == RBOW_BAD_KERF && isnan(c.length));
    NEAR(rbow_stick_remainder(100, 60, 2, 0.25), 39.5);
    NEAR(rbow_stick_piece_bow(sticks, 50), 0.1);
    free(room);
}

static void tube(void)
{
    rbow_section s;
    double reduction;
    WANT(rbow_section_of(1, 0.5, &s) == RBOW_OK);
    NEAR(s.area, pi / 4);
    NEAR(s.inertia, pi / 64);
    NEAR(s.plastic_modulus, 1.0 / 6);
    WANT(rbow_section_of(1, 0.6, &s) == RBOW_BAD_WALL && isnan(s.area) && isnan(s.od));
    WANT(rbow_section_of((double)NAN, 0.1, &s) == RBOW_BAD_OD);
    WANT(rbow_wall_reduction(20, 30e6, 60e3, &reduction) == RBOW_OK);
    NEAR(reduction, 1.0);
    WANT(rbow_wall_reduction(100, 30e6, 60e3, &reduction) == RBOW_OK); /* ratio 0.2: 0.19 + 2/3 */
    NEAR(reduction, 0.19 + 2.0 / 3);
    WANT(rbow_wall_reduction(300, 30e6, 60e3, &reduction) == RBOW_WALL_RULE && isnan(reduction));
}

static void column(void)
{
    double value;
    rbow_column c = {.curve = RBOW_CURVE_EULER, .elastic_modulus = 30e6, .compression_yield = 60e3, .column_intercept = 60e3,
                     .wall_reduction = 1, .slenderness = 200};
    WANT(rbow_column_stress(&c, &value) == RBOW_OK);
    NEAR(value, pi * pi * 30e6 / 40000);
    WANT(rbow_column_transition(&c, &value) == RBOW_OK); /* pi^2 E/s^2 = Fy */
    NEAR(value, pi * sqrt(30e6 / 60e3));
    rbow_column_terms terms;
    WANT(rbow_column_terms_of(&c, &terms) == RBOW_OK && terms.range == RBOW_COLUMN_ELASTIC && isnan(terms.phi));
    NEAR(terms.euler, terms.stress);
    NEAR(rbow_effective_length(100, pi * pi), 10.0);
    WANT(isnan(rbow_effective_length(100, 0)));
    c.slenderness = 0;
    WANT(rbow_column_terms_of(&c, &terms) == RBOW_OUT_OF_RANGE && isnan(terms.stress) && isnan(terms.full));
    WANT(rbow_column_stress(&c, &value) == RBOW_OUT_OF_RANGE && isnan(value));
    WANT(rbow_column_transition(&c, &value) == RBOW_OUT_OF_RANGE && isnan(value));
    WANT(rbow_end_stiffness(RBOW_FIXED, 100, 10, &value) == RBOW_OK && isinf(value));
    WANT(rbow_end_stiffness(RBOW_WELDED, 100, 10, &value) == RBOW_OK && value > 0);
    WANT(rbow_end_stiffness(RBOW_FREE, 100, 10, &value) == RBOW_OUT_OF_RANGE && isnan(value));
    WANT(rbow_critical_load(100, 10, RBOW_PINNED, RBOW_PINNED, &value) == RBOW_OK);
    NEAR(value, pi * pi);
    WANT(rbow_critical_load(100, 10, RBOW_FIXED, RBOW_FREE, &value) == RBOW_OK);
    NEAR(value, pi * pi / 4);
    WANT(rbow_critical_load(100, 10, RBOW_PINNED, RBOW_FREE, &value) == RBOW_OUT_OF_RANGE && isnan(value));
}

/* A pinned bar under a load in its middle: F L/4 and F L^3/(48 EI). */
static void beam(void)
{
    rbow_prepared p;
    rbow_solution s;
    rbow_station at;
    rbow_beam b = {.bending_stiffness = 1000, .length = 10, .critical_load = 10 * pi * pi, .point_at = 5, .bow_at = 5};
    const rbow_loading load = {.point_load = 4};
    WANT(rbow_beam_prepare(&b, &p) == RBOW_OK);
    rbow_beam_solve(&p, &load, &s);
    rbow_beam_at(&p, &s, 5, &at);
    NEAR(at.moment, 10.0);
    NEAR(at.deflection, 4 * 1000.0 / 48000);
    b.compression = 100;
    WANT(rbow_beam_prepare(&b, &p) == RBOW_UNSTABLE);
    rbow_beam_solve(&p, &load, &s);
    rbow_beam_at(&p, &s, 5, &at);
    WANT(isnan(at.moment) && isnan(at.moment_slope) && isnan(at.deflection) && isnan(at.slope));
}

/* A forced fit on pins and fixed ends, a bow's lateral load, a weld zone and the stress of a solid bar. */
static void parts(void)
{
    rbow_forced_fit fit = {.bending_stiffness = 100, .length = 10, .stiffness_a = RBOW_FIXED, .stiffness_b = RBOW_PINNED};
    rbow_forced_ends slopes = {rbow_fit_slope(0.5, 10), 0}, moments;
    double tension, ends[2], components[2];
    WANT(rbow_fit_moments(&fit, &slopes, &moments) == RBOW_OK && !(fabs(moments.b) > 0));
    NEAR(moments.a, 3 * 100 * 0.5 / 100);
    WANT(rbow_fit_slopes(&fit, &moments, &slopes) == RBOW_OUT_OF_RANGE && isnan(slopes.a) && isnan(slopes.b));
    WANT(rbow_fit_tension(0.1, 10, 1000, (double)INFINITY, &tension) == RBOW_OK);
    NEAR(tension, 10.0);
    WANT(rbow_fit_tension(0.1, 10, 1000, 0, &tension) == RBOW_OUT_OF_RANGE && isnan(tension));

    rbow_bow bow = {.shape = RBOW_BOW_ARC, .amplitude = 0.5, .length = 10};
    rbow_bow_place place;
    rbow_bow_load load;
    WANT(rbow_bow_at(&bow, 5, &place) == RBOW_OK && rbow_bow_equivalent(&bow, 200, &load) == RBOW_OK);
    NEAR(place.offset, 0.5);
    NEAR(load.spread, 8.0);
    WANT(rbow_bow_at(&bow, 11, &place) == RBOW_OUT_OF_RANGE && isnan(place.offset) && isnan(place.slope));

    const rbow_weld_zone zone = {.zone = 1, .length = 10};
    rbow_weld_zone_ends(&zone, ends);
    NEAR(ends[1], 9.0);
    WANT(rbow_weld_zone_has(&zone, 0.5) == 1 && rbow_weld_zone_has(&zone, 5) == 0);
    NEAR(rbow_weld_zone_size((rbow_tube_size){1, 0.2}, 0.05).od, 0.9);
    rbow_clock_components(2, pi / 2, components);
    NEAR(rbow_clock_of(-3, -3), 5 * pi / 4); /* down and to the left */
    WANT(isnan(rbow_clock_of(0, 0)));
    WANT(!(fabs(components[0]) > 0));
    NEAR(components[1], 2.0);

    rbow_strength strength = {.compression_yield = 60e3, .yield = 60e3, .column_load = 1000};
    rbow_actions actions = {.axial = 500};
    rbow_stress stress;
    double moment;
    rbow_section_of(1, 0.5, &strength.section);
    WANT(rbow_stress_of(&strength, &actions, &stress) == RBOW_OK);
    NEAR(stress.interaction, 0.5);
    WANT(rbow_interaction_moment(&strength, &actions, &moment) == RBOW_OK);
    NEAR(moment, 0.5 * 60e3 * pi / 32);
    actions.axial = 0;
    WANT(rbow_yield_moment(&strength, &actions, &moment) == RBOW_OK);
    NEAR(moment, 60e3 * pi / 32);
    strength.yield = 0;
    WANT(rbow_stress_of(&strength, &actions, &stress) == RBOW_OUT_OF_RANGE && isnan(stress.pressed));
}

static void material(void)
{
    int known;
    WANT(rbow_material_find(&steel, 1, "steel", 0.5, &known) == &steel && known == 1);
    WANT(rbow_material_find(&steel, 1, "steel", 2, &known) == NULL && known == 1);
    WANT(rbow_material_find(&steel, 1, "Steel", 0.5, &known) == NULL && known == 0);
    WANT(rbow_material_find(NULL, 0, "steel", 0.5, &known) == NULL && known == 0);
}

/* By Euler: pi^2 E I / L^2 over the push, over the factor asked for, less 1. */
static void member(void)
{
    rbow_member m = bar();
    rbow_result r;
    rbow_margin margin;
    rbow_limit limit;
    rbow_status faults[2];
    const double euler = pi * pi * 30e6 * (pi / 64) / 2500;
    WANT(rbow_member_faults(&m, &steel, faults, 2) == 0);
    const rbow_member resolved = rbow_member_resolved(&m, &steel);
    NEAR(resolved.point_at, 25.0);
    WANT(resolved.column_curve == RBOW_CURVE_EULER && rbow_member_point_is_idle(&resolved) == 0);
    NEAR(rbow_member_bow(&resolved).kink_at, 25.0);
    NEAR(rbow_member_weld_zone(&m).length, 50.0);
    WANT(rbow_member_check(&m, &steel, &r) == RBOW_OK);
    NEAR(r.critical_load, euler);
    NEAR(r.margin, euler / 1000 / 2 - 1);
    WANT(r.verdict == RBOW_HOLDS && r.governs == RBOW_BY_COLUMN && r.runs && !r.forced);
    WANT((r.remarks & RBOW_REMARK_SLENDER) != 0); /* 50 over a quarter */
    const rbow_member taken = rbow_member_taken(&m, &r); /* nothing of it is unknown */
    NEAR(taken.compression, 1000.0);
    WANT(!(fabs(taken.end_a) > 0) && !(fabs(taken.gap) > 0));
    WANT(rbow_member_margin(&m, &steel, &margin) == RBOW_OK);
    NEAR(margin.margin, r.margin);
    WANT(rbow_member_limit(&m, &steel, RBOW_BY_COLUMN, &limit) == RBOW_OK);
    NEAR(limit.axial, euler);
    WANT(rbow_member_limit(&m, &steel, RBOW_BY_NONE, &limit) == RBOW_OUT_OF_RANGE && isnan(limit.factor));
    m.wall = 0.6;
    m.bow = -1;
    WANT(rbow_member_faults(&m, &steel, NULL, 0) == 2);
    WANT(rbow_member_faults(&m, &steel, faults, 1) == 2 && faults[0] == RBOW_BAD_WALL);
    WANT(rbow_member_check(&m, &steel, &r) == RBOW_BAD_WALL);
    WANT(isnan(r.margin) && isnan(r.section.area) && r.verdict == RBOW_SHORT && r.governs == RBOW_BY_NONE);
    WANT(rbow_member_margin(&m, &steel, &margin) == RBOW_BAD_WALL && isnan(margin.margin) && isnan(margin.yield_factor));
}

/* A spread load on pins: w L^2/8 in the middle, nothing at the ends. */
static void profile(void)
{
    rbow_member m = bar();
    rbow_profile at[2] = {{.at = 0}, {.at = 25}};
    m.compression = 0;
    m.spread_load = 2;
    WANT(rbow_member_profile(&m, &steel, 1, 0, at, 2) == RBOW_OK);
    WANT(fabs(at[0].moment_up) < 1e-9);
    NEAR(at[1].moment_up, 2 * 2500.0 / 8);
    at[1].at = 51;
    WANT(rbow_member_profile(&m, &steel, 1, 0, at, 2) == RBOW_OUT_OF_RANGE && isnan(at[0].moment_up));
}

static void shop(void)
{
    const double third = 2 * pi / 3;
    const rbow_wall_reading walls[3] = {{0, 0.06}, {third, 0.054}, {2 * third, 0.054}};
    rbow_bore bore;
    WANT(rbow_bore_fit(walls, 3, &bore) == RBOW_OK); /* mean 0.056; 0.06 at the top is all of the offset */
    NEAR(bore.mean, 0.056);
    NEAR(bore.offset, 0.004);
    WANT(rbow_bore_fit(walls, 2, &bore) == RBOW_OUT_OF_RANGE && isnan(bore.mean));

    /* opened alone: E A / L times it */
    rbow_cut cut = {.od = 1, .wall = 0.5, .elastic_modulus = 30e6, .length = 20, .cut_at = 10, .end_a = RBOW_FIXED,
                    .end_b = RBOW_FIXED, .turned = (double)NAN, .opened = 0.01, .gap_stiffness = (double)INFINITY};
    rbow_released r;
    WANT(rbow_release(&cut, &r) == RBOW_OK);
    NEAR(r.fit_axial, -30e6 * pi / 4 * 0.01 / 20);
    cut.cut_at = 20;
    WANT(rbow_release(&cut, &r) == RBOW_BAD_CUT && isnan(r.fit_axial) && isnan(r.miss_b));

    /* the pull that reaches yield: S Fy / L */
    rbow_pull pull = {.od = 1, .wall = 0.5, .elastic_modulus = 30e6, .yield = 60e3, .weld_yield = 60e3, .length = 10};
    rbow_pulled p;
    WANT(rbow_pull_straight(&pull, &p) == RBOW_OK);
    NEAR(p.yield_pull, pi / 32 * 60e3 / 10);
    pull.set = -1;
    WANT(rbow_pull_straight(&pull, &p) == RBOW_OUT_OF_RANGE && isnan(p.yield_pull) && isnan(p.most_set));
}

/* The same case in many threads at once gives the same bytes. */
/* A bar between two joints: one is held, the other slides along it. */
static void frame(void)
{
    rbow_material k = steel;
    k.shear_modulus = 11e6;
    rbow_frame_joint joints[2] = {rbow_frame_joint_default(), rbow_frame_joint_default()};
    rbow_frame_tube tube = rbow_frame_tube_default();
    rbow_frame_load load = rbow_frame_load_default();
    const rbow_frame f = {joints, 2, &tube, 1};
    const rbow_frame_run run = {&load, 1, 1.5, RBOW_UNSET};
    rbow_frame_solver *solver = NULL;
    rbow_frame_tube_result r;
    rbow_limit use;
    double along[3], up[3], right[3], clock;
    rbow_profile place = {.at = 15};
    double axial = 0, end = 0, critical = 0;
    joints[0].at[0] = joints[0].at[1] = joints[0].at[2] = joints[1].at[1] = joints[1].at[2] = 0;
    joints[1].at[0] = 30;
    joints[0].held = RBOW_HELD_FIXED;
    joints[1].held = RBOW_HELD_FIXED & ~(unsigned)RBOW_HELD_X;
    tube.from = 0;
    tube.to = 1;
    tube.od = 1.25;
    tube.wall = 0.058;
    tube.material = &k;
    load.acts_on = RBOW_ACTS_ON_JOINT;
    load.index = 1;
    load.force[0] = -1000;
    WANT(rbow_frame_faults(&f, NULL, 0) == 0 && rbow_frame_run_faults(&f, &run, NULL, 0) == 0);
    void *memory = malloc(rbow_frame_memory(&f));
    WANT(rbow_frame_open(&f, memory, &solver, NULL) == RBOW_OK);
    WANT(rbow_frame_state(solver, &run, 1, RBOW_FRAME_AS_BUILT, NULL, &axial) == RBOW_OK && fabs(axial - 1000) < 1e-6);
    WANT(rbow_frame_path_end(solver, &run, RBOW_FRAME_UNFORCED, &end) == RBOW_OK && end > 1);
    WANT(rbow_frame_critical_factor(solver, &run, &critical) == RBOW_OK && fabs(critical / end - 1) < 1e-6);
    WANT(rbow_frame_profile(solver, &run, 1, RBOW_FRAME_AS_BUILT, 0, &place, 1) == RBOW_OK);
    WANT(rbow_frame_check(solver, &run, &r, NULL, NULL) == RBOW_OK && r.verdict == RBOW_HOLDS);
    WANT(rbow_frame_use(solver, &run, 1, RBOW_FRAME_AS_BUILT, 0, RBOW_BY_YIELD, &use) == RBOW_OK && fabs(use.level - r.stress_use) < 1e-9);
    WANT(rbow_frame_use(solver, &run, 1, RBOW_FRAME_AS_BUILT, 0, RBOW_BY_COLUMN, &use) == RBOW_OUT_OF_RANGE);
    rbow_frame_directions(&f, 0, along, up, right);
    WANT(fabs(along[0] * up[0] + along[1] * up[1] + along[2] * up[2]) < 1e-12 && fabs(right[0] * right[0] + right[1] * right[1] + right[2] * right[2] - 1) < 1e-12);
    rbow_frame_bow_clocks(solver, &clock);
    WANT(tube.bow > 0 ? clock >= 0 : isnan(clock));
    rbow_frame_lowest lowest;
    WANT(rbow_frame_margin(solver, &run, INFINITY, &lowest) == RBOW_OK && lowest.tube == 0);
    NEAR(1 + lowest.margin, 1 + r.margin);
    const bool none[] = {false};
    rbow_frame_judge_only(solver, none);
    WANT(rbow_frame_margin(solver, &run, INFINITY, &lowest) == RBOW_OK && lowest.tube == 1);
    rbow_frame_judge_only(solver, NULL);
    rbow_detail spot = rbow_detail_default();
    rbow_detail_result detail;
    rbow_section_forces forces;
    spot.at = 15;
    WANT(rbow_frame_detail_faults(&f, 0, &spot, NULL, 0) == 0);
    WANT(rbow_frame_detail_check(solver, &run, 0, &spot, &detail) == RBOW_OK && detail.margin >= r.margin - 1e-6);
    const rbow_frame_detail on_tube = {0, spot};
    rbow_detail_result together;
    rbow_frame_lowest weakest;
    size_t which;
    WANT(rbow_frame_details_check(solver, &run, &on_tube, 1, &together) == RBOW_OK && !(together.margin < detail.margin));
    WANT(rbow_frame_details_margin(solver, &run, &on_tube, 1, INFINITY, &weakest, &which) == RBOW_OK && which <= 1
         && !(weakest.margin > detail.margin + 1e-6));
    double alone;
    WANT(rbow_frame_tube_margin(solver, &run, 0, &on_tube, 1, INFINITY, &alone) == RBOW_OK && !(alone < weakest.margin - 1e-6));
    const rbow_sn_curve slope = {.kind = RBOW_SN_WELD, .log_a1 = 12, .m1 = 3, .log_a2 = NAN, .m2 = NAN, .knee_cycles = NAN,
                                 .cutoff_cycles = NAN, .stress_unit = 1000, .deviation = NAN};
    const rbow_frame_life_row row = {&run, 2, 0, 1};
    rbow_life_result life;
    WANT(rbow_frame_life_of(solver, &row, 1, 0, &spot, &slope, &life) == RBOW_OK);
    NEAR(life.runs, life.cycles_to_crack / 2);
    WANT(rbow_frame_forces(solver, &run, -1, RBOW_FRAME_AS_BUILT, 0, 15, &forces) == RBOW_OK && fabs(forces.axial + 1000) < 1e-6);
    const rbow_frame_cut_place cut = {0, 10};
    const rbow_frame_faces read = {.moved = 0.02, .turned = 0.002, .opened = 0};
    rbow_frame_faces faces;
    rbow_frame_released released;
    void *more = malloc(rbow_frame_cut_memory(&f, NULL, 1));
    joints[1].held = RBOW_HELD_FIXED;
    tube.miss_a = 0.06;
    tube.miss_a_clock = 0;
    WANT(rbow_frame_cut(&f, NULL, &cut, 1, more, &faces, NULL, NULL) == RBOW_OK && fabs(faces.moved - 0.02) < 1e-9);
    WANT(rbow_frame_release(&f, &cut, &read, more, &released, NULL) == RBOW_OK && released.moment_a > 0);
    free(more);
    free(memory);
}

/* The bar of 1 in again: A = pi/4, S = pi/32; its weld is a ring of 1 in with a throat of 0.1 in. */
static void details(void)
{
    rbow_member m = bar();
    rbow_detail ring = rbow_detail_default();
    rbow_detail_result r;
    rbow_net_section n;
    rbow_section_forces f;
    double use[RBOW_DETAIL_MODES], cycles;
    const rbow_sn_curve curve = {.kind = RBOW_SN_WELD, .log_a1 = 12, .m1 = 3, .log_a2 = NAN, .m2 = NAN, .knee_cycles = NAN,
                                 .cutoff_cycles = NAN, .stress_unit = 1000, .deviation = NAN};
    rbow_life_cycle one;
    rbow_life_result life;
    const rbow_life_row row = {&m, 10, 0, 1};
    ring.kind = RBOW_DETAIL_RING_WELD;
    ring.at = 25;
    ring.throat = 0.1;
    WANT(rbow_net_section_of(1, 0.1, 0, 2, &n) == RBOW_OK);
    NEAR(n.area, pi * 0.09);
    WANT(rbow_detail_faults(&ring, &m, &steel, NULL, 0) == 0);
    WANT(rbow_member_forces(&m, &steel, 2, 25, &f) == RBOW_OK);
    NEAR(f.axial, 2000.0);
    WANT(rbow_detail_use(&ring, &m, &steel, &f, use) == RBOW_OK && isnan(use[RBOW_DETAIL_BY_YIELD]));
    NEAR(use[RBOW_DETAIL_BY_WELD], 2000 / (pi * 0.1 * 0.6 * 70e3));
    WANT(rbow_detail_check(&ring, &m, &steel, &r) == RBOW_OK && r.verdict == RBOW_HOLDS);
    ring.throat = 0;
    WANT(rbow_detail_check(&ring, &m, &steel, &r) == RBOW_BAD_THROAT && isnan(r.margin));
    ring.throat = 0.1;
    WANT(rbow_sn_cycles(&curve, 10e3, 0, 0, &cycles) == RBOW_OK);
    NEAR(cycles, 1e9);
    const rbow_section_forces none = {.axial = 0};
    WANT(rbow_life_between(&ring, &m, &steel, &curve, &none, &f, &one) == RBOW_OK);
    NEAR(one.range, 2000 / (pi * 0.1));
    WANT(rbow_life_of(&ring, &row, 1, &steel, &curve, &life) == RBOW_OK);
    NEAR(life.runs, 1e12 / pow(1 / (pi * 0.1), 3) / 10);
    WANT(strcmp(rbow_life_usual_curve(&ring, &m), "W2") == 0);
    WANT(strcmp(rbow_detail_kind_name(RBOW_DETAIL_HOLE), "hole") == 0 && strcmp(rbow_detail_mode_name(RBOW_DETAIL_BY_WELD), "weld") == 0);
    WANT(strcmp(rbow_detail_remark_text(RBOW_DETAIL_UNSTABLE), "unstable as loaded") == 0);
    WANT(strcmp(rbow_life_remark_text(RBOW_LIFE_NO_STATE), "no equilibrium") == 0);
}

static void *check_often(void *margin)
{
    rbow_member m = bar();
    m.bow = 0.1;
    m.miss_a = 0.2;
    m.end_a = m.end_b = RBOW_WELDED;
    for (int i = 0; i < 200; i++) {
        rbow_result r;
        rbow_member_check(&m, &steel, &r);
        if (i == 0) *(double *)margin = r.margin;
        if (fabs(r.margin - *(double *)margin) > 0) *(double *)margin = (double)NAN;
    }
    return NULL;
}

static void threads(void)
{
    enum { THREADS = 4 };
    pthread_t thread[THREADS];
    double margins[THREADS];
    for (int i = 0; i < THREADS; i++) WANT(pthread_create(&thread[i], NULL, check_often, &margins[i]) == 0);
    for (int i = 0; i < THREADS; i++) pthread_join(thread[i], NULL);
    for (int i = 0; i < THREADS; i++) WANT(!(fabs(margins[i] - margins[0]) > 0) && !isnan(margins[i]));
}

int main(void)
{
    gsl_set_error_handler_off();
    version_and_words();
    sighting();
    cutting();
    tube();
    column();
    beam();
    parts();
    material();
    member();
    profile();
    shop();
    frame();
    details();
    threads();
    return failed;
}
