#include "report/text/grid.h"

#include "report/lines.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const char *tone_on(grid_tone tone, bool colour)
{
    static const char *const codes[] = {
        [TONE_PLAIN] = "", [TONE_GOOD] = "\033[32m", [TONE_BAD] = "\033[1;31m", [TONE_QUIET] = "\033[2m"};
    return colour ? codes[tone] : "";
}

const char *tone_off(bool colour)
{
    return colour ? "\033[0m" : "";
}

void grid_column(grid *g, const char *head, grid_align align)
{
    if (g->columns >= GRID_COLUMNS_MOST) return;
    g->heads[g->columns] = head;
    g->aligns[g->columns++] = align;
}

void grid_cell(grid *g, grid_tone tone, const char *cell)
{
    text_char(&g->cells, (char)('0' + tone));
    text_put(&g->cells, cell);
    text_char(&g->cells, '\0');
    g->count++;
}

void grid_format(grid *g, grid_tone tone, const char *format, ...)
{
    char cell[128];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(cell, sizeof cell, format, arguments);
    va_end(arguments);
    grid_cell(g, tone, cell);
}

/* Cells of the first column, names as a rule, give way where the table would be too width. */
static void give_way(const grid *g, size_t widths[])
{
    size_t all = 2 * (g->columns - 1);
    for (size_t i = 0; i < g->columns; i++) all += widths[i];
    const size_t over = all > LINE_MOST ? all - LINE_MOST : 0, least = 8;
    if (widths[0] >= over + least) widths[0] -= over;
}

static void put_cell(text *out, const char *cell, size_t width, grid_align align, bool last)
{
    if (line_width(cell) > width) {
        shorten(out, cell, width);
        return;
    }
    const size_t gap = width - line_width(cell);
    if (align == GRID_RIGHT) line_pad(out, gap);
    text_put(out, cell);
    if (align == GRID_LEFT && !last) line_pad(out, gap);
}

static void measure(const grid *g, size_t widths[])
{
    for (size_t i = 0; i < g->columns; i++) widths[i] = line_width(g->heads[i]);
    const char *cell = g->cells.at;
    for (size_t i = 0; i < g->count; i++, cell += strlen(cell) + 1) {
        const size_t width = line_width(cell + 1), column = i % g->columns;
        if (width > widths[column]) widths[column] = width;
    }
}

void grid_write(text *out, const grid *g, bool colour)
{
    size_t widths[GRID_COLUMNS_MOST] = {0};
    if (g->cells.failed) {
        out->failed = true;
        return;
    }
    measure(g, widths);
    give_way(g, widths);
    bool headed = false;
    for (size_t i = 0; i < g->columns; i++) headed = headed || *g->heads[i] != '\0';
    for (size_t i = 0; headed && i < g->columns; i++) {
        put_cell(out, g->heads[i], widths[i], g->aligns[i], i + 1 == g->columns);
        text_put(out, i + 1 == g->columns ? "\n" : "  ");
    }
    const char *cell = g->cells.at;
    size_t start = 0; /* of the last column, whose long cells go on below */
    for (size_t i = 0; i + 1 < g->columns; i++) start += widths[i] + 2;
    for (size_t i = 0; i < g->count; i++, cell += strlen(cell) + 1) {
        const size_t column = i % g->columns;
        const bool last = column + 1 == g->columns, toned = *cell != '0';
        if (toned) text_put(out, tone_on((grid_tone)(*cell - '0'), colour));
        if (last && g->aligns[column] == GRID_LEFT)
            wrap_from(out, cell + 1, start, start);
        else
            put_cell(out, cell + 1, widths[column], g->aligns[column], last);
        if (toned) text_put(out, tone_off(colour));
        text_put(out, last ? "\n" : "  ");
    }
}

void grid_free(grid *g)
{
    text_free(&g->cells);
}
