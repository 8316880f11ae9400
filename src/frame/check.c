#include "frame/element.h"
#include "frame/factors.h"
#include "frame/state.h"
#include "mechanics/no_result.h"

#include <railbow/clock.h>

#include <gsl/gsl_math.h>
#include <string.h>

RESULT_WITH_WHOLE(rbow_frame_tube_result, verdict, 5);
RESULT_OF_DOUBLES(rbow_frame_joint_result);

/* ---- a tube at load factors 0 and 1 --------------------------------------------------------------------- */

static void tell_rest(const rbow_frame_solver *s, const frame_tube *t, rbow_frame_tube_result *r)
{
    evaluation e;
    rbow_frame_evaluate(s, t, s->rest, 0, false, &e);
    if (!e.stands) return;
    r->fit_axial = e.axial + 0.0;
    r->fit_moment = e.moment.size * t->member.unit;
    r->fit_stress = e.stress;
    if (e.limits[LIMIT_YIELD].utilisation >= 1) r->remarks |= RBOW_REMARK_SET;
}

/* Moments at the ends from the equilibrium, as size and clock of the convex side. */
static void tell_ends(const frame_tube *t, const evaluation *e, rbow_frame_tube_result *r)
{
    rbow_profile ends[ENDS] = {{.at = 0}, {.at = t->length}};
    rbow_profile_of(&t->member, &e->solution, ends, ENDS);
    r->moment_a = hypot(ends[END_A].moment_up, ends[END_A].moment_right);
    r->moment_b = hypot(ends[END_B].moment_up, ends[END_B].moment_right);
    r->moment_a_clock = rbow_clock_of(ends[END_A].moment_up, ends[END_A].moment_right);
    r->moment_b_clock = rbow_clock_of(ends[END_B].moment_up, ends[END_B].moment_right);
}

static void tell_loaded(const rbow_frame_solver *s, const frame_tube *t, const double *unknowns, rbow_frame_tube_result *r)
{
    evaluation e;
    rbow_frame_evaluate(s, t, unknowns, 1, true, &e);
    if (!e.stands) return;
    r->axial = e.axial + 0.0;
    r->torque = e.torque + 0.0;
    r->peak_moment = e.moment.size * t->member.unit;
    r->peak_moment_at = (e.moment.at + 0.5) * t->length;
    r->peak_stress = e.stress;
    r->stress_use = e.limits[LIMIT_YIELD].utilisation;
    tell_ends(t, &e, r);
}

/* ---- joints --------------------------------------------------------------------------------------------- */

static double once(double x)
{
    return x + 0.0; /* no minus before a zero */
}

/* What the support puts on a joint is what its tubes take less what the run puts on it; where nothing is held it is 0. */
static void tell_reactions(const rbow_frame_solver *s, const double *unknowns, rbow_frame_joint_result *joints)
{
    for (size_t i = 0; i < s->frame.joint_count; i++)
        for (int k = 0; k < RBOW_MOTIONS; k++) joints[i].react[k] = -s->applied[i * RBOW_MOTIONS + (size_t)k];
    for (size_t n = 0; n < s->frame.tube_count; n++) {
        frame_tube *t = &s->tubes[n];
        element e;
        double forces[ELEMENT];
        rbow_element_of(s, t, rbow_element_axial(s, t, unknowns), 1, &e);
        rbow_element_forces(s, t, &e, unknowns, 1, forces);
        for (int k = 0; k < ELEMENT; k++) joints[t->joint[k / RBOW_MOTIONS]].react[k % RBOW_MOTIONS] += forces[k];
    }
    for (size_t i = 0; i < s->frame.joint_count; i++)
        for (int k = 0; k < RBOW_MOTIONS; k++)
            if ((s->frame.joints[i].held >> k & 1) == 0) joints[i].react[k] = 0;
}

static void tell_joints(const rbow_frame_solver *s, const double *unknowns, bool loaded, rbow_frame_joint_result *joints)
{
    for (size_t i = 0; i < s->frame.joint_count; i++) {
        rbow_frame_joint_result *j = &joints[i];
        NO_RESULT(j);
        for (int k = 0; k < RBOW_AXES; k++) {
            j->locked[k] = once(motion_of(s, s->rest, i, k));
            if (!loaded) continue;
            j->move[k] = once(motion_of(s, unknowns, i, k));
            j->turn[k] = once(motion_of(s, unknowns, i, RBOW_AXES + k));
        }
    }
    if (loaded) tell_reactions(s, unknowns, joints);
}

/* ---- margins -------------------------------------------------------------------------------------------- */

typedef struct judged {
    double margin, factor[FRAME_LIMITS], governs_at;
    int governs;
} judged;

