#include "command/frame/explain_frame.h"

#include "cases/step_table.h"
#include "command/frame/detail_cards.h"
#include "command/frame/detail_work.h"
#include "command/frame/step_rows.h"
#include "program/case_check.h"
#include "program/exit_status.h"
#include "program/case_run.h"
#include "program/facts.h"
#include "program/frame/frame_arched.h"
#include "program/frame/frame_solve.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/frame/frame_explain_page.h"
#include "report/text/detail_working_text.h"
#include "report/text/frame/frame_explain_text.h"
#include "table/messages.h"
#include "working/frame_working.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

typedef struct frame_explain {
    const options *options; /* its operands: the three tables */
    frame_build *build;
    materials materials;
    run_facts facts;
    size_t tube, run;
    frame_build one;        /* the run that is asked for alone, and the bows at the clocks that the check takes; borrowed but for the two below */
    rbow_frame_tube *tubes;
    frame_solved solved;
    frame_build drawn;      /* the same run with the bows as given: each detail has a side of its own that is worse */
    frame_solved detailed;  /* the tube with its details there */
    void *memory, *drawn_memory;
    rbow_frame_solver *solver, *drawn_solver;
    working *working;
    output out;
} frame_explain;

/* ---- what is asked for ---------------------------------------------------------------------------------- */

static void say_unknown_tube(frame_build *b, const char *name)
{
    text complaint = {0}, quoted = {0}, other = {0};
    const char *near = frame_names_nearest(&b->tube_names, name);
    text_quote(&quoted, name, strlen(name));
    if (near != NULL) text_quote(&other, near, strlen(near));
    message_add(&complaint, b->tables.paths[FRAME_TUBES], 0, "tube", near != NULL ? "there is no %s; did you mean %s?" : "there is no %s",
                text_string(&quoted, &complaint.failed), near != NULL ? text_string(&other, &complaint.failed) : "");
    if (complaint.failed) say("out of memory");
    else say_lines(complaint.at);
    text_free(&complaint);
    text_free(&quoted);
    text_free(&other);
}

static bool find(frame_explain *x, const char *tube, const char *run)
{
    const frame_run_row *r = frame_run_named(x->build, run);
    x->tube = frame_names_find(&x->build->tube_names, tube);
    if (x->tube == SIZE_MAX) say_unknown_tube(x->build, tube);
    if (r == NULL || x->tube == SIZE_MAX) return false;
    x->run = (size_t)(r - x->build->model.runs);
    return true;
}

/* ---- bows of unknown clock ------------------------------------------------------------------------------ */

static bool is_unknown(const rbow_frame_tube *t)
{
    return t->bow > 0 && t->bow_clock <= RBOW_ANY_CLOCK;
}

static void set_clocks(const frame_explain *x, const double *clocks, bool opposite)
{
    const double half_turn = 3.14159265358979323846;
    for (size_t i = 0; i < x->build->model.tube_count; i++)
        if (is_unknown(&x->build->tubes[i])) x->tubes[i].bow_clock = fmod(clocks[i] + (opposite ? half_turn : 0), 2 * half_turn);
}

typedef struct sides { /* what it takes to find the side that a tube's margin is of */
    rbow_frame_tube_result *tubes;
    rbow_frame_joint_result *joints;
    double *clocks;
} sides;

/* The margin of the tube with the bows as x->tubes has them; NaN without a result. */
static double margin_of(frame_explain *x, const sides *s)
{
    const frame_model *m = &x->one.model;
    rbow_frame_solver *solver;
    if (rbow_frame_open(&m->frame, x->memory, &solver, NULL) != RBOW_OK) return NAN;
    return rbow_frame_check(solver, &m->runs[0].run, s->tubes, s->joints, NULL) == RBOW_OK ? s->tubes[x->tube].margin : (double)NAN;
}

/* The bows point to the side of the joints' states, or to the opposite one if the margin of the tube is lower there. */
static void choose_side(frame_explain *x, const sides *s)
{
    const frame_model *m = &x->one.model;
    rbow_frame_solver *solver;
    if (rbow_frame_open(&m->frame, x->memory, &solver, NULL) != RBOW_OK
        || rbow_frame_check(solver, &m->runs[0].run, s->tubes, s->joints, NULL) != RBOW_OK)
        return; /* frame_solve says why */
    rbow_frame_bow_clocks(solver, s->clocks);
    set_clocks(x, s->clocks, false);
    const double here = margin_of(x, s);
    set_clocks(x, s->clocks, true);
    const double opposite = margin_of(x, s);
    if (!(opposite < here * (1 - 1e-9) - 1e-9)) set_clocks(x, s->clocks, false);
}

