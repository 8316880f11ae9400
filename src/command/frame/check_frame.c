#include "cases/frame_results.h"
#include "command/frame/check_frame.h"
#include "command/frame/advise_frame.h"
#include "command/frame/detail_cards.h"

#include "program/case_check.h"
#include "program/exit_status.h"
#include "program/case_run.h"
#include "program/facts.h"
#include "program/frame/frame_arched.h"
#include "program/frame/frame_solve.h"
#include "program/frame/frame_write.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/frame/frame_page.h"
#include "report/text/frame/frame_text.h"

#include <stdlib.h>

typedef struct frame_check {
    const options *options; /* its operands: the three tables */
    const frame_build *build;
    materials materials;
    wanted wanted;
    run_facts facts;
    frame_solved solved;
    frame_arched arched;
    frame_advice advice;
    output out;
} frame_check;

/* "run 'pitch' and run 'push'" */
static void put_refused_runs(text *out, const frame_solved *s)
{
    const frame_answers *a = &s->answers;
    size_t told = 0;
    for (size_t run = 0; run < a->run_count; run++) {
        if (a->runs[run].solved) continue;
        text name = {0};
        text_format(&name, "run '%s'", a->model->runs[run].name);
        text_item(out, told++, s->refused, "and", text_string(&name, &out->failed));
        text_free(&name);
    }
}

static bool write_text(frame_check *c, int status)
{
    text t = {0}, refused = {0}, unused = {0};
    screen s = screen_of(&c->out, status == NO_VERDICT && c->solved.refused > 0, NULL, &unused);
    put_refused_runs(&refused, &c->solved);
    s.refused = refused.at;
    frame_text(&t, &c->solved.answers, c->options->of, c->options->all, &s);
    if (refused.failed) t.failed = true;
    const bool fine = output_text(&c->out, &t);
    text_free(&t);
    text_free(&refused);
    return fine;
}

/* ---- the page ----------------------------------------------------------------------------------------------- */

static size_t run_of(const frame_answers *a, const frame_tube_answer *r)
{
    return (size_t)(r - a->tubes) / a->judged;
}

static bool take_cards(const frame_check *c, rbow_frame_solver *solver, frame_picture *p)
{
    const frame_answers *a = &c->solved.answers;
    frame_order order;
    const bool fine = frame_order_of(&order, a);
    p->card_count = order.count < FRAME_CARDS_MOST ? order.count : FRAME_CARDS_MOST;
    for (size_t i = 0; i < p->card_count; i++) {
        frame_card *card = &p->cards[i];
        card->answer = frame_worst_run(a, order.tubes[i]);
        frame_moments_of(&card->moments, solver, a->model, run_of(a, card->answer), a->places[order.tubes[i]]);
    }
    frame_order_free(&order);
    return fine;
}

/* Given: shapes and memory, NULL where memory ran out. */
static bool fill_picture(const frame_check *c, frame_picture *p, frame_shape *shapes, void *memory)
{
    const frame_answers *a = &c->solved.answers;
    rbow_frame_solver *solver;
    if (shapes == NULL || memory == NULL || rbow_frame_open(&a->model->frame, memory, &solver, NULL) != RBOW_OK) return false;
    p->run = run_of(a, frame_worst(a));
    p->shapes = shapes;
    p->is_turned = c->options->view_given;
    p->turned = (frame_direction){c->options->azimuth, c->options->elevation};
    frame_shapes_of(shapes, solver, a->model, p->run, a->joints + p->run * a->model->joint_count);
    return take_cards(c, solver, p);
}

static bool write_page(const frame_check *c, output *page, int status)
{
    const frame_model *m = c->solved.answers.model;
    const case_run as_run = {.options = c->options, .facts = c->facts, .refused = {.count = c->solved.refused}};
    page_head head = report_head(&as_run, page, status);
    frame_picture *p = calloc(1, sizeof *p);
    frame_shape *shapes = malloc(m->tube_count * sizeof *shapes);
    void *memory = frame_room(&m->frame);
    text body = {0};
    if (head.title == NULL) head.title = "Frame check";
    body.failed = p == NULL || !fill_picture(c, p, shapes, memory);
    if (!body.failed) {
        frame_page(&body, &head, &c->solved.answers, p);
        put_detail_cards(&body, &head, c->build, &c->solved);
    }
    const bool fine = report_write(page, &head, &body);
    free(p);
    free(shapes);
    free(memory);
    return fine;
}

