#include "report/text/grid_layout.h"

#include "report/lines.h"

#include <stdlib.h>
#include <string.h>

const char *grid_next(const char *cell)
{
    return cell + strlen(cell) + 1;
}

/* ---- widths ----------------------------------------------------------------------------------------- */

typedef struct column_sizes { /* what a column asks for, and what it can do with */
    size_t cells, head, word; /* its widest cell, its head, the longest word of either */
} column_sizes;

static size_t longest_word(const char *words)
{
    size_t most = 0;
    while (*words != '\0') {
        char word[128];
        const size_t length = strcspn(words, " "), kept = length < sizeof word ? length : sizeof word - 1;
        memcpy(word, words, kept);
        word[kept] = '\0';
        if (line_width(word) > most) most = line_width(word);
        words += length + (words[length] == ' ');
    }
    return most;
}

static void take_more(size_t *most, size_t value)
{
    if (value > *most) *most = value;
}

static void measure(const grid *g, column_sizes sizes[])
{
    const char *head = g->heads.at, *cell = g->cells.at;
    for (size_t i = 0; i < g->columns; i++, head = grid_next(head))
        sizes[i] = (column_sizes){.head = line_width(head), .word = longest_word(head)};
    for (size_t i = 0; i < g->count; i++, cell = grid_next(cell)) {
        column_sizes *of = &sizes[i % g->columns];
        take_more(&of->cells, line_width(cell + 1));
        if (g->kinds[i % g->columns] == GRID_WORDS) take_more(&of->word, longest_word(cell + 1));
    }
}

static size_t width_of_all(const grid *g, const size_t widths[])
{
    size_t all = 0;
    for (size_t i = 0; i < g->columns; i++)
        if (widths[i] > 0) all += widths[i] + (all > 0 ? GRID_GAP : 0);
    return all;
}

/* Steps in which columns give way, the gentlest first. */
enum { HEADS, WORDS_BUT_LAST, LAST_WORDS, NAMES, NARROW_WORDS, NARROW_NAMES, STEPS };

static size_t larger(size_t a, size_t b)
{
    return a > b ? a : b;
}

/* The least width of a column in a step; what it has already where the step is not about it. */
static size_t least_width(const grid *g, const column_sizes sizes[], const size_t widths[], size_t i, int step)
{
    enum { NAME = 20, NARROW_NAME = 10, WORDS = 12, LAST = 24, NARROW = 10 };
    const bool words = g->kinds[i] == GRID_WORDS, name = g->kinds[i] == GRID_NAME, last = i + 1 == g->columns;
    if (step == HEADS && sizes[i].head > sizes[i].cells) return larger(sizes[i].cells, sizes[i].word);
    if (step == WORDS_BUT_LAST && words && !last) return larger(WORDS, sizes[i].word);
    if (step == LAST_WORDS && words && last) return LAST;
    if (step == NAMES && name) return larger(NAME, sizes[i].word);
    if (step == NARROW_WORDS && words) return NARROW;
    if (step == NARROW_NAMES && name) return NARROW_NAME;
    return widths[i];
}

/* Takes one column after the other, always the widest that can, until the table fits. */
static void give_way(const grid *g, const column_sizes sizes[], size_t widths[], size_t width, int step)
{
    while (width_of_all(g, widths) > width) {
        size_t widest = g->columns;
        for (size_t i = 0; i < g->columns; i++) {
            const bool can = widths[i] > least_width(g, sizes, widths, i, step);
            if (can && (widest == g->columns || widths[i] > widths[widest])) widest = i;
        }
        if (widest == g->columns) return;
        widths[widest]--;
    }
}

static void fit(const grid *g, const column_sizes sizes[], const bool left_out[], size_t width, int steps, size_t widths[])
{
    for (size_t i = 0; i < g->columns; i++) {
        const size_t wanted = larger(1, larger(sizes[i].cells, sizes[i].head));
        widths[i] = left_out[i] ? 0 : wanted < width ? wanted : width;
    }
    for (int step = 0; step < steps; step++) give_way(g, sizes, widths, width, step);
}

static size_t next_to_leave(const grid *g, const bool left_out[])
{
    size_t next = g->columns;
    for (size_t i = 0; i < g->columns; i++)
        if (g->spare[i] > 0 && !left_out[i] && (next == g->columns || g->spare[i] > g->spare[next])) next = i;
    return next;
}

static void set_widths(const grid *g, size_t width, size_t widths[])
{
    column_sizes sizes[GRID_COLUMNS_MOST];
    bool left_out[GRID_COLUMNS_MOST] = {false};
    measure(g, sizes);
    fit(g, sizes, left_out, width, NARROW_WORDS, widths);
    while (width_of_all(g, widths) > width) {
        const size_t next = next_to_leave(g, left_out);
        if (next == g->columns) break;
        left_out[next] = true;
        fit(g, sizes, left_out, width, NARROW_WORDS, widths);
    }
    if (width_of_all(g, widths) > width) fit(g, sizes, left_out, width, STEPS, widths);
}

/* ---- names ------------------------------------------------------------------------------------------ */

typedef struct short_name {
    char *shown;
    const char *name;
    size_t cell;
} short_name;

static int by_look(const void *a, const void *b)
{
    const short_name *x = a, *y = b;
    const int order = strcmp(x->shown, y->shown);
    return order != 0 ? order : strcmp(x->name, y->name);
}

/* Names that differ and would look alike stand whole. */
static void mark_alike(grid_layout *l, short_name *names, size_t count)
{
    qsort(names, count, sizeof *names, by_look);
    for (size_t first = 0, end = 0; first < count; first = end) {
        for (end = first + 1; end < count && strcmp(names[end].shown, names[first].shown) == 0; end++) continue;
        const bool alike = strcmp(names[first].name, names[end - 1].name) != 0; /* sorted: the first and the last differ most */
        for (size_t i = first; i < end && alike; i++) l->whole[names[i].cell] = 1;
    }
}

static void look_at_names(grid_layout *l, const grid *g, size_t column)
{
    const size_t rows = g->count / g->columns;
    short_name *names = calloc(rows + 1, sizeof *names);
    size_t count = 0;
    const char *cell = g->cells.at;
    for (size_t i = 0; i < g->count && names != NULL; i++, cell = grid_next(cell)) {
        if (i % g->columns != column) continue;
        text shown = {0};
        text_put(&shown, "");
        shorten(&shown, cell + 1, l->widths[column]);
        l->failed = l->failed || shown.failed;
        if (shown.at == NULL) continue;
        names[count++] = (short_name){shown.at, cell + 1, i};
    }
    if (names != NULL) mark_alike(l, names, count);
    for (size_t i = 0; i < count; i++) free(names[i].shown);
    l->failed = l->failed || names == NULL;
    free(names);
}

void grid_lay_out(grid_layout *l, const grid *g, size_t width)
{
    *l = (grid_layout){.whole = calloc(g->count + 1, 1)};
    l->failed = l->whole == NULL;
    if (l->failed) return;
    set_widths(g, width, l->widths);
    for (size_t i = 0; i < g->columns; i++)
        if (g->kinds[i] == GRID_NAME && l->widths[i] > 0) look_at_names(l, g, i);
}

void grid_layout_free(grid_layout *l)
{
    free(l->whole);
}