static bool take_bows(frame_explain *x)
{
    const frame_model *m = &x->one.model;
    size_t unknown = 0;
    for (size_t i = 0; i < m->tube_count; i++) unknown += is_unknown(&x->tubes[i]);
    if (unknown == 0) return true;
    const sides s = {malloc(m->tube_count * sizeof *s.tubes), malloc(m->joint_count * sizeof *s.joints), malloc(m->tube_count * sizeof *s.clocks)};
    const bool got = s.tubes != NULL && s.joints != NULL && s.clocks != NULL;
    if (got) choose_side(x, &s);
    else say("out of memory");
    free(s.tubes);
    free(s.joints);
    free(s.clocks);
    return got;
}

/* The frame with one run. */
static bool take_one(frame_explain *x)
{
    const frame_model *m = &x->build->model;
    x->tubes = malloc(m->tube_count * sizeof *x->tubes);
    x->memory = frame_room(&m->frame);
    x->drawn_memory = frame_room(&m->frame);
    x->working = calloc(1, sizeof *x->working);
    if (x->tubes == NULL || x->memory == NULL || x->drawn_memory == NULL || x->working == NULL) {
        say("out of memory");
        return false;
    }
    memcpy(x->tubes, x->build->tubes, m->tube_count * sizeof *x->tubes);
    x->one = *x->build;
    x->one.tubes = x->tubes;
    x->one.model.frame.tubes = x->tubes;
    x->one.model.runs = m->runs + x->run;
    x->one.model.run_count = 1;
    x->drawn = x->one;
    x->drawn.model.frame.tubes = x->build->tubes;
    x->one.details.count = 0;
    return take_bows(x);
}

/* ---- the answer ----------------------------------------------------------------------------------------- */

/* The working of the i-th detail of the tube. Returned: false after a message. detail_work_free either way */
static bool work_of_detail(detail_work *k, const frame_explain *x, size_t i)
{
    const detail_answer *d = &x->detailed.details[i];
    if (detail_work_in_frame(k, d, x->drawn_solver, &x->drawn.model, 0, x->tube, x->options->units)) return true;
    say("explain: the working of detail '%s' could not be written", d->name);
    return false;
}

static bool write_rows(frame_explain *x)
{
    const frame_tube_answer *r = x->solved.answers.tubes;
    rows written = rows_for(&x->out, &step_list);
    put_step_rows(&written, r->given.name, x->working);
    bool whole = true;
    for (size_t i = 0; i < x->detailed.answers.detail_count; i++) {
        detail_work k;
        whole = work_of_detail(&k, x, i) && whole;
        put_step_rows(&written, x->detailed.details[i].name, &k.working);
        detail_work_free(&k);
    }
    const bool fine = whole && rows_begin(&x->out, &step_list, &x->facts) && output_text(&x->out, &written.written) && rows_end(&x->out, 0, NULL, NULL);
    rows_free(&written);
    return fine;
}

static bool write_answer(frame_explain *x)
{
    if (x->out.format != FORMAT_TEXT) return write_rows(x);
    text t = {0}, unused = {0};
    const screen s = screen_of(&x->out, false, NULL, &unused);
    bool whole = true;
    text of_details = {0};
    for (size_t i = 0; i < x->detailed.answers.detail_count; i++) {
        detail_work k;
        whole = work_of_detail(&k, x, i) && whole;
        text_char(&of_details, '\n');
        detail_working_text(&of_details, &k.worked, &k.working, &s);
        of_details.failed = of_details.failed || working_failed(&k.working); /* rather no text than one without it */
        detail_work_free(&k);
    }
    frame_explain_text(&t, &x->solved.answers, x->build->tables.folder, x->working, &of_details, &s);
    t.failed = t.failed || of_details.failed;
    const bool fine = output_text(&x->out, &t) && whole;
    text_free(&of_details);
    text_free(&t);
    return fine;
}

static bool write_page(const frame_explain *x, output *page, int status)
{
    const frame_answers *a = &x->solved.answers;
    const case_run as_run = {.options = x->options, .facts = x->facts};
    page_head head = report_head(&as_run, page, status);
    frame_picture *p = calloc(1, sizeof *p);
    frame_shape *shapes = malloc(a->model->tube_count * sizeof *shapes);
    text body = {0};
    if (head.title == NULL) head.title = "Working of a tube of a frame";
    body.failed = p == NULL || shapes == NULL;
    if (!body.failed) {
        p->shapes = shapes;
        p->pinned = a->tubes;
        p->is_turned = x->options->view_given;
        p->turned = (frame_direction){x->options->azimuth, x->options->elevation};
        p->card_count = 1;
        p->cards[0].answer = a->tubes;
        frame_shapes_of(shapes, x->solver, a->model, 0, a->joints);
        frame_moments_of(&p->cards[0].moments, x->solver, a->model, 0, x->tube);
        frame_explain_page(&body, &head, a, p, x->working);
        put_detail_cards(&body, &head, &x->drawn, &x->detailed);
    }
    const bool fine = report_write(page, &head, &body);
    free(p);
    free(shapes);
    return fine;
}

