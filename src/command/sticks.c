#include "command/commands.h"

#include "cases/shop/sticks_table.h"
#include "program/case_columns.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/shop/sticks_page.h"
#include "report/text/shop/sticks_text.h"
#include "report/values.h"
#include "study/cutting.h"
#include "table/messages.h"

#include <railbow/tube.h>

#include <math.h>
#include <string.h>

typedef struct sticks {
    case_run *run;
    rows stock, answers;
    int stock_status;
    double kerf, density;
} sticks;

/* ---- reading ------------------------------------------------------------------------------------------------------------------- */

/* Whether there is such a tube, and a whole number of them. */
static bool row_is_sound(const source_line *at, double od, double wall, double count, text *complaints)
{
    rbow_section section;
    const rbow_status status = rbow_section_of(od, wall, &section);
    if (status != RBOW_OK) message_add(complaints, at->file, at->line, rbow_status_input(status), "%s", rbow_status_text(status));
    const bool whole = !(floor(count) < count);
    if (!whole) message_add(complaints, at->file, at->line, "count", "must be a whole number");
    return status == RBOW_OK && whole;
}

static int keep_part(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    part_row p = *(const part_row *)record;
    (void)run;
    if (!row_is_sound(at, p.od, p.wall, p.count, complaints)) return NO_VERDICT;
    p.file = at->file;
    p.at = at->line;
    rows_add(answers, &p);
    return ALL_HOLD;
}

static int keep_stick(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    const stock_row *s = record;
    (void)context;
    if (!row_is_sound(at, s->od, s->wall, s->count, complaints)) return NO_VERDICT;
    rows_add(answers, s);
    return ALL_HOLD;
}

/* Returned: false where nothing can be planned, after a message. */
static bool read_stock(sticks *s, const char *file)
{
    output memory = {.format = FORMAT_TEXT};
    stock_row prototype;
    field_defaults(&stock_list, &prototype);
    s->stock = rows_for(&memory, &stock_list);
    const pipeline p = {.list = &stock_list, .prototype = &prototype, .results = &stock_list, .jobs = 1, .out = &memory,
                        .kept = &s->stock, .context = s, .refused = &s->run->refused, .lost = &s->run->lost, .answer = keep_stick};
    char *name = (char *)file; /* only read; the type is argv's */
    s->stock_status = pipeline_run(&p, &name, 1);
    return !memory.failed && s->stock.count > 0;
}

/* A bare --kerf is in the unit of the parts' length. */
static bool take_kerf(const case_run *run, const char *file, const reader *from)
{
    sticks *s = run->state;
    const measure *given = &run->options->kerf;
    column_unit c = {.option = "kerf", .field = field_find(&part_list, "length")};
    return given->at == NULL || ((given->has_unit || column_unit_take(&c, file, from)) && case_measure_in(&c, given, &s->kerf));
}

/* ---- planning -------------------------------------------------------------------------------------------------------------------- */

static void take_piece(void *context, const stick_row *piece)
{
    sticks *s = context;
    rows_add(&s->answers, piece);
}

static void say_why(text *why, const part_row *p, cutting_fault fault, size_t pieces, double best, unit_system units)
{
    text size = {0};
    put_value(&size, p->od, DIM_LENGTH, units);
    text_put(&size, " x ");
    put_value(&size, p->wall, DIM_LENGTH, units);
    const char *of = text_string(&size, &why->failed);
    switch (fault) {
        case CUTTING_NO_SIZE: text_format(why, "no stick of %s is in stock", of); break;
        case CUTTING_TOO_LONG:
            text_format(why, "no stick of %s is long enough: the longest has ", of);
            put_value(why, best, DIM_LENGTH, units);
            break;
        case CUTTING_TOO_BOWED:
            text_format(why, "no stick of %s that is long enough is straight enough: ", of);
            if (isnan(best)) text_put(why, "the bow of none is known");
            else text_put(why, "the least bow of such a piece is ");
            if (!isnan(best)) put_value(why, best, DIM_LENGTH, units);
            break;
        case CUTTING_TOO_MANY: text_format(why, "more than %d pieces of %s: plan them in several files", CUTTING_PIECES_MOST, of); break;
        case CUTTING_NONE_LEFT:
            text_format(why, "%zu of %.0f pieces have no stick: the sticks of %s do not suffice", pieces, p->count, of);
            break;
    }
    text_free(&size);
}

