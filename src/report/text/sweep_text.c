#include "report/text/sweep_text.h"

#include "cases/case_words.h"
#include "report/text/cells.h"

#include <math.h>

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

static void say_summary(text *out, const swept *s)
{
    size_t holds = 0;
    const sweep_row *worst = s->rows;
    for (size_t i = 0; i < s->count; i++) {
        holds += s->rows[i].result.verdict == RBOW_HOLDS;
        if (s->rows[i].result.margin < worst->result.margin) worst = &s->rows[i];
    }
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

/* A bar of the margin between the least and the largest of its case: '-' below zero, '+' above it, '|' at it. What is not
 * zero has one mark at least. */
static void add_bar(grid *g, double margin, double least, double most, int width)
{
    char bar[BAR_MOST + 1];
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

static void say_rows(text *out, const swept *s)
{
    grid g = {0};
    const int width = bar_width(s);
    double least = 0, most = 0;
    for (size_t i = 0; i < s->count; i++)
        if (isfinite(s->rows[i].result.margin)) least = fmin(least, s->rows[i].result.margin), most = fmax(most, s->rows[i].result.margin);
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
        add_bar(&g, r->result.margin, least, most, width);
        grid_cell(&g, TONE_PLAIN, governs_words[r->result.governs].word);
        grid_format(&g, tone_of(r->result.margin), "%s%s", r->result.verdict == RBOW_HOLDS ? "holds" : "SHORT",
                    changes_at(s, i) ? "  <- changes" : "");
    }
    grid_write(out, &g, s->s);
    grid_free(&g);
}

void sweep_text(text *out, const sweep_row *rows, size_t count, const field *const varied[], size_t columns,
                const screen *s)
{
    put_refused(out, s);
    for (size_t i = 0; i < count;) {
        swept one = {&rows[i], 1, varied, columns, s};
        while (i + one.count < count && !rows[i + one.count].begins) one.count++;
        if (i > 0) text_char(out, '\n');
        say_summary(out, &one);
        text_char(out, '\n');
        say_rows(out, &one);
        i += one.count;
    }
    put_assumptions(out, s);
    put_end(out, s);
}