static bool work_out(frame_explain *x)
{
    const frame_model *m = &x->one.model;
    if (x->solved.refused > 0) return false;
    const bool worked = rbow_frame_open(&m->frame, x->memory, &x->solver, NULL) == RBOW_OK
        && frame_working_of(x->working, &x->solved.answers, x->solver, x->options->units);
    if (worked && !working_failed(x->working)) return true;
    say(worked ? "out of memory" : "explain: the numerical solution did not converge");
    return false;
}

/* A bow that was given without a clock is so in the answer, and points to where it was taken. */
static void tell_bow(frame_explain *x)
{
    frame_tube_answer *r = x->solved.answers.tubes;
    r->given.tube = x->build->tubes[x->tube];
    if (is_unknown(&r->given.tube)) r->result.bow_clock_taken = x->tubes[x->tube].bow_clock;
}

/* The weakest of the tube and its details. Returned: false after a message. */
static bool solve_details(frame_explain *x)
{
    if (x->drawn.details.count == 0) return true;
    if (!frame_solve_tube(&x->detailed, &x->drawn, x->tube) || x->detailed.refused > 0) return false;
    const frame_tube_answer *found = x->detailed.answers.tubes;
    frame_tube_answer *to = x->solved.answers.tubes;
    if (found->detail.governs) {
        to->result.margin = found->result.margin;
        to->result.verdict = x->solved.answers.runs[0].result.verdict = found->result.verdict;
        to->result.governs = found->result.governs;
        to->result.governs_at = found->result.governs_at;
        to->governs = found->governs;
        to->detail = found->detail;
    }
    if (rbow_frame_open(&x->drawn.model.frame, x->drawn_memory, &x->drawn_solver, NULL) == RBOW_OK) return true;
    say("out of memory"); /* it was opened before: nothing else can fail */
    return false;
}

/* page: NULL for none. */
static int solve_and_write(frame_explain *x, output *page)
{
    if (!frame_solve_tube(&x->solved, &x->one, x->tube) || !solve_details(x)) return NO_VERDICT;
    const int status = frame_status(&x->solved);
    if (!work_out(x)) return NO_VERDICT;
    tell_bow(x);
    x->out.answered = write_answer(x);
    if (page != NULL) page->answered = write_page(x, page, status);
    return x->out.answered ? status : NO_VERDICT;
}

static int solve_with_page(frame_explain *x)
{
    output page;
    if (x->options->report == NULL) return solve_and_write(x, NULL);
    if (!output_open_beside(&page, &x->out, x->options)) return NO_VERDICT;
    const int status = solve_and_write(x, &page);
    return output_close(&page, page.answered) ? status : NO_VERDICT;
}

static int explain_found(frame_explain *x)
{
    int status = NO_VERDICT;
    if (take_one(x) && facts_fill(&x->facts, x->options, &x->materials) && output_open(&x->out, x->options)) {
        if (x->options->format == FORMAT_AUTO) x->out.format = FORMAT_TEXT;
        status = solve_with_page(x);
        if (!output_close(&x->out, x->out.answered)) status = NO_VERDICT;
    }
    frame_solved_close(&x->solved);
    frame_solved_close(&x->detailed);
    facts_free(&x->facts);
    if (x->working != NULL) working_free(x->working);
    free(x->working);
    free(x->tubes);
    free(x->memory);
    free(x->drawn_memory);
    return status;
}

int explain_frame(const options *o)
{
    options of_tables = *o;
    frame_build build = {.references = false};
    frame_explain x = {.options = &of_tables, .build = &build};
    int status = NO_VERDICT;
    if (o->operand_count != 3) {
        say("explain: '%s' is a folder: name one of its tubes behind it, and behind that one of its runs, as check lists them; see 'railbow help explain'", o->operands[0]);
        return NO_VERDICT;
    }
    if (o->case_count + o->part_count > 0) {
        say("explain: --case and --part pick load cases; of a frame one tube is explained, the one named behind the folder");
        return NO_VERDICT;
    }
    if (materials_open(&x.materials, o->materials) && frame_build_open(&build, o->operands[0], o, &x.materials) && frame_is_held(&build)
        && find(&x, o->operands[1], o->operands[2])) {
        of_tables.operands = build.tables.paths;
        of_tables.details = build.detail_path;
        of_tables.operand_count = FRAME_TABLES;
        status = explain_found(&x);
        say_own_factors(build.own_factors, o);
    }
    frame_build_close(&build);
    materials_close(&x.materials);
    return status;
}
