#include "report/text/sweep_text.h"

#include "cases/case_words.h"
#include "report/text/cells.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { BAR_MOST = 24, BAR_LEAST = 8 };

typedef struct swept { /* one case */
    const sweep_row *rows;
    size_t count;
    const field *const *varied;
    size_t columns;
    const screen *s;
} swept;

/* ---- in words --------------------------------------------------------------------------------------- */

static void put_values(text *out, const swept *s, const sweep_row *r)
{
    for (size_t k = 0; k < s->columns; k++) {
        text_format(out, "%s%s ", k > 0 ? ", " : "", s->varied[k]->name);
        put_value(out, r->value[k], s->varied[k]->dimension, s->s->units);
    }
}

/* In a grid of two columns each value of the first begins anew. */
static bool changes_at(const swept *s, size_t i)
{
    const sweep_row *r = &s->rows[i];
    return i > 0 && r[-1].result.verdict != r->result.verdict && (s->columns == 1 || !(fabs(r[-1].value[0] - r->value[0]) > 0));
}

/* Where the verdict changes along one column. */
static void put_changes(text *out, const swept *s)
{
    enum { SAID_MOST = 3 };
    size_t count = 0;
    for (size_t i = 1; i < s->count; i++) {
        if (!changes_at(s, i)) continue;
        if (++count > SAID_MOST) {
            text_put(out, " and more");
            return;
        }
        text_put(out, count == 1 ? "; changes between " : " and between ");
        put_number(out, shown(s->rows[i - 1].value[0], s->varied[0]->dimension, s->s->units), 6);
        text_put(out, " and ");
        put_value(out, s->rows[i].value[0], s->varied[0]->dimension, s->s->units);
    }
}

static size_t holding(const swept *s)
{
    size_t holds = 0;
    for (size_t i = 0; i < s->count; i++) holds += s->rows[i].result.verdict == RBOW_HOLDS;
    return holds;
}

static const sweep_row *worst_of(const swept *s)
{
    const sweep_row *worst = s->rows;
    for (size_t i = 1; i < s->count; i++)
        if (s->rows[i].result.margin < worst->result.margin) worst = &s->rows[i];
    return worst;
}

static void say_summary(text *out, const swept *s)
{
    const size_t holds = holding(s);
    const sweep_row *worst = worst_of(s);
    text line = {0};
    put_name(&line, s->rows->name);
    if (holds == s->count || holds == 0)
        text_format(&line, ": %s %s", holds > 0 ? "holds" : "SHORT", s->s->faults ? "for every value that was checked" : "throughout");
    else
        text_format(&line, ": holds for %zu of %zu values", holds, s->count);
    if (s->columns == 1) put_changes(&line, s);
    text_put(&line, "; worst margin ");
    put_percent(&line, worst->result.margin);
    if (isfinite(worst->result.margin)) {
        text_put(&line, " at ");
        put_values(&line, s, worst);
    }
    text_put(&line, ".");
    put_paragraph(out, &line, 2, holds == s->count ? TONE_GOOD : TONE_BAD, s->s);
    text_free(&line);
}

/* ---- row by row ------------------------------------------------------------------------------------- */

typedef struct margin_scale { /* of all cases, so that bars of two of them can be compared */
    double least, most;
} margin_scale;

static margin_scale scale_of(const sweep_row *rows, size_t count)
{
    margin_scale m = {0, 0};
    for (size_t i = 0; i < count; i++) {
        const double margin = rows[i].result.margin;
        if (isfinite(margin)) m.least = fmin(m.least, margin), m.most = fmax(m.most, margin);
    }
    return m;
}

/* A bar of the margin between the least and the largest of all: '-' below zero, '+' above it, '|' at it. What is not
 * zero has one mark at least. */
static void add_bar(grid *g, double margin, const margin_scale *scale, int width)
{
    char bar[BAR_MOST + 1];
    const double least = scale->least, most = scale->most;
    const double span = most > least ? most - least : 1, end = isinf(margin) ? least + span : margin;
    const int zero_rounded = (int)lround(-least / span * (width - 1)), end_at = (int)lround((end - least) / span * (width - 1));
    const int zero_at = least < 0 && zero_rounded < 1 ? 1 : most > 0 && zero_rounded > width - 2 ? width - 2 : zero_rounded;
    const int here_at = margin < 0 && end_at >= zero_at ? zero_at - 1 : margin > 0 && end_at <= zero_at ? zero_at + 1 : end_at;
    for (int i = 0; i < width; i++) {
        const bool filled = margin < 0 ? i >= here_at && i < zero_at : i > zero_at && i <= here_at;
        bar[i] = i == zero_at ? '|' : filled ? (margin < 0 ? '-' : '+') : ' ';
    }
    bar[width] = '\0';
    grid_cell(g, tone_of(margin), bar);
}