static bool write_answer(frame_check *c, int status)
{
    if (c->out.format == FORMAT_TEXT) return write_text(c, status);
    return frame_write(&c->out, &c->solved.answers, c->options->of, &c->facts, c->solved.refused);
}

/* Into outputs that are open; page: NULL for none. */
static int solve_and_write(frame_check *c, output *page)
{
    if (!frame_solve(&c->solved, c->build, &c->wanted, c->options->jobs)) return NO_VERDICT;
    c->solved.answers.arch = c->arched.rows;
    c->solved.answers.arch_run = c->options->arch;
    int status = frame_status(&c->solved);
    if (!wanted_all_found(&c->wanted)) status = NO_VERDICT;
    if (c->solved.answers.judged == 0) return NO_VERDICT;
    if (c->out.format != FORMAT_CSV || page != NULL) {
        advise_frame(&c->advice, c->build, &c->materials, &c->solved, c->out.units, c->options->jobs);
        c->solved.answers.advice = &c->advice;
    }
    c->out.incomplete = status == NO_VERDICT;
    const bool any = c->solved.refused < c->solved.answers.run_count;
    c->out.answered = write_answer(c, status) && any;
    if (page != NULL) {
        page->incomplete = c->out.incomplete;
        page->answered = any && write_page(c, page, status);
    }
    return c->out.answered ? status : NO_VERDICT;
}

static int solve_with_page(frame_check *c)
{
    output page;
    if (c->options->report == NULL) return solve_and_write(c, NULL);
    if (!output_open_beside(&page, &c->out, c->options)) return NO_VERDICT;
    const int status = solve_and_write(c, &page);
    return output_close(&page, page.answered) ? status : NO_VERDICT;
}

static int check_built(frame_check *c)
{
    int status = NO_VERDICT;
    if (wanted_open(&c->wanted, c->options) && facts_fill(&c->facts, c->options, &c->materials) && output_open(&c->out, c->options)) {
        c->wanted.what = "tube";
        if (c->options->tube_count > 0) c->wanted.by = "tube";
        status = solve_with_page(c);
        if (!output_close(&c->out, c->out.answered)) status = NO_VERDICT;
    }
    frame_solved_close(&c->solved);
    wanted_close(&c->wanted);
    facts_free(&c->facts);
    return status;
}

int check_frame(const options *o, const char *folder)
{
    options of_tables = *o;
    frame_build build = {.references = false};
    frame_check c = {.options = &of_tables, .build = &build};
    int status = NO_VERDICT;
    if (o->operand_count != 1) {
        say("check: '%s' is a folder, and a frame is checked alone: name no other file or folder with it", folder);
        return NO_VERDICT;
    }
    if (o->working || o->pages_given) {
        say("check: --%s is for load cases: the page of a frame has no sheets", o->working ? "working" : "pages");
        return NO_VERDICT;
    }
    if (o->tube_count > 0 && o->case_count > 0) {
        say("check: --tube and --case pick the same of a frame: give --tube alone");
        return NO_VERDICT;
    }
    if (o->tube_count > 0) {
        of_tables.case_patterns = o->tubes;
        of_tables.case_count = o->tube_count;
    }
    if (o->of == OF_ARCH && o->arch == NULL) {
        say("check: --of arch needs --arch RUN: the run under which the joints stand where they were drawn");
        return NO_VERDICT;
    }
    if (materials_open(&c.materials, o->materials) && frame_build_open(&build, folder, o, &c.materials) && frame_is_held(&build)) {
        of_tables.operands = build.tables.paths;
        of_tables.details = build.detail_path;
        of_tables.operand_count = FRAME_TABLES;
        if (frame_arched_open(&c.arched, &build, o->arch)) status = check_built(&c);
        frame_arched_close(&c.arched);
        say_own_factors(build.own_factors, o);
    }
    frame_build_close(&build);
    materials_close(&c.materials);
    return status;
}
