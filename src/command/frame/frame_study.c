#include "command/frame/frame_study.h"

#include "program/case_check.h"
#include "program/exit_status.h"
#include "program/facts.h"
#include "program/frame/frame_rows.h"
#include "program/frame/frame_solve.h"
#include "program/report_file.h"
#include "program/rows.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "program/wanted.h"

#include <math.h>
#include <stdlib.h>

/* ---- for the studies --------------------------------------------------------------------------------------- */

bool frame_study_go_on(void *context, size_t done)
{
    frame_study *s = context;
    return progress_show(&s->progress, done);
}

void frame_study_say_stopped(const frame_study *s)
{
    say("%s: stopped before the end; no answer is given", s->command);
}

frame_weakest frame_study_weakest(const frame_study *s, const frame_lowest *lowest)
{
    const frame_model *m = &s->build.model;
    const bool any = lowest->lowest.tube < m->tube_count;
    return (frame_weakest){
        .margin = lowest->lowest.margin,
        .tube = any ? m->tubes[lowest->lowest.tube].name : "",
        .run = any ? m->runs[lowest->run].name : "",
        .governs = frame_governs_name(s->problem.details, lowest->lowest.governs),
        .verdict = lowest->lowest.margin >= 0 ? RBOW_HOLDS : RBOW_SHORT,
    };
}

void frame_study_refuse(const frame_study *s, const frame_place *place, const frame_column *c, const char *format, ...)
{
    text complaint = {0}, words = {0};
    va_list arguments;
    va_start(arguments, format);
    text_format_list(&words, format, arguments);
    va_end(arguments);
    frame_refuse(&complaint, &s->build, place->table, c->line, c->field->name, "%s", text_string(&words, &complaint.failed));
    if (complaint.failed) say("out of memory");
    else say_lines(complaint.at);
    text_free(&words);
    text_free(&complaint);
}

void frame_study_put_status(text *out, rbow_status status)
{
    const char *input = rbow_status_input(status);
    text_format(out, "%s%s%s", input, *input != '\0' ? " " : "", rbow_status_text(status));
}

/* ---- the shell --------------------------------------------------------------------------------------------- */

typedef struct shell {
    frame_study *study;
    options of_tables; /* the options, with the three tables as operands */
    run_facts facts;
    output out;
} shell;

static bool write_rows(const shell *h, output *out)
{
    const frame_study *s = h->study;
    rows r = rows_for(out, s->list);
    r.stream = out;
    bool fine = rows_begin(out, s->list, &h->facts);
    for (size_t i = 0; i < s->count && fine && !r.stopped; i++) rows_add(&r, (const char *)s->rows + i * s->list->record_size);
    fine = fine && !r.stopped && output_text(out, &r.written) && rows_end(out, s->refused, NULL, NULL);
    rows_free(&r);
    return fine;
}

static bool write_text(const shell *h, output *out, int status)
{
    const frame_study *s = h->study;
    text t = {0}, unused = {0}, refused = {0};
    screen shown_on = screen_of(out, status == NO_VERDICT && s->refused > 0, NULL, &unused);
    text_format(&refused, "%zu value%s", s->refused, s->refused == 1 ? "" : "s");
    shown_on.refused = refused.at;
    s->text(s, &t, &shown_on);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&refused);
    return fine;
}

static bool write_page(const shell *h, output *page, int status)
{
    const frame_study *s = h->study;
    const case_run as_run = {.options = &h->of_tables, .facts = h->facts, .refused = {.count = s->refused}};
    page_head head = report_head(&as_run, page, status);
    text body = {0};
    if (head.title == NULL) head.title = s->title;
    s->page(s, &body, &head);
    return report_write(page, &head, &body);
}

