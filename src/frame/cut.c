#include <railbow/frame_cut.h>

#include "frame/cut_pieces.h"
#include "frame/cut_stubs.h"
#include "frame/element.h"
#include "frame/tube_search.h"
#include "frame/stiffness.h"
#include "mechanics/no_result.h"

#include <railbow/clock.h>

RESULT_OF_DOUBLES(rbow_frame_faces);
RESULT_OF_DOUBLES(rbow_frame_released);
RESULT_OF_DOUBLES(rbow_frame_motion);

typedef struct cutting {
    cut_pieces pieces;
    cut_stubs *stubs;
    rbow_frame_load *loads; /* of the run, as far as they act on the part */
    rbow_frame_motion *before, *after;
    void *solver;           /* memory; first for the whole frame, then for the part */
    rbow_frame_run run;     /* that of the whole */
    bool loaded;
} cutting;

/* ---- room ----------------------------------------------------------------------------------------------- */

static void *take(char *memory, size_t *used, size_t bytes)
{
    const size_t from = (*used + 63) / 64 * 64;
    *used = from + bytes;
    return memory != NULL ? memory + from : NULL;
}

/* Returned: bytes before the solver. memory: NULL to count */
static size_t lay_out(cutting *c, const rbow_frame *f, const rbow_frame_run *run, size_t cuts, char *memory)
{
    size_t used = 0;
    c->pieces.joints = take(memory, &used, f->joint_count * sizeof *c->pieces.joints);
    c->pieces.tubes = take(memory, &used, f->tube_count * sizeof *c->pieces.tubes);
    c->pieces.piece = take(memory, &used, f->joint_count * sizeof *c->pieces.piece);
    c->pieces.holder = take(memory, &used, f->joint_count * sizeof *c->pieces.holder);
    c->pieces.reached = take(memory, &used, f->joint_count * sizeof *c->pieces.reached);
    c->pieces.turned = take(memory, &used, f->joint_count * sizeof *c->pieces.turned);
    c->stubs = take(memory, &used, cuts * sizeof *c->stubs);
    c->loads = take(memory, &used, (run != NULL ? run->load_count : 0) * sizeof *c->loads);
    c->before = take(memory, &used, f->joint_count * sizeof *c->before);
    c->after = take(memory, &used, f->joint_count * sizeof *c->after);
    c->solver = take(memory, &used, 0);
    return used;
}

size_t rbow_frame_cut_memory(const rbow_frame *frame, const rbow_frame_run *run, size_t cut_count)
{
    cutting c;
    const size_t solver = rbow_frame_memory(frame);
    return solver > 0 ? lay_out(&c, frame, run, cut_count, NULL) + solver : 0;
}

/* ---- the whole frame ------------------------------------------------------------------------------------ */

static rbow_status check_cuts(const cutting *c, rbow_frame_cut_note *note)
{
    const cut_pieces *p = &c->pieces;
    if (p->cut_count == 0) return RBOW_OUT_OF_RANGE;
    for (size_t i = 0; i < p->cut_count; i++) {
        note->cut = i;
        if (p->cuts[i].tube >= p->whole->tube_count) return RBOW_OUT_OF_RANGE;
        const rbow_member m = rbow_frame_member(p->whole, &p->whole->tubes[p->cuts[i].tube]);
        if (!(p->cuts[i].at > 0 && p->cuts[i].at < m.length)) return RBOW_BAD_FRAME_CUT;
        for (size_t k = 0; k < i; k++)
            if (p->cuts[k].tube == p->cuts[i].tube) return RBOW_CUT_TWICE;
    }
    return RBOW_OK;
}

/* The state before the cuts, and from its solver what the stubs are. */
static rbow_status solve_whole(cutting *c, rbow_frame_loose *loose)
{
    const cut_pieces *p = &c->pieces;
    rbow_frame_solver *s;
    rbow_status status = rbow_frame_open(p->whole, c->solver, &s, loose);
    if (status != RBOW_OK) return status;
    status = rbow_frame_state(s, &c->run, c->loaded ? 1 : 0, RBOW_FRAME_AS_BUILT, c->before, NULL);
    for (size_t i = 0; i < p->cut_count; i++) {
        const size_t tube = p->cuts[i].tube;
        rbow_cut_stubs(&c->stubs[i], &s->tubes[tube], &p->whole->tubes[tube], &p->cuts[i], c->loaded ? &c->run : NULL);
    }
    return status;
}

/* ---- what is left --------------------------------------------------------------------------------------- */

