#include "command/frame/cases_frame.h"

#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/facts.h"
#include "program/frame/answer_tables.h"
#include "program/frame/frame_build.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/frame/frame_cases_page.h"
#include "report/text/cells.h"
#include "report/text/working_text.h"

#include <math.h>
#include <stdlib.h>

typedef struct cases_of_frame {
    const options *options; /* its operands: the three tables */
    frame_build build;
    materials materials;
    wanted wanted;
    run_facts facts;
    output out;
    refused_rows refused;     /* rows of tubes.csv that have an error */
    listed_tube *listed;      /* the tubes that are picked */
    size_t count;
    frame_tube_row *rows;     /* every tube without an error, for the drawing */
    rbow_frame_tube *tubes;
    bool *named;
    frame_model drawn;
} cases_of_frame;

/* ---- which tubes have no error ------------------------------------------------------------------------------ */

/* Takes away the tubes in which frame and table have a fault; all of them were told when the frame was put together.
 * Given: sound  true for each tube. Returned: false where memory ran out */
static bool find_faults(const frame_build *b, bool *sound)
{
    const frame_model *m = &b->model;
    const size_t count = rbow_frame_faults(&m->frame, NULL, 0);
    rbow_frame_fault *faults = malloc((count + 1) * sizeof *faults);
    if (faults == NULL) return false;
    rbow_frame_faults(&m->frame, faults, count);
    for (size_t i = 0; i < count; i++)
        if (faults[i].part == RBOW_IN_TUBE) sound[faults[i].index] = false;
    for (size_t i = 0; i < m->tube_count; i++)
        if (frame_names_find(&b->tube_names, m->tubes[i].name) != i) sound[i] = false; /* named twice */
    free(faults);
    return true;
}

static double length_of(const frame_model *m, const rbow_frame_tube *t)
{
    const double *a = m->frame.joints[t->from].at, *b = m->frame.joints[t->to].at;
    return hypot(hypot(b[0] - a[0], b[1] - a[1]), b[2] - a[2]);
}

/* The tube with every default that depends on its length or material put in, as for the check. */
static listed_tube listed_of(const frame_model *m, const frame_tube_row *given, const rbow_frame_tube *tube)
{
    listed_tube l = {.given = *given, .length = length_of(m, tube), .line = (double)given->line};
    rbow_frame_tube *t = &l.given.tube;
    rbow_member member = rbow_member_default();
    member.od = t->od;
    member.wall = t->wall;
    member.length = l.length;
    member.column_curve = t->column_curve;
    member.bow_at = t->bow_at;
    member.weld_zone = t->weld_zone;
    member = rbow_member_resolved(&member, tube->material);
    l.given.part = frame_tube_part(given);
    t->column_curve = member.column_curve;
    t->bow_at = member.bow_at;
    t->weld_zone = member.weld_zone;
    if (t->miss_a_clock <= RBOW_ANY_CLOCK) t->miss_a_clock = NAN;
    if (t->miss_b_clock <= RBOW_ANY_CLOCK) t->miss_b_clock = NAN;
    return l;
}

static void take_tube(cases_of_frame *c, size_t i)
{
    const frame_model *m = &c->build.model;
    const size_t k = c->drawn.tube_count++;
    c->rows[k] = m->tubes[i];
    c->tubes[k] = c->build.tubes[i];
    c->named[k] = wanted_named(&c->wanted, m->tubes[i].name, frame_tube_part(&m->tubes[i]));
    if (c->named[k]) c->listed[c->count++] = listed_of(m, &c->rows[k], &c->tubes[k]);
}

/* Returned: false after a message. */
static bool take_tubes(cases_of_frame *c)
{
    const frame_model *m = &c->build.model;
    const size_t room = m->tube_count + 1;
    bool *sound = malloc(room * sizeof *sound);
    c->listed = calloc(room, sizeof *c->listed);
    c->rows = calloc(room, sizeof *c->rows);
    c->tubes = calloc(room, sizeof *c->tubes);
    c->named = calloc(room, sizeof *c->named);
    bool fine = sound != NULL && c->listed != NULL && c->rows != NULL && c->tubes != NULL && c->named != NULL;
    for (size_t i = 0; i < m->tube_count && fine; i++) sound[i] = true;
    fine = fine && find_faults(&c->build, sound);
    c->drawn = *m;
    c->drawn.tube_count = 0;
    c->refused = c->build.tables.refused[FRAME_TUBES];
    for (size_t i = 0; i < m->tube_count && fine; i++) {
        if (sound[i]) take_tube(c, i);
        else refused_add(&c->refused, c->build.tables.paths[FRAME_TUBES], m->tubes[i].line);
    }
    c->drawn.tubes = c->rows;
    c->drawn.frame.tubes = c->tubes;
    c->drawn.frame.tube_count = c->drawn.tube_count;
    if (!fine) say("out of memory");
    free(sound);
    return fine;
}

