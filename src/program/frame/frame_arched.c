#include "program/frame/frame_arched.h"

#include "program/frame/frame_rows.h"
#include "program/say.h"
#include "study/frame_arch.h"
#include "table/messages.h"
#include "table/names.h"

#include <stdlib.h>
#include <string.h>

/* ---- the run -------------------------------------------------------------------------------------------- */

static void say_complaint(text *complaint)
{
    if (complaint->failed) say("out of memory");
    else say_lines(complaint->at);
    text_free(complaint);
}

/* "'push', 'pitch' and 3 more" */
static void put_runs(text *out, const frame_model *m)
{
    enum { NAMED = 8 };
    for (size_t i = 0; i < m->run_count && i < NAMED; i++) {
        if (i > 0) text_put(out, ", ");
        text_quote(out, m->runs[i].name, strlen(m->runs[i].name));
    }
    if (m->run_count > NAMED) text_format(out, " and %zu more", m->run_count - NAMED);
}

const frame_run_row *frame_run_named(const frame_build *b, const char *name)
{
    const frame_model *m = &b->model;
    nearest_name near = nearest_to(name);
    for (size_t i = 0; i < m->run_count; i++) {
        if (strcmp(m->runs[i].name, name) == 0) return &m->runs[i];
        nearest_try(&near, m->runs[i].name);
    }
    text complaint = {0}, quoted = {0}, other = {0};
    text_quote(&quoted, name, strlen(name));
    if (near.best != NULL) text_quote(&other, near.best, strlen(near.best));
    else put_runs(&other, m);
    message_add(&complaint, b->tables.paths[FRAME_LOADS], 0, "run", near.best != NULL ? "there is no %s; did you mean %s?"
                                                                                     : "there is no %s; the frame has %s",
                text_string(&quoted, &complaint.failed), text_string(&other, &complaint.failed));
    say_complaint(&complaint);
    text_free(&quoted);
    text_free(&other);
    return NULL;
}

/* ---- the arch ------------------------------------------------------------------------------------------- */

static void refuse(const frame_build *b, const frame_run_row *run, arch_state state, const frame_arch *arch)
{
    text complaint = {0}, name = {0}, joint = {0};
    text_quote(&name, run->name, strlen(run->name));
    text_quote(&joint, b->model.joints[arch->joint].name, strlen(b->model.joints[arch->joint].name));
    const char *run_name = text_string(&name, &complaint.failed), *joint_name = text_string(&joint, &complaint.failed);
    if (state == ARCH_NO_STATE)
        frame_refuse(&complaint, b, FRAME_LOADS, run->line, NULL,
                     "--arch: under run %s the frame has no state at load factor 1, because it folds or buckles first: it has no arch",
                     run_name);
    else
        frame_refuse(&complaint, b, FRAME_LOADS, run->line, NULL,
                     "--arch: under run %s no places for the joints settle in %d rounds: joint %s is still %.3g in from where it is drawn",
                     run_name, (int)ARCH_ROUNDS, joint_name, arch->left);
    say_complaint(&complaint);
    text_free(&name);
    text_free(&joint);
}

/* The clock of a tube that passes the border of the upright counts from another direction. */
static void say_new_clock(const frame_build *b, const frame_arch *arch)
{
    if (arch->new_clock == b->model.tube_count) return;
    const frame_tube_row *t = &b->model.tubes[arch->new_clock];
    text complaint = {0}, name = {0};
    text_quote(&name, t->name, strlen(t->name));
    frame_refuse(&complaint, b, FRAME_TUBES, t->line, NULL,
                 "--arch: tube %s is within 0.1 deg of vertical only as drawn or only as welded: in a table of the frame as welded its "
                 "clocks count from another direction", text_string(&name, &complaint.failed));
    say_complaint(&complaint);
    text_free(&name);
}

static void take_rows(frame_arched *a, const frame_build *b, const frame_arch *arch)
{
    for (size_t i = 0; i < b->model.joint_count; i++) {
        a->rows[i].name = b->model.joints[i].name;
        for (int k = 0; k < RBOW_AXES; k++) {
            a->rows[i].weld[k] = arch->weld[i][k] + 0.0;
            a->rows[i].rise[k] = arch->weld[i][k] - b->joints[i].at[k] + 0.0;
        }
    }
    say_new_clock(b, arch);
}

bool frame_arched_open(frame_arched *a, const frame_build *b, const char *name)
{
    *a = (frame_arched){NULL};
    if (name == NULL) return true;
    const frame_run_row *run = frame_run_named(b, name);
    if (run == NULL) return false;
    frame_arch arch = {.weld = malloc(b->model.joint_count * sizeof *arch.weld)};
    a->rows = malloc(b->model.joint_count * sizeof *a->rows);
    arch_state state = ARCH_NO_MEMORY;
    if (arch.weld != NULL && a->rows != NULL) state = frame_arch_find(&b->model.frame, &run->run, &arch);
    if (state == ARCH_FOUND) take_rows(a, b, &arch);
    else if (state == ARCH_NO_MEMORY) say("out of memory");
    else refuse(b, run, state, &arch);
    free(arch.weld);
    return state == ARCH_FOUND;
}

void frame_arched_close(frame_arched *a)
{
    free(a->rows);
    a->rows = NULL;
}