/* Numbers the tubes that are left as the part does. Returned: false for a cut tube */
static bool number_in_part(const cut_pieces *p, size_t *tube)
{
    size_t before = 0;
    for (size_t i = 0; i < p->cut_count; i++) {
        if (p->cuts[i].tube == *tube) return false;
        before += p->cuts[i].tube < *tube;
    }
    *tube -= before;
    return true;
}

/* The run without what acts on the cut tubes. A moment on a joint that only supports keep from turning is theirs. */
static rbow_frame_run run_of_part(const cutting *c)
{
    rbow_frame_run run = {c->loads, 0, 1, RBOW_UNSET};
    for (size_t i = 0; c->loaded && i < c->run.load_count; i++) {
        rbow_frame_load l = c->run.loads[i];
        if (l.acts_on == RBOW_ACTS_ON_TUBE && !number_in_part(&c->pieces, &l.index)) continue;
        if (l.acts_on == RBOW_ACTS_ON_JOINT && !c->pieces.turned[l.index]) memset(l.moment, 0, sizeof l.moment);
        c->loads[run.load_count++] = l;
    }
    return run;
}

static rbow_status go(const cutting *c, rbow_frame_solver *s, const double **unknowns, frame_path *path)
{
    const rbow_frame_run run = run_of_part(c);
    const rbow_status status = rbow_frame_set_run(s, &run);
    if (status != RBOW_OK) return status;
    for (size_t i = 0; c->loaded && i < c->pieces.cut_count; i++) rbow_cut_stub_loads(&c->stubs[i], s->applied);
    s->fit = s->bows = 1;
    if (!rbow_frame_path_begin(path, s) || !rbow_frame_path_go(path, c->loaded ? 1 : 0)) return RBOW_UNSTABLE;
    *unknowns = rbow_frame_path_state(path);
    return RBOW_OK;
}

static rbow_status solve_part(cutting *c, rbow_frame_loose *loose)
{
    const size_t joints = c->pieces.whole->joint_count;
    rbow_frame_solver *s;
    frame_path path;
    const double *u = NULL;
    memset(c->after, 0, joints * sizeof *c->after);
    if (c->pieces.part.tube_count > 0) {
        rbow_status status = rbow_frame_open_part(&c->pieces.part, c->pieces.whole, c->solver, &s, loose);
        if (status == RBOW_OK) status = go(c, s, &u, &path);
        if (status != RBOW_OK) return status;
        for (size_t i = 0; i < joints; i++)
            for (int k = 0; k < RBOW_AXES; k++) {
                c->after[i].move[k] = motion_of(s, u, i, k);
                c->after[i].turn[k] = motion_of(s, u, i, RBOW_AXES + k);
            }
    }
    rbow_cut_place_free(&c->pieces, c->before, c->after);
    return RBOW_OK;
}

static rbow_status cut_frame(cutting *c, const rbow_frame *frame, const rbow_frame_run *run, void *memory, rbow_frame_cut_note *note)
{
    c->pieces.whole = frame;
    c->loaded = run != NULL;
    c->run = run != NULL ? *run : (rbow_frame_run){NULL, 0, 1, RBOW_UNSET};
    rbow_status status = check_cuts(c, note);
    if (status != RBOW_OK || memory == NULL) return status != RBOW_OK ? status : RBOW_OUT_OF_RANGE;
    lay_out(c, frame, run, c->pieces.cut_count, memory);
    status = rbow_cut_pieces(&c->pieces, c->loaded, note);
    if (status == RBOW_OK) status = solve_whole(c, &note->loose);
    return status == RBOW_OK ? solve_part(c, &note->loose) : status;
}

static bool is_alone(const cutting *c, size_t joint)
{
    return !c->pieces.reached[joint] && c->pieces.whole->joints[joint].held == RBOW_HELD_NONE;
}

rbow_status rbow_frame_cut(const rbow_frame *frame, const rbow_frame_run *run, const rbow_frame_cut_place *cuts, size_t cut_count,
                           void *memory, rbow_frame_faces *faces, rbow_frame_motion *joints, rbow_frame_cut_note *note)
{
    rbow_frame_cut_note unwanted = {0};
    cutting c = {.pieces = {.cuts = cuts, .cut_count = cut_count}};
    if (note == NULL) note = &unwanted;
    for (size_t i = 0; i < cut_count; i++) NO_RESULT(&faces[i]);
    for (size_t i = 0; joints != NULL && i < frame->joint_count; i++) NO_RESULT(&joints[i]);
    if (rbow_frame_faults(frame, NULL, 0) > 0) return RBOW_OUT_OF_RANGE;
    const rbow_status status = cut_frame(&c, frame, run, memory, note);
    if (status != RBOW_OK) return status;
    note->free_joints = 0;
    for (size_t i = 0; i < frame->joint_count; i++) note->free_joints += c.pieces.holder[c.pieces.piece[i]] != not_free;
    for (size_t i = 0; i < cut_count; i++) rbow_cut_faces(&c.stubs[i], c.after, &faces[i]);
    for (size_t i = 0; joints != NULL && i < frame->joint_count; i++)
        for (int k = 0; k < RBOW_AXES && !is_alone(&c, i); k++) {
            joints[i].move[k] = c.after[i].move[k] - c.before[i].move[k];
            joints[i].turn[k] = c.after[i].turn[k] - c.before[i].turn[k];
        }
    return RBOW_OK;
}

