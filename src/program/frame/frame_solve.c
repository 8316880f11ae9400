#include "program/frame/frame_solve.h"

#include "program/exit_status.h"
#include "program/frame/frame_detail.h"
#include "program/frame/frame_rows.h"
#include "program/say.h"
#include "study/parallel.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void *frame_room(const rbow_frame *f)
{
    const size_t bytes = rbow_frame_memory(f);
    return bytes > 0 ? malloc(bytes) : NULL; /* 0: there was none even to count them */
}

/* ---- held -------------------------------------------------------------------------------------------------- */

/* "forward and up": every part of a motion that counts. */
static void say_motion(text *out, const double motion[RBOW_MOTIONS])
{
    static const char *const ways[RBOW_MOTIONS][2] = {
        {"forward (+x)", "backward (-x)"}, {"to the left (+y)", "to the right (-y)"}, {"up (+z)", "down (-z)"},
        {"turning about x", "turning about x"}, {"turning about y", "turning about y"}, {"turning about z", "turning about z"}};
    const double counts = 0.2;
    const char *between = "";
    for (int i = 0; i < RBOW_MOTIONS; i++) {
        if (fabs(motion[i]) < counts) continue;
        text_format(out, "%s%s", between, ways[i][motion[i] < 0]);
        between = ", ";
    }
}

void frame_say_loose(const frame_build *b, const rbow_frame_loose *loose, const char *what)
{
    const joint_row *j = &b->model.joints[loose->joint];
    text complaint = {0}, name = {0}, motion = {0};
    text_quote(&name, j->name, strlen(j->name));
    say_motion(&motion, loose->motion);
    frame_refuse(&complaint, b, FRAME_JOINTS, j->line, rbow_status_input(RBOW_FRAME_NOT_HELD),
                 "%s is not held: joint %s moves freely: %s", what, text_string(&name, &complaint.failed),
                 text_string(&motion, &complaint.failed));
    if (complaint.failed) say("out of memory");
    else say_lines(complaint.at);
    text_free(&complaint);
    text_free(&name);
    text_free(&motion);
}

bool frame_is_held(const frame_build *b)
{
    rbow_frame_solver *solver;
    rbow_frame_loose loose;
    void *memory = frame_room(&b->model.frame);
    if (memory == NULL) {
        say("out of memory");
        return false;
    }
    const rbow_status status = rbow_frame_open(&b->model.frame, memory, &solver, &loose);
    free(memory);
    if (status == RBOW_OK) return true;
    if (status == RBOW_FRAME_NOT_HELD) frame_say_loose(b, &loose, "the frame");
    else if (status == RBOW_NO_MEMORY) say("out of memory");
    else say("%s: %s", b->tables.paths[FRAME_TUBES], rbow_status_text(status));
    return false;
}

/* ---- solving ----------------------------------------------------------------------------------------------- */

typedef struct work {
    const frame_build *b;
    frame_solved *s;
    rbow_status *statuses; /* of each run */
    bool *short_of_memory; /* likewise */
} work;

static void take_tubes(const work *w, size_t run, const rbow_frame_tube_result *results)
{
    const frame_model *model = &w->b->model;
    const rbow_frame_run *of = &model->runs[run].run;
    frame_tube_answer *to = w->s->answers.tubes + run * w->s->answers.judged;
    for (size_t i = 0; i < w->s->answers.judged; i++, to++) {
        const size_t tube = w->s->judged[i];
        to->given = model->tubes[tube];
        to->given.part = frame_tube_part(&model->tubes[tube]);
        to->given.tube = w->b->tubes[tube];
        to->run = model->runs[run].name;
        to->factor = of->factor;
        to->factor_yield = of->factor_yield > 0 ? of->factor_yield : of->factor;
        to->result = to->alone = results[tube];
        to->governs = frame_governs_name(NULL, to->result.governs);
        frame_remarks_write(to->remarks_text, to->result.remarks, to->result.near_buckling);
        to->remarks = to->remarks_text;
    }
}

static frame_tube_answer *answer_of(const work *w, size_t run, size_t tube)
{
    frame_tube_answer *to = w->s->answers.tubes + run * w->s->answers.judged;
    for (size_t i = 0; i < w->s->answers.judged; i++)
        if (w->s->judged[i] == tube) return &to[i];
    return NULL;
}

