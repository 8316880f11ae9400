#define _POSIX_C_SOURCE 200809L
#include "program/report_file.h"

#include "cases/frame_table.h"
#include "program/exit_status.h"
#include "program/say.h"
#include "report/live/live.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- a live page: what it was made from goes along ------------------------------------------------------ */

static bool read_all(text *bytes, int file)
{
    enum { PART = 64 * 1024 };
    for (;;) {
        char *at = text_reserve(bytes, PART);
        const ssize_t got = at != NULL ? read(file, at, PART) : 0;
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) return got == 0;
        bytes->length += (size_t)got;
    }
}

static void put_file(text *out, const char *kind, const char *name)
{
    text bytes = {0};
    const int file = open(name, O_RDONLY | O_CLOEXEC);
    if (file < 0 || !read_all(&bytes, file)) {
        say("%s: cannot read it again for the page: %s", name, strerror(errno));
        out->failed = true;
    }
    if (file >= 0) close(file);
    live_file(out, kind, name, bytes.at, bytes.length);
    text_free_part(&bytes, out);
}

/* A file, or the tables of a frame. */
static void put_input(text *out, const char *name)
{
    struct stat there;
    if (stat(name, &there) != 0 || !S_ISDIR(there.st_mode)) {
        put_file(out, "input", name);
        return;
    }
    for (size_t i = 0; i < FRAME_TABLES; i++) {
        text path = {0};
        text_format(&path, "%s/%s", name, frame_files[i]);
        if (path.at != NULL && stat(path.at, &there) == 0) put_file(out, "input", path.at); /* not every frame has loads */
        text_free_part(&path, out);
    }
}

static void put_live(text *out, const page_head *head)
{
    const run_facts *f = head->facts;
    live_open(out);
    for (size_t i = 0; i < f->word_count; i++) live_word(out, f->words[i]);
    for (size_t i = 0; i < f->input_count; i++) put_input(out, f->inputs[i]);
    put_file(out, "materials", f->materials);
    live_close(out);
}

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
                       .faults = status == NO_VERDICT, .units = page->units, .tolerance = run->name == NULL ? "" : NULL, .working = o->working, .all_sheets = o->pages == PAGES_ALL, .facts = &run->facts,
                       .policy = o->live ? live_policy : NULL, .tail = o->live ? put_live : NULL};
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
