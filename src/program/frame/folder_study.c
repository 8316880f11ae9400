#include "program/frame/folder_study.h"

#include "program/case_check.h"
#include "program/exit_status.h"
#include "program/frame/frame_solve.h"
#include "program/report_file.h"
#include "program/rows.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/json/json.h"
#include "table/writer.h"

#include <stdlib.h>

/* ---- tables ----------------------------------------------------------------------------------------------------- */

static bool put_text(output *out, text *t)
{
    const bool fine = output_text(out, t);
    text_free(t);
    return fine;
}

static bool put_rows(output *out, const study_table *t)
{
    rows r = rows_for(out, t->list);
    r.stream = out;
    for (size_t i = 0; i < t->count && !r.stopped; i++) rows_add(&r, (const char *)t->records + i * t->list->record_size);
    const bool fine = !r.stopped && output_text(out, &r.written);
    rows_free(&r);
    return fine;
}

static bool write_csv(output *out, const study_table *t)
{
    text head = {0};
    csv_header(&head, t->list, out->units);
    return put_text(out, &head) && put_rows(out, t);
}

static bool write_json(folder_study *s, const study_table tables[], size_t count)
{
    text head = {0}, end = {0};
    output *out = &s->out;
    json_open_tables(&head, &s->facts);
    bool fine = put_text(out, &head);
    for (size_t i = 0; i < count && fine; i++) {
        text open = {0}, close = {0};
        json_open_table(&open, tables[i].name, tables[i].list, out->units);
        fine = put_text(out, &open);
        out->drop_comma = true;
        fine = fine && put_rows(out, &tables[i]);
        out->drop_comma = false;
        json_close_table(&close);
        fine = put_text(out, &close) && fine;
    }
    json_close_tables(&end, 0);
    return put_text(out, &end) && fine;
}

bool folder_study_tables(folder_study *s, const study_table tables[], size_t count, size_t of)
{
    return s->out.format == FORMAT_JSON ? write_json(s, tables, count) : write_csv(&s->out, &tables[of]);
}

/* ---- the command ------------------------------------------------------------------------------------------------ */

static bool write_text(folder_study *s)
{
    text t = {0}, unused = {0};
    const screen seen = screen_of(&s->out, false, NULL, &unused);
    s->text(s, &t, &seen);
    text_free(&unused);
    return put_text(&s->out, &t);
}

static bool write_page(folder_study *s, output *page, int status)
{
    const case_run as_run = {.options = s->options, .facts = s->facts};
    page_head head = report_head(&as_run, page, status);
    text body = {0};
    if (head.title == NULL) head.title = s->title;
    s->page(s, &body, &head);
    return report_write(page, &head, &body);
}

/* Into outputs that are open; page: NULL for none. */
static int answer_and_write(folder_study *s, output *page)
{
    const int status = s->answer(s);
    if (status == NO_VERDICT) return status;
    s->out.answered = s->out.format == FORMAT_TEXT ? write_text(s) : s->write(s);
    if (page != NULL) page->answered = write_page(s, page, status);
    return s->out.answered ? status : NO_VERDICT;
}

static int answer_with_page(folder_study *s)
{
    output page;
    if (s->options->report == NULL) return answer_and_write(s, NULL);
    if (!output_open_beside(&page, &s->out, s->options)) return NO_VERDICT;
    const int status = answer_and_write(s, &page);
    return output_close(&page, page.answered) ? status : NO_VERDICT;
}

static bool problem_open(folder_study *s)
{
    const frame_model *m = &s->build.model;
    const char **names = malloc((m->tube_count + 1) * sizeof *names);
    rbow_frame_run *runs = malloc((m->run_count + 1) * sizeof *runs);
    bool fine = names != NULL && runs != NULL;
    for (size_t i = 0; i < m->tube_count && fine; i++) names[i] = m->tubes[i].material;
    for (size_t i = 0; i < m->run_count && fine; i++) runs[i] = m->runs[i].run;
    fine = fine && frame_problem_open(&s->problem, &m->frame, runs, m->run_count, names, s->materials.list, s->materials.count);
    if (!fine) say("out of memory");
    free(names);
    free(runs);
    return fine;
}

static int answer_built(folder_study *s)
{
    int status = NO_VERDICT;
    if (facts_fill(&s->facts, s->options, &s->materials) && problem_open(s) && output_open(&s->out, s->options)) {
        status = answer_with_page(s);
        if (!output_close(&s->out, s->out.answered)) status = NO_VERDICT;
    }
    frame_problem_close(&s->problem);
    facts_free(&s->facts);
    return status;
}

static bool command_fits(const folder_study *s, const options *o, const char *folder)
{
    if (o->operand_count != 1) {
        say("%s: '%s' is a folder, and a frame is worked out alone: name no other file or folder with it", s->command, folder);
        return false;
    }
    if (o->case_count + o->part_count == 0) return true;
    say("%s: --case and --part pick load cases of a file, but the margin of a frame is that of all its tubes", s->command);
    return false;
}

int folder_study_run(folder_study *s, const options *o, const char *folder)
{
    options of_tables = *o;
    int status = NO_VERDICT;
    if (!command_fits(s, o, folder)) return status;
    s->options = &of_tables;
    if (materials_open(&s->materials, o->materials) && frame_build_open(&s->build, folder, o, &s->materials) && frame_is_held(&s->build)) {
        of_tables.operands = s->build.tables.paths;
        of_tables.operand_count = FRAME_TABLES;
        status = answer_built(s);
        say_own_factors(s->build.own_factors, o);
    }
    frame_build_close(&s->build);
    materials_close(&s->materials);
    return status;
}