/* ---- the answer --------------------------------------------------------------------------------------------- */

static bool write_text(cases_of_frame *c, const field_list *list)
{
    text t = {0}, words = {0};
    const screen s = screen_of(&c->out, c->out.incomplete, &c->refused, &words);
    put_refused(&t, &s);
    for (size_t i = 0; i < c->count; i++) {
        if (i > 0) text_char(&t, '\n');
        record_text(&t, list, &c->listed[i], &s);
    }
    put_end(&t, &s);
    const bool fine = output_text(&c->out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_answer(cases_of_frame *c)
{
    listed_tube_columns columns;
    listed_tube_columns_fill(&columns);
    if (c->out.format == FORMAT_TEXT) return write_text(c, &columns.rows);
    rows written = rows_for(&c->out, c->out.format == FORMAT_JSON ? &columns.list : &columns.rows);
    for (size_t i = 0; i < c->count; i++) rows_add(&written, &c->listed[i]);
    const bool fine = rows_begin(&c->out, written.list, &c->facts) && output_text(&c->out, &written.written) && rows_end(&c->out, c->refused.count, NULL, NULL);
    rows_free(&written);
    return fine;
}

static bool write_page(const cases_of_frame *c, output *page, int status)
{
    const options *o = c->options;
    const case_run as_run = {.options = o, .facts = c->facts, .refused = c->refused};
    page_head head = report_head(&as_run, page, status);
    const frame_as_read read = {&c->drawn, c->named, o->view_given, {o->azimuth, o->elevation}};
    text body = {0};
    head.record = "What was read";
    if (head.title == NULL) head.title = "Frame as read";
    frame_cases_page(&body, &head, &read);
    return report_write(page, &head, &body);
}

/* page: NULL for none. */
static int take_and_write(cases_of_frame *c, output *page)
{
    if (!take_tubes(c)) return NO_VERDICT;
    const int status = wanted_all_found(&c->wanted) && c->build.sound ? ALL_HOLD : NO_VERDICT;
    if (c->count == 0) return NO_VERDICT;
    c->out.incomplete = status == NO_VERDICT;
    c->out.answered = write_answer(c);
    if (page != NULL) {
        page->incomplete = c->out.incomplete;
        page->answered = write_page(c, page, status);
    }
    return c->out.answered ? status : NO_VERDICT;
}

static int answer_with_page(cases_of_frame *c)
{
    output page;
    if (c->options->report == NULL) return take_and_write(c, NULL);
    if (!output_open_beside(&page, &c->out, c->options)) return NO_VERDICT;
    const int status = take_and_write(c, &page);
    return output_close(&page, page.answered) ? status : NO_VERDICT;
}

static int answer_built(cases_of_frame *c)
{
    int status = NO_VERDICT;
    if (wanted_open(&c->wanted, c->options) && facts_fill(&c->facts, c->options, &c->materials) && output_open(&c->out, c->options)) {
        c->wanted.what = "tube";
        status = answer_with_page(c);
        if (!output_close(&c->out, c->out.answered)) status = NO_VERDICT;
    }
    wanted_close(&c->wanted);
    facts_free(&c->facts);
    free(c->listed);
    free(c->rows);
    free(c->tubes);
    free(c->named);
    return status;
}

int cases_frame(const options *o, const char *folder)
{
    options of_tables = *o;
    cases_of_frame c = {.options = &of_tables};
    int status = NO_VERDICT;
    if (o->operand_count != 1) {
        say("cases: '%s' is a folder, and a frame is listed alone: name no other file or folder with it", folder);
        return NO_VERDICT;
    }
    if (materials_open(&c.materials, o->materials) && frame_build_read(&c.build, folder, o, &c.materials)) {
        of_tables.operands = c.build.tables.paths;
        of_tables.details = c.build.detail_path;
        of_tables.operand_count = FRAME_TABLES;
        status = answer_built(&c);
    }
    frame_build_close(&c.build);
    materials_close(&c.materials);
    return status;
}