/* ---- from readings -------------------------------------------------------------------------------------- */

/* Size and clock of a slope, as a miss. */
static double miss_of(const double slope[PLANES], double length, double *clock)
{
    *clock = rbow_clock_of(slope[UP], slope[RIGHT]);
    return hypot(slope[UP], slope[RIGHT]) * length;
}

static void put_misses(rbow_frame_tube *t, const rbow_frame_released *r)
{
    t->miss_a = r->miss_a;
    t->miss_b = r->miss_b;
    t->miss_a_clock = r->miss_a > 0 ? r->miss_a_clock : 0;
    t->miss_b_clock = r->miss_b > 0 ? r->miss_b_clock : 0;
    t->gap = r->gap;
}

/* The force of the B side across the drawn line is the same all along a tube without run loads; the moment of the B side that bends
 * the A stub toward a side has its convex side opposite. */
static bool tell_locked(const rbow_frame_solver *s, size_t tube, double at, const double *u, rbow_frame_released *r)
{
    const frame_tube *t = &s->tubes[tube];
    const double axial = rbow_element_axial(s, t, u);
    const axial_forces both = {axial, axial};
    rbow_profile places[3] = {{.at = 0}, {.at = at}, {.at = t->length}};
    double forces[ELEMENT];
    evaluation e;
    rbow_frame_evaluate(s, t, u, 0, false, &e);
    if (!e.stands) return false;
    rbow_profile_of(&t->member, &e.solution, places, 3);
    rbow_element_forces(s, t, &both, u, 0, forces);
    const double up = dot3(forces + RBOW_MOTIONS, t->side[UP]), right = dot3(forces + RBOW_MOTIONS, t->side[RIGHT]);
    r->fit_axial = axial + 0.0;
    r->shear = hypot(up, right);
    r->shear_clock = rbow_clock_of(up, right);
    r->moment_a = hypot(places[0].moment_up, places[0].moment_right);
    r->moment_at_cut = hypot(places[1].moment_up, places[1].moment_right);
    r->moment_clock = rbow_clock_of(-places[1].moment_up, -places[1].moment_right);
    r->moment_b = hypot(places[2].moment_up, places[2].moment_right);
    r->fit_stress = e.stress;
    r->yield_use = e.limits[LIMIT_YIELD].utilisation;
    return true;
}

/* The whole frame with the tube as it was built in. */
static rbow_status solve_built_in(cutting *c, const rbow_frame_cut_place *cut, rbow_frame_released *r)
{
    cut_pieces *p = &c->pieces;
    rbow_frame_fault at;
    rbow_frame_solver *s;
    frame_path path;
    memcpy(p->tubes, p->whole->tubes, p->whole->tube_count * sizeof *p->tubes);
    put_misses(&p->tubes[cut->tube], r);
    const rbow_frame with = {p->whole->joints, p->whole->joint_count, p->tubes, p->whole->tube_count};
    if (rbow_frame_faults(&with, &at, 1) > 0) return at.status;
    rbow_status status = rbow_frame_open(&with, c->solver, &s, NULL);
    if (status == RBOW_OK) status = rbow_frame_set_run(s, &c->run);
    if (status != RBOW_OK) return status;
    s->fit = s->bows = 1;
    if (!rbow_frame_path_begin(&path, s)) return RBOW_UNSTABLE;
    return tell_locked(s, cut->tube, cut->at, rbow_frame_path_state(&path), r) ? RBOW_OK : RBOW_UNSTABLE;
}

static bool are_readings(const rbow_frame_faces *f)
{
    const bool turned = isnan(f->turned) || (f->turned >= 0 && isfinite(f->turned) && (isfinite(f->turned_clock) || !(f->turned > 0)));
    return f->moved >= 0 && isfinite(f->moved) && isfinite(f->opened) && (isfinite(f->moved_clock) || !(f->moved > 0)) && turned;
}

