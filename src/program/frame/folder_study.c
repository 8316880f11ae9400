#include "program/frame/folder_study.h"

#include "program/case_check.h"
#include "program/exit_status.h"
#include "program/frame/frame_solve.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"

static bool write_text(folder_study *s)
{
    text t = {0}, unused = {0};
    const screen seen = screen_of(&s->out, false, NULL, &unused);
    s->text(s, &t, &seen);
    text_free(&unused);
    const bool fine = output_text(&s->out, &t);
    text_free(&t);
    return fine;
}

static bool write_page(folder_study *s, output *page, int status)
{
    const case_run as_run = {.options = s->options, .facts = s->facts};
    page_head head = report_head(&as_run, page, status);
    text body = {0};
    if (head.title == NULL) head.title = s->title;
    head.tolerance = s->tolerance;
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

static int answer_built(folder_study *s)
{
    int status = NO_VERDICT;
    if (facts_fill(&s->facts, s->options, &s->materials) && frame_build_problem(&s->build, &s->materials, &s->problem) && output_open(&s->out, s->options)) {
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
        of_tables.details = s->build.detail_path;
        of_tables.operand_count = FRAME_TABLES;
        status = answer_built(s);
        say_own_factors(s->build.own_factors, o);
    }
    frame_build_close(&s->build);
    materials_close(&s->materials);
    return status;
}
