#include "command/commands.h"

#include "cases/part_groups.h"
#include "cases/shop/sight_table.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/shop/sight_page.h"
#include "report/text/shop/sight_text.h"
#include "study/sighting.h"
#include "table/messages.h"

#include <math.h>
#include <stdlib.h>

typedef struct sighting { /* the lines of the file */
    case_run *run;
    rows answers;
    rbow_sight_reading *readings; /* line by line */
} sighting;

/* ---- reading row by row ---------------------------------------------------------------------------------------------------- */

static int keep_reading(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    sight_reading_row r = *(const sight_reading_row *)record;
    (void)run;
    r.file = at->file;
    r.at = at->line;
    const bool nothing = isnan(r.reading.up) && isnan(r.reading.right);
    const bool landed = r.kind == SIGHT_TUBE && !isnan(r.landing);
    if (nothing) message_add(complaints, at->file, at->line, "up", "is empty, and so is right: a row needs one of them");
    if (landed) message_add(complaints, at->file, at->line, "landing", "is for a socket: leave it empty for a tube");
    if (nothing || landed) return NO_VERDICT;
    rows_add(answers, &r);
    return ALL_HOLD;
}

/* ---- line by line ------------------------------------------------------------------------------------------------------------ */

static void refuse(sighting *s, const sight_reading_row *r, const char *column, const char *what)
{
    text line = {0};
    bool lost = false;
    message_add(&line, r->file, r->at, column, "line '%.60s': %s", r->line, what);
    say_lines(text_string(&line, &lost));
    text_free(&line);
    refused_add(&s->run->refused, r->file, r->at);
}

/* Takes the landing of a line. Returned: false after a message: its rows contradict each other, or it has none. */
static bool take_landing(sighting *s, const sight_reading_row *const *read, size_t count, sight_row *line)
{
    line->landing = NAN;
    for (size_t i = 0; i < count; i++) {
        if (read[i]->kind != read[0]->kind) return refuse(s, read[i], "kind", "its rows name both socket and tube"), false;
        if (isnan(read[i]->landing)) continue;
        if (!isnan(line->landing) && fabs(line->landing - read[i]->landing) > 1e-9 * line->landing)
            return refuse(s, read[i], "landing", "its rows give two different distances"), false;
        line->landing = read[i]->landing;
    }
    if (line->kind == SIGHT_TUBE || !isnan(line->landing)) return true;
    return refuse(s, read[0], "landing", "is needed of a socket: the distance from A to the joint where the new tube must land"), false;
}

static int answer_line(sighting *s, const sight_reading_row *const *read, size_t count, rbow_sight_reading *room)
{
    sight_row line = {.line = read[0]->line, .kind = read[0]->kind, .at = room, .count = count};
    for (size_t i = 0; i < count; i++) room[i] = read[i]->reading;
    if (!take_landing(s, read, count, &line)) return NO_VERDICT;
    const rbow_status status = sight_line(&line);
    if (status != RBOW_OK) {
        refuse(s, read[0], rbow_status_input(status), rbow_status_text(status));
        return NO_VERDICT;
    }
    rows_add(&s->answers, &line);
    return line.verdict == SIGHT_RECHECK ? SOME_SHORT : ALL_HOLD;
}

/* The rows of a line may lie anywhere in the file. */
static bool answer_lines(sighting *s, const sight_reading_row *readings, size_t count, int *status)
{
    const char **names = malloc((count + 1) * sizeof *names);
    size_t *of = malloc((count + 1) * sizeof *of), *end = calloc(count + 1, sizeof *end), lines = 0;
    const sight_reading_row **read = malloc((count + 1) * sizeof *read);
    s->readings = malloc((count + 1) * sizeof *s->readings);
    for (size_t i = 0; names != NULL && i < count; i++) names[i] = readings[i].line;
    const bool fine = names != NULL && of != NULL && end != NULL && read != NULL && s->readings != NULL && part_groups(names, count, of, &lines);
    for (size_t i = 0; i < count && fine; i++) end[of[i] + 1]++; /* where each line begins, one place on */
    for (size_t k = 0; k < lines && fine; k++) end[k + 1] += end[k];
    for (size_t i = 0; i < count && fine; i++) read[end[of[i]]++] = &readings[i]; /* and now where it ends */
    for (size_t k = 0; k < lines && fine; k++) {
        const size_t from = k > 0 ? end[k - 1] : 0;
        *status = worse_status(*status, answer_line(s, &read[from], end[k] - from, &s->readings[from]));
    }
    free(names);
    free(of);
    free(end);
    free(read);
    if (!fine || s->answers.failed) say("out of memory");
    return fine && !s->answers.failed;
}

/* ---- the answer --------------------------------------------------------------------------------------------------------------- */

static bool write_answer(const case_run *run, output *out, const rows *kept, int *status)
{
    sighting *s = run->state;
    if (!answer_lines(s, (const void *)kept->kept, kept->count, status)) return false;
    out->incomplete = *status == NO_VERDICT;
    out->answered = s->answers.count > 0;
    if (out->format != FORMAT_TEXT) return rows_write(out, &s->answers);
    text t = {0}, words = {0};
    const screen shown_on = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    sight_text(&t, (const void *)s->answers.kept, s->answers.count, &shown_on);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    const sighting *s = run->state;
    text body = {0};
    page_head head = report_head(run, page, status);
    if (head.title == NULL) head.title = "Sighting";
    (void)kept;
    page->incomplete = status == NO_VERDICT;
    if (s->answers.count == 0 || s->answers.failed) return false;
    page_sight(&body, &head, (const void *)s->answers.kept, s->answers.count);
    return report_write(page, &head, &body);
}

int command_sight(const options *o)
{
    const output memory = {.format = FORMAT_TEXT};
    sighting s = {.answers = rows_for(&memory, &sight_list)};
    case_run run = {
        .options = o,
        .name = "sight",
        .list = &sight_reading_list,
        .results = &sight_reading_list,
        .shown = &sight_list,
        .jobs = 1,
        .writes_whole = true,
        .state = &s,
        .answer = keep_reading,
        .write = write_answer,
        .report = write_page,
    };
    if (o->operand_count > 1) {
        say("sight: name one file of readings; see 'railbow help sight'");
        return NO_VERDICT;
    }
    s.run = &run;
    const int status = case_run_all(&run);
    rows_free(&s.answers);
    free(s.readings);
    return status;
}
