#include "report/text/grid_write.h"

#include "report/lines.h"
#include "report/text/grid_layout.h"

#include <string.h>

typedef struct block { /* the cells of one row, each broken to the width of its column */
    text lines[GRID_COLUMNS_MOST];
    size_t next[GRID_COLUMNS_MOST]; /* where the part begins that is not written yet */
    grid_tone tones[GRID_COLUMNS_MOST];
} block;

static void put_whole(text *out, const char *name, size_t width)
{
    while (*name != '\0') {
        const size_t part = line_part(name, width);
        text_add(out, name, part);
        name += part;
        if (*name != '\0') text_char(out, '\n');
    }
}

static void break_cell(text *out, const char *cell, grid_kind kind, size_t width, bool whole)
{
    text_clear(out);
    if (kind == GRID_NAME && whole)
        put_whole(out, cell, width);
    else if (kind == GRID_NAME)
        shorten(out, cell, width);
    else
        wrap_from(out, cell, 0, 0, width);
}

/* The next line of a cell, without the blanks at its end. */
static void take_line(const text *lines, size_t *next, text *line)
{
    text_clear(line);
    if (lines->at == NULL || *next >= lines->length) return;
    const char *from = lines->at + *next;
    const size_t length = strcspn(from, "\n");
    size_t kept = length;
    while (kept > 0 && from[kept - 1] == ' ') kept--;
    text_add(line, from, kept);
    *next += length + (from[length] == '\n');
}

static bool is_done(const block *b, size_t columns)
{
    for (size_t i = 0; i < columns; i++)
        if (b->next[i] < b->lines[i].length) return false;
    return true;
}

static void write_line(text *out, block *b, const grid *g, const grid_layout *l, bool colour)
{
    text line = {0};
    size_t blanks = 0;
    for (size_t i = 0; i < g->columns; i++) {
        if (l->widths[i] == 0) continue;
        take_line(&b->lines[i], &b->next[i], &line);
        const char *cell = text_string(&line, &out->failed);
        const size_t taken = line_width(cell), gap = taken < l->widths[i] ? l->widths[i] - taken : 0;
        const bool right = g->kinds[i] == GRID_RIGHT, toned = colour && b->tones[i] != TONE_PLAIN && taken > 0;
        blanks += right ? gap : 0;
        if (taken > 0) {
            line_pad(out, blanks);
            if (toned) text_put(out, tone_on(b->tones[i], colour));
            text_put(out, cell);
            if (toned) text_put(out, tone_off(colour));
            blanks = 0;
        }
        blanks += (right ? 0 : gap) + GRID_GAP;
    }
    text_char(out, '\n');
    text_free(&line);
}

static void write_block(text *out, block *b, const grid *g, const grid_layout *l, bool colour)
{
    do write_line(out, b, g, l, colour);
    while (!is_done(b, g->columns));
    memset(b->next, 0, sizeof b->next);
}

static bool is_headed(const grid *g)
{
    for (size_t i = 0; i < g->heads.length; i++)
        if (g->heads.at[i] != '\0') return true;
    return false;
}

static void write_left_out(text *out, const grid *g, const grid_layout *l, size_t width)
{
    text line = {0};
    const char *head = g->heads.at, *said = "";
    for (size_t i = 0; i < g->columns; i++, head = grid_next(head)) {
        if (l->widths[i] > 0 || strcmp(head, said) == 0) continue;
        said = head;
        text_put(&line, line.length == 0 ? "Left out at this width: " : "; ");
        text_put(&line, head);
    }
    if (line.length > 0) {
        text_char(&line, '.');
        wrap(out, text_string(&line, &out->failed), 0, width);
    }
    out->failed = out->failed || line.failed;
    text_free(&line);
}

static void write_blocks(text *out, const grid *g, const grid_layout *l, const screen *s)
{
    block b = {0};
    const char *head = g->heads.at, *cell = g->cells.at;
    for (size_t i = 0; i < g->columns; i++, head = grid_next(head))
        if (l->widths[i] > 0) break_cell(&b.lines[i], head, GRID_WORDS, l->widths[i], false);
    if (is_headed(g)) write_block(out, &b, g, l, false);
    for (size_t i = 0; i < g->count; i++, cell = grid_next(cell)) {
        const size_t column = i % g->columns;
        b.tones[column] = (grid_tone)(*cell - '0');
        if (l->widths[column] > 0)
            break_cell(&b.lines[column], cell + 1, g->kinds[column], l->widths[column], l->whole[i] != 0);
        if (column + 1 == g->columns) write_block(out, &b, g, l, s->colour);
    }
    for (size_t i = 0; i < g->columns; i++) text_free_part(&b.lines[i], out);
}

void grid_write(text *out, const grid *g, const screen *s)
{
    grid_layout l;
    if (g->cells.failed || g->heads.failed) {
        out->failed = true;
        return;
    }
    grid_lay_out(&l, g, s->width);
    if (l.failed)
        out->failed = true;
    else
        write_blocks(out, g, &l, s);
    if (!l.failed) write_left_out(out, g, &l, s->width);
    grid_layout_free(&l);
}