/* Into outputs that are open; page: NULL for none. */
static int work_and_write(shell *h, output *page)
{
    frame_study *s = h->study;
    const int status = s->answer(s);
    if (s->rows == NULL || s->count == 0) return NO_VERDICT;
    h->out.incomplete = status == NO_VERDICT;
    h->out.answered = h->out.format == FORMAT_TEXT ? write_text(h, &h->out, status) : write_rows(h, &h->out);
    if (page != NULL) {
        page->incomplete = h->out.incomplete;
        page->answered = write_page(h, page, status);
    }
    return h->out.answered ? status : NO_VERDICT;
}

static int work_with_page(shell *h)
{
    output page;
    if (h->of_tables.report == NULL) return work_and_write(h, NULL);
    if (!output_open_beside(&page, &h->out, &h->of_tables)) return NO_VERDICT;
    const int status = work_and_write(h, &page);
    return output_close(&page, page.answered) ? status : NO_VERDICT;
}

static int work_on_frame(shell *h)
{
    int status = NO_VERDICT;
    if (facts_fill(&h->facts, &h->of_tables, &h->study->materials) && output_open(&h->out, &h->of_tables)) {
        status = work_with_page(h);
        if (!output_close(&h->out, h->out.answered)) status = NO_VERDICT;
    }
    facts_free(&h->facts);
    return status;
}

/* The run with the lowest margin of the frame as given comes first. */
static void take_first_run(frame_problem *p)
{
    frame_lowest given;
    if (frame_problem_margin(p, INFINITY, &given) == RBOW_OK) p->first_run = given.run;
}

/* The tubes that --case and --part pick. Returned: false after a message */
static bool pick_tubes(frame_study *s)
{
    const frame_model *m = &s->build.model;
    wanted w;
    s->judged_count = m->tube_count;
    if (s->options->case_count + s->options->part_count == 0) return true;
    bool fine = wanted_open(&w, s->options);
    w.what = "tube";
    s->judged = fine ? calloc(m->tube_count + 1, sizeof *s->judged) : NULL;
    s->judged_count = 0;
    for (size_t i = 0; i < m->tube_count && s->judged != NULL; i++)
        s->judged_count += s->judged[i] = wanted_named(&w, m->tubes[i].name, frame_tube_part(&m->tubes[i]));
    if (fine && s->judged == NULL) say("out of memory");
    fine = s->judged != NULL && wanted_all_found(&w);
    if (fine && s->judged_count == 0) say("%s: no tube meets both --case and --part", s->command);
    wanted_close(&w);
    s->problem.judged = s->judged;
    return fine && s->judged_count > 0;
}

static bool open_problem(frame_study *s)
{
    return frame_build_problem(&s->build, &s->materials, &s->problem) && pick_tubes(s);
}

static bool is_asked(frame_study *s)
{
    if (!s->ask(s)) return false;
    if (!s->asks_once) take_first_run(&s->problem);
    return true;
}

static bool is_alone(const frame_study *s, const char *folder)
{
    const options *o = s->options;
    if (o->operand_count != 1) {
        say("%s: '%s' is a folder, and a frame is taken alone: name no other file or folder with it", s->command, folder);
        return false;
    }
    if (s->picks || o->case_count + o->part_count == 0) return true;
    say("%s: --case and --part pick load cases; a frame is judged whole", s->command);
    return false;
}

int frame_study_run(frame_study *s, const char *folder)
{
    shell h = {.study = s, .of_tables = *s->options};
    int status = NO_VERDICT;
    if (!is_alone(s, folder)) return NO_VERDICT;
    if (materials_open(&s->materials, s->options->materials) && frame_build_open(&s->build, folder, s->options, &s->materials)
        && frame_is_held(&s->build) && open_problem(s) && is_asked(s)) {
        h.of_tables.operands = s->build.tables.paths;
        h.of_tables.details = s->build.detail_path;
        h.of_tables.operand_count = FRAME_TABLES;
        status = work_on_frame(&h);
        say_own_factors(s->build.own_factors, s->options);
    }
    free(s->judged);
    frame_problem_close(&s->problem);
    frame_build_close(&s->build);
    materials_close(&s->materials);
    return status;
}
