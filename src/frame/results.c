#include "frame/results.h"

#include "frame/element.h"
#include "mechanics/no_result.h"

#include <gsl/gsl_math.h>

RESULT_WITH_WHOLE(rbow_frame_tube_result, verdict, 5);
RESULT_OF_DOUBLES(rbow_frame_joint_result);

void rbow_frame_no_results(const rbow_frame *f, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints,
                           rbow_frame_run_result *whole)
{
    for (size_t i = 0; i < f->tube_count; i++) {
        NO_RESULT_BEFORE(rbow_frame_tube_result, &tubes[i], verdict);
        tubes[i].verdict = RBOW_SHORT;
        tubes[i].governs = RBOW_FRAME_BY_NONE;
    }
    for (size_t i = 0; joints != NULL && i < f->joint_count; i++) NO_RESULT(&joints[i]);
    if (whole == NULL) return;
    NO_RESULT_BEFORE(rbow_frame_run_result, whole, worst_tube);
    whole->verdict = RBOW_SHORT;
    whole->governs = RBOW_FRAME_BY_NONE;
}

/* ---- a tube ------------------------------------------------------------------------------------------------ */

static void remark_if(rbow_frame_tube_result *r, bool so, unsigned remark)
{
    if (so) r->remarks |= remark;
}

static bool is_odd_size(const rbow_member *m)
{
    return m->od < 0.25 || m->od > 6 || m->wall < 0.02 || m->wall > 0.5 || m->wall < m->od / 60 || m->wall > m->od / 4
        || m->length < 3 * m->od || m->length > 240 || m->bow > m->length / 20 || m->miss_a > m->length / 20
        || m->miss_b > m->length / 20;
}

void rbow_frame_tell_tube(const frame_tube *t, const rbow_frame_tube *from, rbow_frame_tube_result *r)
{
    const prepared *p = &t->member;
    r->length = t->length;
    r->weight = p->weight;
    r->column_load = p->column_load;
    remark_if(r, p->effective_length / p->zones[ZONE_TUBE].strength.section.radius > 150, RBOW_REMARK_SLENDER);
    remark_if(r, t->length / from->od < 10, RBOW_REMARK_SHORT_TUBE);
    remark_if(r, p->wall_reduction < 1 || p->weld_reduction < 1, RBOW_REMARK_THIN_WALL);
    remark_if(r, from->fixity > 2 * (1 + 1e-9), RBOW_REMARK_STIFF_ENDS);
    remark_if(r, end_is(from->weld_zone, RBOW_UNSET), RBOW_REMARK_WELD_ZONE_TAKEN);
    remark_if(r, !(from->bow > 0), RBOW_REMARK_NO_BOW);
    remark_if(r, is_odd_size(&p->member), RBOW_REMARK_SIZE);
    remark_if(r, from->dressed > 0 && !(p->member.weld_zone > 0), RBOW_REMARK_IDLE_DRESSED);
}

static evaluation evaluate_tube(const rbow_frame_solver *s, size_t i, double factor)
{
    const frame_tube *t = &s->tubes[i];
    const tube_motion m = rbow_tube_motion(t, s->motion);
    const tube_state state = rbow_tube_state(t, &m);
    evaluation e;
    tube_loads loads;
    rbow_tube_loads(t, &state, factor, &loads);
    rbow_evaluate_loads(&t->member, &loads, true, &e);
    return e;
}

static double clock_of(const double vector[PLANES])
{
    const double clock = atan2(vector[RIGHT], vector[UP]);
    return clock < 0 ? clock + 2 * M_PI : clock;
}

static void tell_end_moments(const rbow_frame_solver *s, size_t i, double factor, rbow_frame_tube_result *r)
{
    const frame_tube *t = &s->tubes[i];
    const tube_motion m = rbow_tube_motion(t, s->motion);
    const tube_state state = rbow_tube_state(t, &m);
    double couples[ENDS][PLANES];
    tube_loads loads;
    rbow_tube_loads(t, &state, factor, &loads);
    rbow_tube_couples(t, &loads, couples);
    const double at_b[PLANES] = {-couples[END_B][UP], -couples[END_B][RIGHT]};
    r->moment_a = hypot(couples[END_A][UP], couples[END_A][RIGHT]);
    r->moment_b = hypot(at_b[UP], at_b[RIGHT]);
    r->moment_a_clock = r->moment_a > 0 ? clock_of(couples[END_A]) : (double)NAN;
    r->moment_b_clock = r->moment_b > 0 ? clock_of(at_b) : (double)NAN;
}

void rbow_frame_tell_rest(const rbow_frame_solver *s, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        rbow_frame_tube_result *r = &tubes[i];
        const evaluation e = evaluate_tube(s, i, 0);
        r->fit_axial = e.axial;
        r->fit_moment = e.moment.size * s->tubes[i].member.unit;
        r->fit_stress = e.stress;
        remark_if(r, e.limits[LIMIT_YIELD].utilisation >= 1, RBOW_REMARK_SET);
    }
    for (size_t i = 0; joints != NULL && i < s->frame.joint_count; i++)
        for (int k = 0; k < RBOW_AXES; k++) joints[i].locked[k] = motions_of(s->motion, i)[k];
}

