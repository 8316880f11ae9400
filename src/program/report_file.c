#include "program/report_file.h"

#include "program/exit_status.h"

#include <string.h>

/* Where the command line gives none. */
static const char *title_of(const case_run *run)
{
    static const char *const titles[][2] = {
        {"compare", "Choice of a tube"}, {"sweep", "Margin over a range"}, {"limit", "Limits"}, {"index", "Turning the bow"},
        {"scatter", "Scatter of the margin"}, {"release", "Release of a cut rail"}, {"pull", "Pull of a horn"}};
    for (size_t i = 0; run->name != NULL && i < sizeof titles / sizeof *titles; i++)
        if (strcmp(run->name, titles[i][0]) == 0) return titles[i][1];
    return NULL;
}

page_head report_head(const case_run *run, const output *page, int status)
{
    const options *o = run->options;
    return (page_head){.title = o->title != NULL ? o->title : title_of(run), .by = o->by, .note = o->note, .date = o->date, .refused = run->refused.count,
                       .faults = status == NO_VERDICT, .units = page->units, .tolerance = run->name == NULL ? "" : NULL, .working = o->working, .all_sheets = o->pages == PAGES_ALL, .facts = &run->facts};
}

bool report_write(output *page, const page_head *head, text *body)
{
    text front = {0}, end = {0};
    page_open(&front, head);
    page_close(&end, head);
    const bool fine = output_text(page, &front) && output_text(page, body) && output_text(page, &end);
    text_free(&front);
    text_free(&end);
    text_free(body);
    return fine;
}
