#include "frame/bows.h"
#include "frame/element.h"
#include "frame/factors.h"
#include "frame/tube_search.h"
#include "frame/margin.h"
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
        const frame_tube *t = &s->tubes[n];
        const double axial = rbow_element_axial(s, t, unknowns);
        const axial_forces both = {axial, axial};
        double forces[ELEMENT];
        rbow_element_forces(s, t, &both, unknowns, 1, forces);
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

static void take_factors(const judged *j, int fit, rbow_frame_tube_result *r)
{
    r->margin = j->margin;
    r->governs = j->governs;
    r->governs_at = j->governs_at;
    r->column_factor = j->factor[FRAME_COLUMN];
    r->yield_factor = j->factor[FRAME_YIELD];
    r->interaction_factor = j->factor[FRAME_INTERACTION];
    r->fit_taken = fit;
    r->verdict = j->margin >= 0 ? RBOW_HOLDS : RBOW_SHORT;
}

/* The lower margin stands; as built comes first, and stands where both are alike. */
static void take_margin(const judged *j, int fit, rbow_frame_tube_result *r)
{
    if (fit == RBOW_FRAME_AS_BUILT) r->margin_as_built = r->margin_unforced = j->margin;
    else r->margin_unforced = j->margin;
    if (fit == RBOW_FRAME_AS_BUILT || j->margin < r->margin) take_factors(j, fit, r);
}

/* ---- the check ------------------------------------------------------------------------------------------ */

static void begin_tube(const rbow_frame_solver *s, size_t i, rbow_frame_tube_result *r)
{
    const frame_tube *t = &s->tubes[i];
    const rbow_member m = rbow_frame_member(&s->frame, &s->frame.tubes[i]);
    NO_RESULT_BEFORE(rbow_frame_tube_result, r, verdict);
    r->length = t->length;
    r->weight = t->member.weight;
    r->column_load = t->member.column_load;
    r->remarks = rbow_tube_remarks(&m, &t->member);
}

/* The state at load factor 1, in row 0. */
static bool load_fully(rbow_frame_solver *s, double path_end)
{
    frame_path path;
    if (!(path_end > 1 && rbow_frame_path_begin(&path, s) && rbow_frame_path_go(&path, 1))) return false;
    memcpy(row_of(s, 0), rbow_frame_path_state(&path), s->count * sizeof(double));
    return true;
}

/* The values at load factors 0 and 1, which are as built. */
static void tell_states(rbow_frame_solver *s, double path_end, rbow_frame_tube_result *tubes)
{
    const bool loaded = load_fully(s, path_end);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        begin_tube(s, i, &tubes[i]);
        tubes[i].path_end = path_end;
        if (path_end > 0) tell_rest(s, &s->tubes[i], &tubes[i]);
        if (loaded) tell_loaded(s, &s->tubes[i], row_of(s, 0), &tubes[i]);
        else tubes[i].remarks |= RBOW_REMARK_UNSTABLE;
    }
}

/* One path of states with the bows as they are turned. */
static rbow_status solve_path(rbow_frame_solver *s, int fit, rbow_frame_tube_result *tubes)
{
    frame_path path;
    s->fit = fit == RBOW_FRAME_AS_BUILT ? 1 : 0;
    s->bows = 1;
    const double path_end = rbow_frame_path_begin(&path, s) ? rbow_frame_path_to_end(&path) : 0;
    const rbow_status status = rbow_frame_factors(s, path_end);
    if (status != RBOW_OK) return status;
    if (fit == RBOW_FRAME_AS_BUILT) tell_states(s, path_end, tubes);
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        const judged j = rbow_frame_judge(s->run, &s->reached[i], path_end);
        take_margin(&j, fit, &tubes[i]);
    }
    return RBOW_OK;
}

/* As built and unforced, with the bows of unknown clock on one side. */
static rbow_status solve_side(rbow_frame_solver *s, bool opposite, rbow_frame_tube_result *tubes)
{
    rbow_frame_turn_bows(s, opposite ? -1 : 1);
    rbow_status status = solve_path(s, RBOW_FRAME_AS_BUILT, tubes);
    if (status == RBOW_OK && rbow_frame_is_forced(s)) status = solve_path(s, RBOW_FRAME_UNFORCED, tubes);
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (s->tubes[i].bow_unknown) tubes[i].bow_clock_taken = fmod(s->sides[i] + (opposite ? M_PI : 0), 2 * M_PI);
    return status;
}

static size_t worst_of(const rbow_frame_solver *s, const rbow_frame_tube_result *tubes)
{
    size_t worst = 0;
    for (size_t i = 1; i < s->frame.tube_count; i++)
        if (tubes[i].margin < tubes[worst].margin) worst = i;
    return worst;
}

/* Every row is that of the side on which its tube's margin is lower.
 * Returned: opposite  whether the worst tube's is the second side; path_end, the lower of both */
static rbow_status solve_sides(rbow_frame_solver *s, rbow_frame_tube_result *tubes, bool *opposite, double *path_end)
{
    rbow_frame_tube_result *other = s->other_side;
    rbow_status status = solve_side(s, false, tubes);
    *opposite = false;
    *path_end = tubes[0].path_end;
    if (status != RBOW_OK || !rbow_frame_has_open_bow(s)) return status;
    status = solve_side(s, true, other);
    if (status != RBOW_OK) return status;
    *opposite = other[worst_of(s, other)].margin < tubes[worst_of(s, tubes)].margin;
    *path_end = fmin(*path_end, other[0].path_end);
    for (size_t i = 0; i < s->frame.tube_count; i++)
        if (other[i].margin < tubes[i].margin) tubes[i] = other[i];
    return RBOW_OK;
}

/* As built, with the bows of unknown clock on the side of the run's margin. */
static void solve_joints(rbow_frame_solver *s, bool opposite, rbow_frame_joint_result *joints)
{
    frame_path path;
    for (size_t i = 0; i < s->frame.joint_count; i++) NO_RESULT(&joints[i]);
    rbow_frame_turn_bows(s, opposite ? -1 : 1);
    s->fit = 1;
    if (!rbow_frame_path_begin(&path, s)) return;
    const bool loaded = rbow_frame_path_go(&path, 1);
    tell_joints(s, rbow_frame_path_state(&path), loaded, joints);
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
    w->worst_tube = worst_of(s, tubes);
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
    bool opposite;
    rbow_status status = rbow_frame_critical_factor(s, run, &whole->critical_factor);
    if (status != RBOW_OK) return status;
    s->fit = s->bows = 1;
    if (rbow_frame_has_open_bow(s)) rbow_frame_find_sides(s);
    status = solve_sides(s, tubes, &opposite, &whole->path_end);
    if (status != RBOW_OK) return status;
    if (joints != NULL) solve_joints(s, opposite, joints);
    for (size_t i = 0; i < s->frame.tube_count; i++) tubes[i].near_buckling = whole->critical_factor < 3;
    tell_whole(s, tubes, joints, whole);
    return RBOW_OK;
}

rbow_status rbow_frame_check(rbow_frame_solver *s, const rbow_frame_run *run, rbow_frame_tube_result *tubes,
                             rbow_frame_joint_result *joints, rbow_frame_run_result *whole)
{
    rbow_frame_run_result unwanted;
    if (whole == NULL) whole = &unwanted;
    const bool *picked = s->judged;
    s->judged = NULL;
    const rbow_status status = check(s, run, tubes, joints, whole);
    s->judged = picked;
    if (status != RBOW_OK) refuse(s, tubes, joints, whole);
    return status;
}
