#include "table/reader.h"

#include "table/messages.h"
#include "table/reader_core.h"
#include "table/reader_header.h"
#include "table/reader_row.h"
#include "table/separator.h"

#include <stdlib.h>
#include <string.h>

/* libcsv keeps a cell and its closing quote and NUL; when one more byte comes, it asks for more. */
enum { CELL_ROOM = READER_CELL_MOST + 3 };

/* ---- one line at a time -------------------------------------------------------------------------- */

static void take_cell(void *cell, size_t n, void *context)
{
    reader *r = context;
    if (r->stopped) return;
    if (r->has_header) row_cell(r, cell, n);
    else header_cell(r, cell, n);
    r->cell_line = r->line;
}

/* Called for blank lines too, and twice for CR LF. */
static void take_row_end(int terminator, void *context)
{
    reader *r = context;
    if (r->cells > 0 && !r->stopped) {
        if (r->has_header) row_end(r);
        else header_end(r);
    }
    (void)terminator;
    r->row_line = r->cell_line = r->line + !r->in_line_end;
}

/* More than CELL_ROOM is refused, so that a cell without end cannot take all memory. */
static void *cell_realloc(void *old, size_t size)
{
    return size > CELL_ROOM ? NULL : realloc(old, size);
}

/* After a fault libcsv can only begin anew. */
static void start_parser(reader *r)
{
    csv_init(&r->csv, CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL | CSV_REPALL_NL);
    csv_set_realloc_func(&r->csv, cell_realloc);
    csv_set_blk_size(&r->csv, CELL_ROOM);
    if (r->separator != 0) csv_set_delim(&r->csv, (unsigned char)r->separator);
}

/* Ends what was being read; the next row begins on the next line. */
static void break_off(reader *r, size_t line, const char *fault, size_t last_line)
{
    text words = {0};
    text_put(&words, fault);
    if (last_line > r->row_line) text_format(&words, "; lines %zu to %zu are lost", r->row_line, last_line);
    if (words.failed) reader_stop_short_of_memory(r);
    else if (r->has_header) row_break(r, line, words.at);
    else header_break(r, line, words.at);
    text_free(&words);
    csv_free(&r->csv);
    start_parser(r);
    r->skipping = true;
}

static void break_at_quote(reader *r)
{
    if (!r->csv.quoted)
        break_off(
            r, r->line,
            "a quote in a cell that does not begin with one: leave an inch mark out, the unit stands in the header; "
            "a text with a quote stands in quotes, with those in it doubled",
            r->line);
    else if (r->cell_line == r->line)
        break_off(r, r->line, "there is text behind the closing quote: a quote in a cell is doubled", r->line);
    else
        break_off(r, r->cell_line, "the quote opened here is closed on a later line with text behind it",
                  r->line);
}

static void break_at_length(reader *r)
{
    text fault = {0};
    text_format(&fault, "is longer than %d bytes", READER_CELL_MOST);
    if (r->line > r->cell_line) text_put(&fault, ", or the quote opened here is never closed");
    if (fault.failed) reader_stop_short_of_memory(r);
    else break_off(r, r->cell_line, fault.at, r->line);
    text_free(&fault);
}

static void break_at_fault(reader *r)
{
    if (csv_error(&r->csv) == CSV_EPARSE) break_at_quote(r);
    else if (csv_get_buffer_size(&r->csv) == CELL_ROOM) break_at_length(r);
    else reader_stop_short_of_memory(r);
}

static bool is_comment(const reader *r, char first)
{
    return !r->has_header && r->at_line_start && r->row_line == r->line && first == '#';
}

/* A line or a part of one. */
static void feed_line(reader *r, const char *bytes, size_t n, bool ends)
{
    if (is_comment(r, bytes[0])) r->skipping = true;
    if (!r->skipping && csv_parse(&r->csv, bytes, n, take_cell, take_row_end, r) < n &&
        !r->stopped)
        break_at_fault(r);
    r->at_line_start = ends;
    if (!ends) return;
    r->line++;
    if (!r->skipping) return;
    r->row_line = r->cell_line = r->line;
    r->skipping = false;
}