static void tell_joint(const rbow_frame_solver *s, size_t i, rbow_frame_joint_result *r)
{
    const double *motion = motions_of(s->motion, i), *balance = motions_of(s->balance, i);
    for (int k = 0; k < RBOW_AXES; k++) {
        r->move[k] = motion[k];
        r->turn[k] = motion[RBOW_AXES + k];
    }
    for (int k = 0; k < RBOW_MOTIONS; k++) r->react[k] = s->frame.joints[i].held >> k & 1 ? balance[k] : 0;
}

void rbow_frame_tell_loaded(const rbow_frame_solver *s, rbow_frame_tube_result *tubes, rbow_frame_joint_result *joints)
{
    for (size_t i = 0; i < s->frame.tube_count; i++) {
        rbow_frame_tube_result *r = &tubes[i];
        const evaluation e = evaluate_tube(s, i, 1);
        r->axial = e.axial;
        r->torque = e.torque;
        r->peak_moment = e.moment.size * s->tubes[i].member.unit;
        r->peak_moment_at = (e.moment.at + 0.5) * s->tubes[i].length;
        r->peak_stress = e.stress;
        r->stress_use = e.limits[LIMIT_YIELD].utilisation;
        tell_end_moments(s, i, 1, r);
    }
    for (size_t i = 0; joints != NULL && i < s->frame.joint_count; i++) tell_joint(s, i, &joints[i]);
}

/* ---- margins ----------------------------------------------------------------------------------------------- */

/* Ties go to the column, then to yield. */
frame_margin rbow_frame_margin_of(const rbow_frame_run *run, const tube_limits *l)
{
    const double yield = end_is(run->factor_yield, RBOW_UNSET) ? run->factor : run->factor_yield;
    const double ratio[RBOW_BY_NONE] = {
        [RBOW_BY_COLUMN] = l->factor[RBOW_BY_COLUMN] / run->factor,
        [RBOW_BY_YIELD] = l->factor[RBOW_BY_YIELD] / yield,
        [RBOW_BY_INTERACTION] = l->factor[RBOW_BY_INTERACTION] / run->factor,
    };
    int by = RBOW_BY_COLUMN;
    double least = ratio[by];
    for (int i = by + 1; i < RBOW_BY_NONE; i++) {
        if (ratio[i] < ratio[by] * (1 - 1e-9)) by = i;
        least = fmin(least, ratio[i]);
    }
    const int governs = isinf(least) ? RBOW_FRAME_BY_NONE : l->found[by] ? by : RBOW_FRAME_BY_FRAME;
    return (frame_margin){least - 1, governs};
}

/* ---- the whole frame ---------------------------------------------------------------------------------------- */

static void tell_mass(const rbow_frame *f, const rbow_frame_tube_result *tubes, rbow_frame_run_result *w)
{
    double moment[RBOW_AXES] = {0};
    w->weight = 0;
    for (size_t i = 0; i < f->tube_count; i++) {
        w->weight += tubes[i].weight;
        for (int k = 0; k < RBOW_AXES; k++)
            moment[k] += tubes[i].weight * (f->joints[f->tubes[i].from].at[k] + f->joints[f->tubes[i].to].at[k]) / 2;
    }
    w->mass = w->weight;
    for (size_t i = 0; i < f->joint_count; i++) {
        w->mass += f->joints[i].mass;
        for (int k = 0; k < RBOW_AXES; k++) moment[k] += f->joints[i].mass * f->joints[i].at[k];
    }
    for (int k = 0; k < RBOW_AXES; k++) w->centre[k] = moment[k] / w->mass;
}

void rbow_frame_tell_whole(const rbow_frame *f, const rbow_frame_tube_result *tubes, const rbow_frame_joint_result *joints,
                           rbow_frame_run_result *w)
{
    tell_mass(f, tubes, w);
    w->worst_tube = w->move_joint = 0;
    w->path_end = INFINITY;
    for (size_t i = 0; i < f->tube_count; i++) {
        if (tubes[i].margin < tubes[w->worst_tube].margin) w->worst_tube = i;
        w->path_end = fmin(w->path_end, tubes[i].path_end);
    }
    w->margin = tubes[w->worst_tube].margin;
    w->verdict = tubes[w->worst_tube].verdict;
    w->governs = tubes[w->worst_tube].governs;
    w->move = NAN;
    for (size_t i = 0; joints != NULL && i < f->joint_count; i++) {
        const double *m = joints[i].move, move = hypot(hypot(m[0], m[1]), m[2]);
        if (!(move > w->move) && i > 0) continue;
        w->move = move;
        w->move_joint = i;
    }
}