/* Lowers the answer of its tube. Given: i  of the details that are judged */
static void take_detail(const work *w, size_t run, size_t i, const rbow_frame_detail *on, const rbow_detail_result *found)
{
    const size_t which = w->s->detailed[i], at = run * w->s->answers.detail_count + i;
    frame_tube_answer *to = answer_of(w, run, on->tube);
    w->s->details[at] = frame_detail_answer(w->b, which, run, found, w->s->detail_remarks[at]);
    w->s->details[at].length = to->result.length;
    frame_detail_lower(&to->result, which, &on->detail, found);
    if (to->result.governs < FRAME_BY_DETAIL) return;
    to->governs = frame_governs_name(&w->b->details, to->result.governs);
    to->detail = governing_detail_of(&w->s->details[at]);
    to->result.governs = RBOW_FRAME_BY_NONE;
}

/* The details of the tubes that are judged. */
static rbow_status take_details(const work *w, size_t run, rbow_frame_solver *solver)
{
    const size_t count = w->s->answers.detail_count;
    if (count == 0) return RBOW_OK;
    rbow_frame_detail *on = malloc(count * sizeof *on);
    rbow_detail_result *found = malloc(count * sizeof *found);
    w->short_of_memory[run] = on == NULL || found == NULL;
    rbow_status status = w->short_of_memory[run] ? RBOW_NO_MEMORY : RBOW_OK;
    for (size_t i = 0; i < count && status == RBOW_OK; i++) on[i] = frame_detail_on(&w->b->details.at[w->s->detailed[i]], &w->b->model.frame);
    if (status == RBOW_OK) status = rbow_frame_details_check(solver, &w->b->model.runs[run].run, on, count, found);
    for (size_t i = 0; i < count && status == RBOW_OK; i++) take_detail(w, run, i, &on[i], &found[i]);
    free(on);
    free(found);
    return status;
}

static void take_joints(const work *w, size_t run, const rbow_frame_joint_result *results)
{
    const frame_model *model = &w->b->model;
    frame_joint_answer *to = w->s->answers.joints + run * model->joint_count;
    for (size_t i = 0; i < model->joint_count; i++)
        to[i] = (frame_joint_answer){model->joints[i].name, model->runs[run].name, results[i]};
}

/* Margin, verdict and what governs are those of the tubes that are judged. */
static void take_run(const work *w, size_t run, const rbow_frame_run_result *whole)
{
    const frame_answers *a = &w->s->answers;
    const frame_model *model = &w->b->model;
    const frame_tube_answer *tubes = frame_tubes_of(a, run), *worst = tubes;
    frame_run_answer *to = &a->runs[run];
    bool holds = true;
    for (size_t i = 0; i < a->judged; i++) {
        holds = holds && tubes[i].result.verdict == RBOW_HOLDS;
        if (tubes[i].result.margin < worst->result.margin) worst = &tubes[i];
    }
    to->solved = true;
    to->result = *whole;
    to->result.verdict = holds ? RBOW_HOLDS : RBOW_SHORT;
    to->result.margin = worst->result.margin;
    to->result.governs = worst->result.governs;
    to->governs = worst->governs;
    to->worst_tube = worst->given.name;
    to->move_joint = isnan(whole->move) ? "" : model->joints[whole->move_joint].name;
}

typedef struct run_room { /* memory of one run at work */
    void *solver;
    rbow_frame_tube_result *tubes;
    rbow_frame_joint_result *joints;
} run_room;

static bool make_room(run_room *m, const frame_model *model)
{
    *m = (run_room){frame_room(&model->frame), malloc(model->tube_count * sizeof *m->tubes),
                    malloc(model->joint_count * sizeof *m->joints)};
    return m->solver != NULL && m->tubes != NULL && m->joints != NULL;
}

static void solve_run(void *context, size_t run)
{
    const work *w = context;
    const frame_model *model = &w->b->model;
    run_room room;
    rbow_frame_solver *solver;
    rbow_frame_run_result whole;
    w->s->answers.runs[run].name = model->runs[run].name;
    w->s->answers.runs[run].worst_tube = w->s->answers.runs[run].move_joint = w->s->answers.runs[run].governs = "";
    w->short_of_memory[run] = !make_room(&room, model);
    if (!w->short_of_memory[run]) {
        rbow_status status = rbow_frame_open(&model->frame, room.solver, &solver, NULL);
        if (status == RBOW_OK) status = rbow_frame_check(solver, &model->runs[run].run, room.tubes, room.joints, &whole);
        if (status == RBOW_OK) {
            take_tubes(w, run, room.tubes);
            status = take_details(w, run, solver);
        }
        w->statuses[run] = status;
        w->short_of_memory[run] = status == RBOW_NO_MEMORY;
        if (status == RBOW_OK) {
            take_joints(w, run, room.joints);
            take_run(w, run, &whole);
        }
    }
    free(room.solver);
    free(room.tubes);
    free(room.joints);
}