/* Where the next line ends: behind its LF or CR. `known` is where that sign was found last. */
static const char *next_sign(const char *at, const char *end, const char *known, char sign)
{
    if (known != NULL && known >= at) return known;
    const char *found = memchr(at, sign, (size_t)(end - at));
    return found != NULL ? found : end;
}

/* An LF behind a CR ends the line that is already counted. */
static bool take_line_feed(reader *r, const char *at)
{
    if (!r->after_return) return false;
    r->after_return = false;
    if (*at != '\n') return false;
    r->in_line_end = true;
    if (csv_parse(&r->csv, at, 1, take_cell, take_row_end, r) < 1 && !r->stopped) break_at_fault(r);
    r->in_line_end = false;
    return true;
}

/* libcsv gets one line a call: so the line is always known, and after a fault the next one can be found. */
static void feed_lines(reader *r, const char *bytes, size_t n)
{
    const char *const end = bytes + n, *feed = NULL, *carriage = NULL;
    while (bytes < end && !r->stopped) {
        if (take_line_feed(r, bytes)) {
            bytes++;
            continue;
        }
        feed = next_sign(bytes, end, feed, '\n');
        carriage = next_sign(bytes, end, carriage, '\r');
        const char *sign = feed < carriage ? feed : carriage;
        const bool ends = sign < end;
        feed_line(r, bytes, (size_t)(sign - bytes) + ends, ends);
        r->after_return = ends && *sign == '\r';
        bytes = sign + ends;
    }
}

/* ---- the separator -------------------------------------------------------------------------------- */

static void set_separator(reader *r, char separator)
{
    r->separator = separator;
    csv_set_delim(&r->csv, (unsigned char)separator);
}

static void take_named(reader *r, char named)
{
    if (is_separator(named)) {
        set_separator(r, named);
        r->skipping = true;
        return;
    }
    message_add(&r->trouble, r->file, r->line, NULL, "%s names a separator that is not read: use a comma, a semicolon or "
                "a tab", reader_quote(r, r->first_line.at, strcspn(r->first_line.at, "\r\n")));
    r->stopped = true;
}

/* A whole line before the separator is known: a comment, a blank one, sep=, or the header that tells it. A comment with
 * a comma comes back from a spreadsheet in quotes. */
static void take_first_line(reader *r)
{
    const char *line = r->first_line.at;
    const char named = r->line == 1 ? separator_named(line) : 0;
    const bool blank = strspn(line, " \t\r\n") == r->first_line.length;
    const bool told = !r->skipping && !blank && line[0] != '#';
    if (told && named != 0) take_named(r, named);
    else if (told && line[0] == '"' && line[1] == '#') r->skipping = true;
    else if (told) set_separator(r, separator_of(line));
    if (!r->stopped) feed_lines(r, line, r->first_line.length);
    text_clear(&r->first_line);
}

static void feed_text(reader *r, const char *bytes, size_t n)
{
    while (n > 0 && r->separator == 0 && !r->stopped) {
        if (r->after_return && take_line_feed(r, bytes)) {
            bytes++, n--;
            continue;
        }
        text_char(&r->first_line, *bytes);
        if (r->first_line.failed) reader_stop_short_of_memory(r);
        else if (*bytes == '\n' || *bytes == '\r' || r->first_line.length == CELL_ROOM) take_first_line(r);
        bytes++, n--;
    }
    if (n > 0 && !r->stopped) feed_lines(r, bytes, n);
}

/* ---- the file as a whole ------------------------------------------------------------------------- */

static void feed(reader *r, const char *bytes, size_t n)
{
    text_part rest;
    const text_part head = text_decode(&r->decoder, bytes, n, &rest);
    if (r->decoder.decoded.failed) {
        reader_stop_short_of_memory(r);
    } else if (r->decoder.encoding == TEXT_BINARY) {
        message_add(&r->trouble, r->file, 0, NULL, "%s", r->decoder.fault);
        r->stopped = true;
    } else {
        feed_text(r, head.at, head.n);
        feed_text(r, rest.at, rest.n);
    }
}