static void refuse_part(void *context, const part_row *p, cutting_fault fault, size_t pieces, double best)
{
    static const char *const columns[] = {"od", "length", "bow_most", "count", "count"};
    sticks *s = context;
    text why = {0}, line = {0};
    bool lost = false;
    say_why(&why, p, fault, pieces, best, s->run->options->units);
    message_add(&line, p->file, p->at, columns[fault], "part '%.60s': %s", p->part, text_string(&why, &lost));
    say_lines(text_string(&line, &lost));
    text_free(&why);
    text_free(&line);
    s->answers.failed = s->answers.failed || lost;
    refused_add(&s->run->refused, p->file, p->at);
}

static double density_of(const materials *m, const char *name)
{
    for (size_t i = 0; i < m->count; i++)
        if (strcmp(m->list[i].name, name) == 0) return m->list[i].density;
    return NAN;
}

/* Returned: false after a message. The answer is not begun then. */
static bool take_density(sticks *s, const options *o)
{
    materials m;
    const bool opened = materials_open(&m, o->materials);
    s->density = opened ? density_of(&m, o->material) : (double)NAN;
    if (opened && isnan(s->density)) say("sticks: --material: '%s' is not in %s", o->material, m.file);
    materials_close(&m);
    return !isnan(s->density);
}

/* Returned: false after a message. */
static bool plan(sticks *s, const rows *parts)
{
    const cutting_task task = {
        .parts = (const void *)parts->kept,
        .part_count = parts->count,
        .stock = (const void *)s->stock.kept,
        .stock_count = s->stock.count,
        .kerf = s->kerf,
        .density = s->density,
        .context = s,
        .take = take_piece,
        .refuse = refuse_part,
    };
    if (!cut_sticks(&task)) s->answers.failed = true;
    if (s->answers.failed) say("out of memory");
    return !s->answers.failed;
}

/* ---- the answer --------------------------------------------------------------------------------------------------------------------- */

static bool write_answer(const case_run *run, output *out, const rows *kept, int *status)
{
    sticks *s = run->state;
    s->run->refused.names_files = true;
    const size_t before = run->refused.count;
    if (!plan(s, kept)) return false;
    if (run->refused.count > before) *status = NO_VERDICT;
    *status = worse_status(*status, s->stock_status);
    out->incomplete = *status == NO_VERDICT;
    out->answered = s->answers.count > 0;
    if (out->format != FORMAT_TEXT) return rows_write(out, &s->answers);
    text t = {0}, words = {0};
    const screen shown_on = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    sticks_text(&t, (const void *)s->answers.kept, s->answers.count, s->kerf, &shown_on);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    const sticks *s = run->state;
    text body = {0};
    page_head head = report_head(run, page, status);
    if (head.title == NULL) head.title = "Cutting plan";
    (void)kept;
    page->incomplete = status == NO_VERDICT;
    if (s->answers.count == 0 || s->answers.failed) return false;
    page_sticks(&body, &head, (const void *)s->answers.kept, s->answers.count, s->kerf);
    return report_write(page, &head, &body);
}

int command_sticks(const options *o)
{
    const output memory = {.format = FORMAT_TEXT};
    sticks s = {.answers = rows_for(&memory, &stick_list), .kerf = 1.0 / 16};
    case_run run = {
        .options = o,
        .name = "sticks",
        .list = &part_list,
        .results = &part_list,
        .shown = &stick_list,
        .jobs = 1,
        .writes_whole = true,
        .state = &s,
        .begin = take_kerf,
        .answer = keep_part,
        .write = write_answer,
        .report = write_page,
    };
    s.run = &run;
    if (o->operand_count != 1 || o->stock == NULL) {
        say("sticks: name one file of parts and the sticks with --stock; see 'railbow help sticks'");
        return NO_VERDICT;
    }
    const int status = take_density(&s, o) && read_stock(&s, o->stock) ? case_run_all(&run) : NO_VERDICT;
    rows_free(&s.stock);
    rows_free(&s.answers);
    return status;
}