static double factor_yield_of(const rbow_frame_run *run)
{
    return end_is(run->factor_yield, RBOW_UNSET) ? run->factor : run->factor_yield;
}

/* Ties go to the column, then to yield. A limit that lies beyond the end of the path is the frame's. */
static judged judge(const rbow_frame_run *run, const frame_reached *found, double path_end)
{
    static const int order[FRAME_LIMITS] = {FRAME_COLUMN, FRAME_YIELD, FRAME_INTERACTION};
    static const int names[FRAME_LIMITS] = {[FRAME_COLUMN] = RBOW_FRAME_BY_COLUMN, [FRAME_YIELD] = RBOW_FRAME_BY_YIELD,
                                            [FRAME_INTERACTION] = RBOW_FRAME_BY_INTERACTION};
    judged j = {.margin = INFINITY, .governs_at = NAN, .governs = RBOW_FRAME_BY_NONE};
    double least = INFINITY, lead = INFINITY;
    for (int i = 0; i < FRAME_LIMITS; i++) {
        const int which = order[i];
        const double factor = fmin(found->factor[which], path_end);
        const double ratio = factor / (which == FRAME_YIELD ? factor_yield_of(run) : run->factor);
        j.factor[which] = factor;
        least = fmin(least, ratio);
        if (isinf(ratio) || !(ratio < lead * (1 - 1e-9) || isinf(lead))) continue;
        lead = ratio;
        j.governs = found->factor[which] <= path_end ? names[which] : RBOW_FRAME_BY_FRAME;
        j.governs_at = j.governs == RBOW_FRAME_BY_FRAME ? (double)NAN : found->at[which];
    }
    j.margin = least - 1;
    return j;
}

static void take_margin(const judged *j, int fit, rbow_frame_tube_result *r)
{
    if (fit == RBOW_FRAME_AS_BUILT) r->margin_as_built = fmin(r->margin_as_built, j->margin);
    r->margin_unforced = fit == RBOW_FRAME_UNFORCED ? fmin(r->margin_unforced, j->margin) : r->margin_unforced;
    if (!(j->margin < r->margin || isinf(r->margin))) return;
    if (isinf(r->margin) && isinf(j->margin) && fit == RBOW_FRAME_UNFORCED) return;
    r->margin = j->margin;
    r->governs = j->governs;
    r->governs_at = j->governs_at;
    r->column_factor = j->factor[FRAME_COLUMN];
    r->yield_factor = j->factor[FRAME_YIELD];
    r->interaction_factor = j->factor[FRAME_INTERACTION];
    r->fit_taken = fit;
    r->verdict = j->margin >= 0 ? RBOW_HOLDS : RBOW_SHORT;
}

/* ---- bows of unknown clock ------------------------------------------------------------------------------ */

static bool any_unknown_bow(const rbow_frame_solver *s)
{
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (s->tubes[i].bow_unknown) return true;
    return false;
}

static void set_bow(const rbow_frame_solver *s, size_t tube, double size, double clock)
{
    rbow_clock_components(size * s->frame.tubes[tube].bow / s->tubes[tube].length, clock, s->tubes[tube].bow);
}

/* Turns each bow of unknown clock to the side to which its tube moves most off its chord with these bows zero, at load factor 1
 * or, where there is no such state, at nine tenths of the end of the path. */
static void turn_bows(rbow_frame_solver *s, rbow_frame_tube_result *tubes)
{
    frame_path path;
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (s->tubes[i].bow_unknown) set_bow(s, i, 0, 0);
    const bool begun = rbow_frame_path_begin(&path, s);
    double factor = begun ? rbow_frame_path_to_end(&path) : 0;
    factor = factor > 1 ? 1 : 0.9 * factor;
    const bool moved = begun && rbow_frame_path_begin(&path, s) && rbow_frame_path_go(&path, factor);
    const double *u = rbow_frame_path_state(&path);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const frame_tube *t = &s->tubes[i];
        if (!t->bow_unknown) continue;
        evaluation e = {.stands = false};
        double movement[PLANES] = {0, 0};
        if (moved) rbow_frame_evaluate(s, t, u, factor, false, &e);
        const peak far = e.stands ? rbow_largest_movement(&t->member, &e.solution, movement) : (peak){0, 0};
        tubes[i].bow_clock_taken = far.size > 1e-12 ? rbow_clock_of(movement[UP], movement[RIGHT]) : 0;
    }
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (s->tubes[i].bow_unknown) set_bow(s, i, 1, tubes[i].bow_clock_taken);
}

/* ---- the check ------------------------------------------------------------------------------------------ */

