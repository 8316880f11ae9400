#include "command/check_frame.h"

#include "program/case_check.h"
#include "program/exit_status.h"
#include "program/facts.h"
#include "program/frame/frame_solve.h"
#include "program/frame/frame_write.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/text/frame_text.h"

typedef struct frame_check {
    const options *options; /* its operands: the three tables */
    const frame_build *build;
    materials materials;
    wanted wanted;
    run_facts facts;
    frame_solved solved;
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
    frame_text(&t, &c->solved.answers, c->options->all, &s);
    if (refused.failed) t.failed = true;
    const bool fine = output_text(&c->out, &t);
    text_free(&t);
    text_free(&refused);
    return fine;
}

static bool write_answer(frame_check *c, int status)
{
    if (c->out.format == FORMAT_TEXT) return write_text(c, status);
    return frame_write(&c->out, &c->solved.answers, c->options->of, &c->facts, c->solved.refused);
}

/* Into an output that is open. */
static int solve_and_write(frame_check *c)
{
    if (!frame_solve(&c->solved, c->build, &c->wanted, c->options->jobs)) return NO_VERDICT;
    int status = frame_status(&c->solved);
    if (!wanted_all_found(&c->wanted)) status = NO_VERDICT;
    if (c->solved.answers.judged == 0) return NO_VERDICT;
    c->out.incomplete = status == NO_VERDICT;
    c->out.answered = write_answer(c, status) && c->solved.refused < c->solved.answers.run_count;
    return c->out.answered ? status : NO_VERDICT;
}

static int check_built(frame_check *c)
{
    int status = NO_VERDICT;
    if (wanted_open(&c->wanted, c->options) && facts_fill(&c->facts, c->options, &c->materials) && output_open(&c->out, c->options)) {
        c->wanted.what = "tube";
        status = solve_and_write(c);
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
    if (materials_open(&c.materials, o->materials) && frame_build_open(&build, folder, o, &c.materials) && frame_is_held(&build)) {
        of_tables.operands = build.tables.paths;
        of_tables.operand_count = FRAME_TABLES;
        status = check_built(&c);
        say_own_factors(build.own_factors, o);
    }
    frame_build_close(&build);
    materials_close(&c.materials);
    return status;
}
