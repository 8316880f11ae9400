#include "command/frame/cut.h"

#include "cases/frame_cut_table.h"
#include "cases/release_table.h"
#include "command/frame/cut_asked.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/frame/frame_cut_write.h"
#include "program/frame/frame_solve.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/frame/frame_cut_page.h"
#include "report/text/frame/frame_cut_text.h"

#include <math.h>
#include <stdlib.h>

typedef struct cut_run {
    const options *options; /* its operands: the three tables */
    frame_build *build;
    cut_asked asked;
    run_facts facts;
    output out;
    frame_cut_answer answer;     /* without readings */
    frame_cut_locked_row locked; /* with readings */
} cut_run;

/* ---- answers ----------------------------------------------------------------------------------------------- */

static frame_cut_row *make_cuts(const cut_run *c, const rbow_frame_faces *faces)
{
    const cut_asked *a = &c->asked;
    frame_cut_row *made = calloc(a->cut_count, sizeof *made);
    for (size_t i = 0; made != NULL && i < a->cut_count; i++) {
        const frame_tube_row *t = &c->build->model.tubes[a->cuts[i].tube];
        made[i] = (frame_cut_row){t->name, t->from, t->to, a->cuts[i].at, faces[i], c->build->tubes[a->cuts[i].tube].od};
    }
    return made;
}

static frame_cut_joint_row *make_joints(const cut_run *c, const rbow_frame_motion *moved)
{
    const frame_model *m = &c->build->model;
    frame_cut_joint_row *made = calloc(m->joint_count, sizeof *made);
    for (size_t i = 0; made != NULL && i < m->joint_count; i++) {
        made[i] = (frame_cut_joint_row){m->joints[i].name, moved[i]};
        for (int k = 0; k < RBOW_AXES; k++) { /* no minus before a zero */
            made[i].moved.move[k] += 0.0;
            made[i].moved.turn[k] += 0.0;
        }
    }
    return made;
}

static rbow_status cut_forward(cut_run *c, void *memory, rbow_frame_cut_note *note)
{
    const frame_model *m = &c->build->model;
    const cut_asked *a = &c->asked;
    const rbow_frame_run *run = a->run != NULL ? &a->run->run : NULL;
    rbow_frame_faces *faces = calloc(a->cut_count, sizeof *faces);
    rbow_frame_motion *moved = calloc(m->joint_count, sizeof *moved);
    rbow_status status = RBOW_OK;
    if (faces != NULL && moved != NULL) {
        status = rbow_frame_cut(&m->frame, run, a->cuts, a->cut_count, memory, faces, moved, note);
        if (status == RBOW_OK)
            c->answer = (frame_cut_answer){make_cuts(c, faces), a->cut_count, make_joints(c, moved), m->joint_count, note->free_joints,
                                           a->run != NULL ? a->run->name : NULL};
    }
    free(faces);
    free(moved);
    return status;
}

static rbow_status release(cut_run *c, void *memory, rbow_frame_cut_note *note)
{
    const rbow_frame_cut_place *cut = c->asked.cuts;
    const frame_tube_row *t = &c->build->model.tubes[cut->tube];
    c->locked = (frame_cut_locked_row){.tube = t->name, .from = t->from, .to = t->to, .at = cut->at,
                                       .basis = isnan(c->asked.readings.turned) ? BASIS_LEAST_ENERGY : BASIS_TURN_READ};
    return rbow_frame_release(&c->build->model.frame, cut, &c->asked.readings, memory, &c->locked.found, note);
}

/* Returned: false after a message. */
static bool solve(cut_run *c)
{
    const cut_asked *a = &c->asked;
    rbow_frame_cut_note note = {0};
    const size_t bytes = rbow_frame_cut_memory(&c->build->model.frame, a->run != NULL ? &a->run->run : NULL, a->cut_count);
    void *memory = bytes > 0 ? malloc(bytes) : NULL;
    rbow_status status = RBOW_OK;
    if (memory != NULL) status = a->has_readings ? release(c, memory, &note) : cut_forward(c, memory, &note);
    free(memory);
    if (status != RBOW_OK) {
        cut_asked_refuse(a, c->build, status, &note);
        return false;
    }
    if (memory != NULL && (a->has_readings || (c->answer.cuts != NULL && c->answer.joints != NULL))) return true;
    say("out of memory");
    return false;
}

/* ---- writing ----------------------------------------------------------------------------------------------- */

static bool write_words(cut_run *c)
{
    text t = {0}, unused = {0};
    const screen s = screen_of(&c->out, false, NULL, &unused);
    if (c->asked.has_readings) frame_cut_locked_text(&t, &c->locked, &s);
    else frame_cut_text(&t, &c->answer, c->options->of, &s);
    const bool fine = output_text(&c->out, &t);
    text_free(&t);
    return fine;
}

static bool write_answer(cut_run *c)
{
    if (c->out.format == FORMAT_TEXT) return write_words(c);
    if (c->asked.has_readings) return frame_cut_locked_write(&c->out, &c->locked, &c->facts);
    return frame_cut_write(&c->out, &c->answer, c->options->of, &c->facts);
}

static bool write_page(cut_run *c, output *page)
{
    const case_run as_run = {.options = c->options, .facts = c->facts};
    page_head head = report_head(&as_run, page, ALL_HOLD);
    text body = {0};
    if (head.title == NULL) head.title = "Cut through";
    if (c->asked.has_readings) frame_cut_locked_page(&body, &head, &c->locked);
    else frame_cut_page(&body, &head, &c->answer);
    return report_write(page, &head, &body);
}

/* ---- the command ------------------------------------------------------------------------------------------- */

static bool write_with_page(cut_run *c)
{
    output page;
    if (c->options->report == NULL) return write_answer(c);
    if (!output_open_beside(&page, &c->out, c->options)) return false;
    const bool fine = write_answer(c) && write_page(c, &page);
    return output_close(&page, fine) && fine;
}

static bool cut_built(cut_run *c, const materials *m)
{
    if (!cut_asked_find(&c->asked, c->options, c->build) || !facts_fill(&c->facts, c->options, m) || !output_open(&c->out, c->options)) return false;
    const bool fine = solve(c) && write_with_page(c);
    return output_close(&c->out, fine) && fine;
}

static bool is_one_folder(const options *o)
{
    if (o->operand_count != 1) say("cut: name the folder of one frame; see 'railbow help cut'");
    else if (!is_folder(o->operands[0])) say("cut: '%s' is not the folder of a frame", o->operands[0]);
    else return true;
    return false;
}

int command_cut(const options *o)
{
    options of_tables = *o;
    frame_build build = {.references = false};
    materials m = {0};
    cut_run c = {.options = &of_tables, .build = &build};
    bool fine = is_one_folder(o) && cut_asked_read(&c.asked, o);
    if (fine) {
        fine = materials_open(&m, o->materials) && frame_build_open(&build, o->operands[0], o, &m) && frame_is_held(&build);
        of_tables.operands = build.tables.paths;
        of_tables.operand_count = FRAME_TABLES;
        fine = fine && cut_built(&c, &m);
        frame_build_close(&build);
        materials_close(&m);
    }
    free((void *)c.answer.cuts);
    free((void *)c.answer.joints);
    facts_free(&c.facts);
    cut_asked_close(&c.asked);
    return fine ? ALL_HOLD : NO_VERDICT;
}