/* What was locked in if the stubs are turned so against each other. */
static rbow_status release_turned(cutting *c, const rbow_frame_faces *faces, const double turned[PLANES], rbow_frame_released *r)
{
    const double length = c->stubs[0].length;
    double slope[ENDS][PLANES];
    rbow_frame_faces whole = *faces;
    whole.turned = hypot(turned[UP], turned[RIGHT]);
    whole.turned_clock = rbow_clock_of(turned[UP], turned[RIGHT]);
    rbow_cut_built_in(&c->stubs[0], c->after, &whole, slope, &r->gap);
    r->miss_a = miss_of(slope[END_A], length, &r->miss_a_clock);
    r->miss_b = miss_of(slope[END_B], length, &r->miss_b_clock);
    return solve_built_in(c, c->pieces.cuts, r);
}

static rbow_status moment_at(cutting *c, const rbow_frame_faces *faces, const double turned[PLANES], rbow_frame_released *r,
                             double moment[PLANES])
{
    const rbow_status status = release_turned(c, faces, turned, r);
    if (status == RBOW_OK && r->moment_at_cut > 0) rbow_clock_components(r->moment_at_cut, r->moment_clock, moment);
    else moment[UP] = moment[RIGHT] = 0;
    return status;
}

/* The angle at which the cut carries no moment, by steps with the flexibility at the angle 0: the moment is very nearly linear. */
static rbow_status release_least(cutting *c, const rbow_frame_faces *faces, rbow_frame_released *r)
{
    enum { STEPS_MOST = 40 };
    const double reach = 1e-3; /* rad */
    double turned[PLANES] = {0, 0}, first[PLANES], by[PLANES][PLANES];
    rbow_status status = moment_at(c, faces, turned, r, first);
    for (int i = 0; i < PLANES && status == RBOW_OK; i++) {
        const double probe[PLANES] = {i == UP ? reach : 0, i == RIGHT ? reach : 0};
        status = moment_at(c, faces, probe, r, by[i]);
        for (int k = 0; k < PLANES; k++) by[i][k] = (by[i][k] - first[k]) / reach;
    }
    for (int step = 0; step < STEPS_MOST && status == RBOW_OK; step++) {
        double moment[PLANES];
        status = moment_at(c, faces, turned, r, moment);
        if (status != RBOW_OK || hypot(moment[UP], moment[RIGHT]) <= 1e-9 * (r->moment_a + r->moment_b)) return status;
        const double det = by[UP][UP] * by[RIGHT][RIGHT] - by[RIGHT][UP] * by[UP][RIGHT];
        turned[UP] -= (moment[UP] * by[RIGHT][RIGHT] - moment[RIGHT] * by[RIGHT][UP]) / det;
        turned[RIGHT] -= (moment[RIGHT] * by[UP][UP] - moment[UP] * by[UP][RIGHT]) / det;
    }
    return status != RBOW_OK ? status : RBOW_NO_CONVERGENCE;
}

/* A free piece says nothing: its readings are those of the floor it lies on. */
static rbow_status release(cutting *c, const rbow_frame *frame, const rbow_frame_faces *faces, void *memory,
                           rbow_frame_released *r, rbow_frame_cut_note *note)
{
    double turned[PLANES] = {0, 0};
    const rbow_status status = cut_frame(c, frame, NULL, memory, note);
    if (status != RBOW_OK) return status;
    for (size_t i = 0; i < frame->joint_count; i++) {
        if (c->pieces.holder[i] == not_free) continue;
        note->loose.joint = i;
        return RBOW_PIECE_NOT_HELD;
    }
    if (isnan(faces->turned)) return release_least(c, faces, r);
    if (faces->turned > 0) rbow_clock_components(faces->turned, faces->turned_clock, turned);
    return release_turned(c, faces, turned, r);
}

rbow_status rbow_frame_release(const rbow_frame *frame, const rbow_frame_cut_place *cut, const rbow_frame_faces *faces, void *memory,
                               rbow_frame_released *released, rbow_frame_cut_note *note)
{
    rbow_frame_cut_note unwanted = {0};
    cutting c = {.pieces = {.cuts = cut, .cut_count = 1}};
    rbow_frame_released r;
    if (note == NULL) note = &unwanted;
    NO_RESULT(released);
    if (rbow_frame_faults(frame, NULL, 0) > 0) return RBOW_OUT_OF_RANGE;
    if (!are_readings(faces)) return RBOW_NOT_FINITE;
    const rbow_status status = release(&c, frame, faces, memory, &r, note);
    if (status == RBOW_OK) *released = r;
    return status;
}