static void value_heads(grid *g, const swept *s)
{
    for (size_t i = 0; i < s->columns; i++) {
        const char *u = unit_name(s->varied[i]->dimension, s->s->units);
        grid_column(g, GRID_RIGHT, "%s%s%s", s->varied[i]->name, *u != '\0' ? ", " : "", u);
    }
}

/* What the other columns leave of the line. */
static int bar_width(const swept *s)
{
    const size_t others = 10 + 13 + 24 + 18 * s->columns; /* margin, governs, verdict, values at their widest */
    const size_t room = s->s->width > others ? s->s->width - others : 0;
    return room < BAR_LEAST ? BAR_LEAST : room > BAR_MOST ? BAR_MOST : (int)room;
}

static void say_rows(text *out, const swept *s, const margin_scale *scale)
{
    grid g = {0};
    const int width = bar_width(s);
    value_heads(&g, s);
    grid_column(&g, GRID_RIGHT, "margin");
    grid_column(&g, GRID_LEFT, "short | holds");
    grid_spare(&g, 1);
    grid_column(&g, GRID_LEFT, "governs");
    grid_column(&g, GRID_WORDS, "verdict");
    for (size_t i = 0; i < s->count; i++) {
        const sweep_row *r = &s->rows[i];
        for (size_t k = 0; k < s->columns; k++)
            grid_format(&g, TONE_PLAIN, "%.6g", shown(r->value[k], s->varied[k]->dimension, s->s->units) + 0.0);
        add_margin(&g, r->result.margin);
        add_bar(&g, r->result.margin, scale, width);
        grid_cell(&g, TONE_PLAIN, r->governs);
        grid_format(&g, tone_of(r->result.margin), "%s%s", r->result.verdict == RBOW_HOLDS ? "holds" : "SHORT",
                    changes_at(s, i) ? "  <- changes" : "");
    }
    grid_write(out, &g, s->s);
    grid_free(&g);
}

/* ---- all cases -------------------------------------------------------------------------------------- */

/* By the worst margin, else in the order of the file. */
static int worst_first(const void *a, const void *b)
{
    const swept *x = a, *y = b;
    const double left = worst_of(x)->result.margin, right = worst_of(y)->result.margin;
    if (left < right || left > right) return left < right ? -1 : 1;
    return (x->rows > y->rows) - (x->rows < y->rows);
}

static void add_case(grid *g, const swept *s)
{
    const sweep_row *worst = worst_of(s);
    const size_t holds = holding(s);
    add_name(g, s->rows->name);
    grid_format(g, holds == s->count ? TONE_GOOD : TONE_BAD, "%zu of %zu", holds, s->count);
    add_margin(g, worst->result.margin);
    for (size_t k = 0; k < s->columns; k++)
        grid_format(g, TONE_PLAIN, "%.6g", shown(worst->value[k], s->varied[k]->dimension, s->s->units) + 0.0);
    grid_cell(g, TONE_PLAIN, worst->governs);
}

/* With one case alone its own words say it all. */
static void say_cases(text *out, swept cases[], size_t count)
{
    grid g = {0};
    if (count < 2) return;
    qsort(cases, count, sizeof *cases, worst_first);
    grid_column(&g, GRID_NAME, "worst first");
    grid_column(&g, GRID_RIGHT, "holds");
    grid_column(&g, GRID_RIGHT, "worst margin");
    value_heads(&g, cases);
    grid_column(&g, GRID_LEFT, "governs");
    for (size_t i = 0; i < count; i++) add_case(&g, &cases[i]);
    grid_write(out, &g, cases->s);
    text_char(out, '\n');
    grid_free(&g);
}

/* Returned: how many cases; they are in the order of the file */
static size_t split_cases(const sweep_row *rows, size_t count, const swept *like, swept cases[])
{
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        if (i == 0 || rows[i].begins) {
            cases[found] = *like;
            cases[found].rows = &rows[i];
            cases[found++].count = 0;
        }
        cases[found - 1].count++;
    }
    return found;
}

static void say_each(text *out, const swept cases[], size_t count, const margin_scale *scale)
{
    for (size_t i = 0; i < count; i++) {
        if (i > 0) text_char(out, '\n');
        say_summary(out, &cases[i]);
        text_char(out, '\n');
        say_rows(out, &cases[i], scale);
    }
}

void sweep_text(text *out, const sweep_row *rows, size_t count, const field *const varied[], size_t columns,
                const screen *s)
{
    const swept like = {.varied = varied, .columns = columns, .s = s};
    const margin_scale scale = scale_of(rows, count);
    swept *cases = malloc((count + 1) * sizeof *cases), *sorted = malloc((count + 1) * sizeof *sorted);
    put_refused(out, s);
    if (cases != NULL && sorted != NULL) {
        const size_t found = split_cases(rows, count, &like, cases);
        memcpy(sorted, cases, found * sizeof *cases);
        say_cases(out, sorted, found);
        say_each(out, cases, found, &scale);
    } else {
        out->failed = true;
    }
    free(cases);
    free(sorted);
    put_assumptions(out, s);
    put_end(out, s);
}
