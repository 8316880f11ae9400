#include "report/text/grid.h"

#include <stdarg.h>

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

void grid_column(grid *g, grid_kind kind, const char *format, ...)
{
    va_list arguments;
    if (g->columns >= GRID_COLUMNS_MOST) return;
    va_start(arguments, format);
    text_format_list(&g->heads, format, arguments);
    va_end(arguments);
    text_char(&g->heads, '\0');
    g->kinds[g->columns++] = kind;
}

void grid_spare(grid *g, int rank)
{
    g->spare[g->columns - 1] = rank;
}

void grid_cell(grid *g, grid_tone tone, const char *cell)
{
    text_char(&g->cells, (char)('0' + tone));
    text_put(&g->cells, cell);
    text_char(&g->cells, '\0');
    g->count++;
}

void grid_text(grid *g, grid_tone tone, text *cell)
{
    grid_cell(g, tone, text_string(cell, &g->cells.failed));
    text_free(cell);
}

void grid_format(grid *g, grid_tone tone, const char *format, ...)
{
    text cell = {0};
    va_list arguments;
    va_start(arguments, format);
    text_format_list(&cell, format, arguments);
    va_end(arguments);
    grid_text(g, tone, &cell);
}

void grid_free(grid *g)
{
    text_free(&g->heads);
    text_free(&g->cells);
}