static bool pick_tubes(frame_solved *s, const frame_model *model, const wanted *w)
{
    s->judged = malloc(model->tube_count * sizeof *s->judged);
    if (s->judged == NULL) return false;
    for (size_t i = 0; i < model->tube_count; i++)
        if (wanted_named(w, model->tubes[i].name, frame_tube_part(&model->tubes[i]))) s->judged[s->answers.judged++] = i;
    s->answers.places = s->judged;
    return true;
}

/* Which details are judged, and room for their answers. */
static bool make_details(frame_solved *s, const frame_build *b)
{
    frame_answers *a = &s->answers;
    const frame_details *d = &b->details;
    s->detailed = malloc((d->count + 1) * sizeof *s->detailed);
    for (size_t i = 0; i < d->count && s->detailed != NULL; i++)
        for (size_t k = 0; k < a->judged; k++)
            if (s->judged[k] == d->at[i].tube) s->detailed[a->detail_count++] = i;
    s->details = calloc(a->detail_count * a->run_count + 1, sizeof *s->details);
    s->detail_remarks = malloc((a->detail_count * a->run_count + 1) * sizeof *s->detail_remarks);
    a->details = s->details;
    return s->detailed != NULL && s->details != NULL && s->detail_remarks != NULL;
}

static bool make_answers(frame_solved *s, const frame_model *model)
{
    frame_answers *a = &s->answers;
    a->tubes = calloc(a->judged * model->run_count + 1, sizeof *a->tubes);
    a->joints = calloc(model->joint_count * model->run_count + 1, sizeof *a->joints);
    a->runs = calloc(model->run_count + 1, sizeof *a->runs);
    return a->tubes != NULL && a->joints != NULL && a->runs != NULL;
}

/* Returned: whether memory sufficed. */
static bool say_unsolved(frame_solved *s, const work *w)
{
    bool fine = true;
    for (size_t run = 0; run < s->answers.run_count; run++) {
        fine = fine && !w->short_of_memory[run];
        if (s->answers.runs[run].solved || w->short_of_memory[run]) continue;
        const frame_run_row *r = &w->b->model.runs[run];
        text complaint = {0}, name = {0};
        text_quote(&name, r->name, strlen(r->name));
        frame_refuse(&complaint, w->b, FRAME_LOADS, r->line, NULL, "run %s: %s", text_string(&name, &complaint.failed),
                     rbow_status_text(w->statuses[run]));
        fine = fine && !complaint.failed;
        if (!complaint.failed) say_lines(complaint.at);
        text_free(&complaint);
        text_free(&name);
        s->refused++;
    }
    return fine;
}

static bool solve_picked(frame_solved *s, const frame_build *b, bool picked, int jobs)
{
    const frame_model *model = &b->model;
    work all = {b, s, calloc(model->run_count + 1, sizeof *all.statuses), calloc(model->run_count + 1, sizeof *all.short_of_memory)};
    bool fine = picked && all.statuses != NULL && all.short_of_memory != NULL && make_answers(s, model) && make_details(s, b);
    if (fine && s->answers.judged > 0) {
        parallel_for(model->run_count, jobs, solve_run, &all);
        fine = say_unsolved(s, &all);
    }
    if (!fine) say("out of memory");
    free(all.statuses);
    free(all.short_of_memory);
    return fine;
}

bool frame_solve(frame_solved *s, const frame_build *b, const wanted *w, int jobs)
{
    *s = (frame_solved){.answers = {.model = &b->model, .run_count = b->model.run_count}};
    return solve_picked(s, b, pick_tubes(s, &b->model, w), jobs);
}

bool frame_solve_tube(frame_solved *s, const frame_build *b, size_t tube)
{
    *s = (frame_solved){.answers = {.model = &b->model, .run_count = b->model.run_count, .judged = 1}};
    s->answers.places = s->judged = malloc(sizeof *s->judged);
    if (s->judged != NULL) *s->judged = tube;
    return solve_picked(s, b, s->judged != NULL, 1);
}

void frame_solved_close(frame_solved *s)
{
    free(s->answers.tubes);
    free(s->answers.joints);
    free(s->answers.runs);
    free(s->judged);
    free(s->details);
    free(s->detail_remarks);
    free(s->detailed);
}

int frame_status(const frame_solved *s)
{
    int status = s->answers.judged > 0 && s->refused == 0 ? ALL_HOLD : NO_VERDICT;
    for (size_t run = 0; run < s->answers.run_count; run++)
        if (s->answers.runs[run].solved && s->answers.runs[run].result.verdict != RBOW_HOLDS) status = worse_status(status, SOME_SHORT);
    return status;
}