/* One path of states: as built or unforced, with the bows of unknown clock on one side. */
typedef struct pass {
    int fit;
    bool opposite;
    double path_end;
    bool loaded; /* there is a state at load factor 1 */
} pass;

static bool is_forced(const rbow_frame_solver *s)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const rbow_frame_tube *t = &s->frame.tubes[i];
        if (t->miss_a > 0 || t->miss_b > 0 || fabs(t->gap) > 0) return true;
    }
    return false;
}

static double largest_required(const rbow_frame_run *run)
{
    return fmax(run->factor, factor_yield_of(run));
}

static double lowest_margin(const rbow_frame_solver *s, double path_end)
{
    double least = INFINITY;
    for (size_t i = 0; i < s->frame.tube_count; i++) least = fmin(least, judge(s->run, &s->reached[i], path_end).margin);
    return least;
}

/* The values at load factors 0 and 1 as built are those of the side on which the tube's margin is lower. */
static void tell_states(rbow_frame_solver *s, const pass *p, const double *loaded, rbow_frame_tube_result *tubes)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        rbow_frame_tube_result *r = &tubes[i];
        if (!(judge(s->run, &s->reached[i], p->path_end).margin < r->margin_as_built || !p->opposite)) continue;
        r->path_end = p->path_end;
        if (s->tubes[i].bow_unknown && p->opposite) r->bow_clock_taken = fmod(r->bow_clock_taken + M_PI, 2 * M_PI);
        r->remarks &= ~(unsigned)(RBOW_REMARK_SET | RBOW_REMARK_UNSTABLE);
        if (p->path_end > 0) tell_rest(s, &s->tubes[i], r);
        if (p->loaded) tell_loaded(s, &s->tubes[i], loaded, r);
        else r->remarks |= RBOW_REMARK_UNSTABLE;
    }
}

static rbow_status solve_pass(rbow_frame_solver *s, pass *p, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints,
                              rbow_frame_run_result *whole)
{
    frame_path path;
    double *loaded = row_of(s, 0);
    s->fit = p->fit == RBOW_FRAME_AS_BUILT ? 1 : 0;
    s->bows = 1;
    const bool begun = rbow_frame_path_begin(&path, s);
    p->path_end = begun ? rbow_frame_path_to_end(&path) : 0;
    rbow_status status = rbow_frame_factors(s, p->path_end, largest_required(s->run));
    if (status != RBOW_OK) return status;
    p->loaded = p->path_end > 1 && rbow_frame_path_begin(&path, s) && rbow_frame_path_go(&path, 1);
    if (p->loaded) memcpy(loaded, rbow_frame_path_state(&path), s->count * sizeof *loaded);
    if (p->fit == RBOW_FRAME_AS_BUILT) {
        const double lowest = lowest_margin(s, p->path_end);
        const bool lower = !p->opposite || lowest < whole->margin;
        tell_states(s, p, loaded, tubes);
        if (lower && joints != NULL && p->path_end > 0) tell_joints(s, loaded, p->loaded, joints);
        if (lower) {
            whole->path_end = p->path_end;
            whole->margin = lowest;
        }
    }
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const judged j = judge(s->run, &s->reached[i], p->path_end);
        take_margin(&j, p->fit, &tubes[i]);
    }
    return RBOW_OK;
}

static rbow_status solve_sides(rbow_frame_solver *s, int fit, bool two, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints,
                               rbow_frame_run_result *whole, const double *sides)
{
    for (int side = 0; side < (two ? 2 : 1); side++) {
        pass p = {.fit = fit, .opposite = side == 1};
        for (size_t i = 0; i < s->frame.tube_count; i++)
            if (s->tubes[i].bow_unknown) set_bow(s, i, side == 0 ? 1 : -1, sides[i]);
        const rbow_status status = solve_pass(s, &p, tubes, joints, whole);
        if (status != RBOW_OK) return status;
    }
    return RBOW_OK;
}

static void begin_tube(const rbow_frame_solver *s, size_t i, rbow_frame_tube_result *r)
{
    const frame_tube *t = &s->tubes[i];
    const rbow_member m = rbow_frame_member(&s->frame, &s->frame.tubes[i]);
    NO_RESULT_BEFORE(rbow_frame_tube_result, r, verdict);
    r->margin = r->margin_as_built = r->margin_unforced = INFINITY;
    r->yield_factor = r->column_factor = r->interaction_factor = INFINITY;
    r->length = t->length;
    r->weight = t->member.weight;
    r->column_load = t->member.column_load;
    r->governs = RBOW_FRAME_BY_NONE;
    r->verdict = RBOW_HOLDS;
    r->remarks = rbow_tube_remarks(&m, &t->member);
}