static void finish(reader *r)
{
    feed(r, NULL, 0);
    r->ended = true;
    if (r->first_line.length > 0 && !r->stopped) take_first_line(r);
    if (!r->stopped && !r->skipping && csv_fini(&r->csv, take_cell, take_row_end, r) != 0)
        break_off(r, r->cell_line, "the quote opened here is never closed", r->line - r->at_line_start);
    if (r->stopped || r->has_row) return;
    message_add(&r->trouble, r->file, 0, NULL, "%s",
                r->has_header ? "has a header but no row" : "has no header row");
    r->stopped = true;
}

static reader_state state_of(const reader *r)
{
    return r->stopped ? READER_STOPPED : READER_GOING;
}

reader_state reader_feed(reader *r, const char *bytes, size_t n, row_batch *out)
{
    r->out = out;
    if (!row_batch_start(out)) reader_stop_short_of_memory(r);
    if (r->stopped || r->ended) return state_of(r);
    if (n > 0) feed(r, bytes, n);
    else finish(r);
    row_batch_settle(out, &r->layout);
    return state_of(r);
}

const char *reader_trouble(const reader *r)
{
    if (r->trouble.failed) return r->memory_trouble;
    return r->trouble.at != NULL ? r->trouble.at : "";
}

bool reader_is_short_of_memory(const reader *r)
{
    return r->trouble.failed;
}

/* ---- life ---------------------------------------------------------------------------------------- */

/* A record with the prototype's values, its texts as offsets into fresh_texts. */
static void make_fresh(reader *r, const void *prototype)
{
    memcpy(r->fresh, prototype, r->list->record_size);
    text_add(&r->fresh_texts, "", 1);
    for (const field *f = r->list->fields; f < r->list->fields + r->list->count; f++) {
        if (f->kind != FIELD_TEXT) continue;
        const char *standing = field_text(f, prototype);
        const size_t offset = *standing != '\0' ? r->fresh_texts.length : 0;
        if (offset > 0) text_add(&r->fresh_texts, standing, strlen(standing) + 1);
        memcpy((char *)r->fresh + f->offset, &offset, sizeof offset);
        r->layout.text_offsets[r->layout.text_count++] = f->offset;
    }
}

static char *copy(const char *string)
{
    const size_t size = strlen(string) + 1;
    char *made = malloc(size);
    return made != NULL ? memcpy(made, string, size) : NULL;
}

static bool make_parts(reader *r, const char *file, const void *prototype)
{
    text out_of_memory = {0};
    message_add(&out_of_memory, file, 0, NULL, "out of memory");
    r->memory_trouble = out_of_memory.at;
    r->file = copy(file);
    r->columns = calloc(COLUMNS_MOST, sizeof *r->columns);
    r->layout.text_offsets = calloc(r->list->count, sizeof *r->layout.text_offsets);
    r->fresh = malloc(r->list->record_size);
    r->record = malloc(r->list->record_size);
    if (out_of_memory.failed || !r->file || !r->columns || !r->layout.text_offsets || !r->fresh || !r->record)
        return false;
    make_fresh(r, prototype);
    return !r->fresh_texts.failed;
}

reader *reader_new(const field_list *list, const char *file, const void *prototype)
{
    reader *r = calloc(1, sizeof *r);
    if (r == NULL) return NULL;
    r->list = list;
    r->layout.record_size = list->record_size;
    r->line = r->row_line = r->cell_line = 1;
    r->at_line_start = true;
    start_parser(r);
    if (make_parts(r, file, prototype)) return r;
    reader_free(r);
    return NULL;
}

void reader_free(reader *r)
{
    if (r == NULL) return;
    csv_free(&r->csv);
    text_decoder_free(&r->decoder);
    text *const texts[] = {&r->fresh_texts, &r->texts, &r->complaints, &r->trouble, &r->quoted, &r->said,
                           &r->first_line};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) text_free(texts[i]);
    free(r->memory_trouble);
    free(r->layout.text_offsets);
    free(r->columns);
    free(r->record);
    free(r->fresh);
    free(r->file);
    free(r);
}