static void refuse(const rbow_frame_solver *s, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints, rbow_frame_run_result *whole)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        NO_RESULT_BEFORE(rbow_frame_tube_result, &tubes[i], verdict);
        tubes[i].verdict = RBOW_SHORT;
        tubes[i].governs = RBOW_FRAME_BY_NONE;
    }
    for (size_t i = 0; joints != NULL && i < s->frame.joint_count; i++) NO_RESULT(&joints[i]);
    fill_no_result(whole, offsetof(rbow_frame_run_result, worst_tube), sizeof *whole);
    whole->verdict = RBOW_SHORT;
    whole->governs = RBOW_FRAME_BY_NONE;
}

static void add_mass(rbow_frame_run_result *w, double mass, const double at[RBOW_AXES])
{
    w->mass += mass;
    for (int k = 0; k < RBOW_AXES; k++) w->centre[k] += mass * at[k];
}

static void tell_masses(const rbow_frame_solver *s, rbow_frame_run_result *w)
{
    w->weight = w->mass = 0;
    memset(w->centre, 0, sizeof w->centre);
    for (size_t i = 0; i < s->frame.joint_count; i++) add_mass(w, s->frame.joints[i].mass, s->frame.joints[i].at);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const double *a = s->frame.joints[s->tubes[i].joint[END_A]].at, *b = s->frame.joints[s->tubes[i].joint[END_B]].at;
        const double middle[RBOW_AXES] = {(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2};
        w->weight += s->tubes[i].member.weight;
        add_mass(w, s->tubes[i].member.weight, middle);
    }
    for (int k = 0; k < RBOW_AXES; k++) w->centre[k] = w->mass > 0 ? w->centre[k] / w->mass : (double)NAN;
}

static void tell_whole(const rbow_frame_solver *s, const rbow_frame_tube_result *tubes, const rbow_frame_joint_result *joints,
                       rbow_frame_run_result *w)
{
    w->worst_tube = 0;
    for (size_t i = 1; i < s->frame.tube_count; i++)
        if (tubes[i].margin < tubes[w->worst_tube].margin) w->worst_tube = i;
    w->margin = tubes[w->worst_tube].margin;
    w->verdict = tubes[w->worst_tube].verdict;
    w->governs = tubes[w->worst_tube].governs;
    tell_masses(s, w);
    w->move = NAN;
    w->move_joint = 0;
    for (size_t i = 0; joints != NULL && i < s->frame.joint_count; i++) {
        const double moved = sqrt(dot3(joints[i].move, joints[i].move));
        if (!(moved > w->move || isnan(w->move))) continue;
        w->move = moved;
        w->move_joint = i;
    }
}

static rbow_status check(rbow_frame_solver *s, const rbow_frame_run *run, rbow_frame_tube_result *tubes,
                         rbow_frame_joint_result *joints, rbow_frame_run_result *whole)
{
    double critical;
    rbow_status status = rbow_frame_critical_factor(s, run, &critical);
    if (status != RBOW_OK) return status;
    const bool two = any_unknown_bow(s);
    double *sides = s->sides;
    whole->critical_factor = critical;
    whole->margin = INFINITY;
    s->fit = s->bows = 1;
    for (size_t i = 0; i < s->frame.tube_count; i++) begin_tube(s, i, &tubes[i]);
    for (size_t i = 0; joints != NULL && i < s->frame.joint_count; i++) NO_RESULT(&joints[i]);
    if (two) turn_bows(s, tubes);
    for (size_t i = 0; i < s->frame.tube_count; i++) sides[i] = tubes[i].bow_clock_taken;
    status = solve_sides(s, RBOW_FRAME_AS_BUILT, two, tubes, joints, whole, sides);
    if (status == RBOW_OK && is_forced(s)) status = solve_sides(s, RBOW_FRAME_UNFORCED, two, tubes, NULL, whole, sides);
    if (status != RBOW_OK) return status;
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        if (!is_forced(s)) tubes[i].margin_unforced = tubes[i].margin_as_built;
        tubes[i].near_buckling = critical < 3;
    }
    tell_whole(s, tubes, joints, whole);
    return RBOW_OK;
}

rbow_status rbow_frame_check(rbow_frame_solver *s, const rbow_frame_run *run, rbow_frame_tube_result *tubes,
                             rbow_frame_joint_result *joints, rbow_frame_run_result *whole)
{
    rbow_frame_run_result unwanted;
    if (whole == NULL) whole = &unwanted;
    const rbow_status status = check(s, run, tubes, joints, whole);
    if (status != RBOW_OK) refuse(s, tubes, joints, whole);
    return status;
}
