#include "report/text/shop/sight_text.h"

#include "report/shop/shop_words.h"
#include "report/text/cells.h"
#include "report/text/measures.h"

#include <math.h>

static void say_counts(text *out, const sight_row *rows, size_t count, const screen *s)
{
    size_t of[3] = {0};
    for (size_t i = 0; i < count; i++) of[rows[i].verdict]++;
    text line = {0};
    text_format(&line, "%zu of %zu line%s %s off by more than the error of the readings", of[SIGHT_SIGNIFICANT], count,
                count > 1 ? "s" : "", of[SIGHT_SIGNIFICANT] == 1 ? "is" : "are");
    if (of[SIGHT_RECHECK] > 0) text_format(&line, "; %zu to RECHECK", of[SIGHT_RECHECK]);
    text_char(&line, '.');
    put_paragraph(out, &line, 2, of[SIGHT_RECHECK] == 0 ? TONE_PLAIN : TONE_BAD, s);
    text_free(&line);
    text_char(out, '\n');
}

static void say_lines_table(text *out, const sight_row *rows, size_t count, const screen *s)
{
    const char *u = unit_name(DIM_LENGTH, s->units);
    grid g = {0};
    grid_column(&g, GRID_NAME, "line");
    grid_column(&g, GRID_LEFT, "what");
    grid_column(&g, GRID_RIGHT, "off by, %s", u);
    if (s->units == UNITS_US) grid_column(&g, GRID_RIGHT, "1/64");
    grid_column(&g, GRID_RIGHT, "error, %s", u);
    grid_column(&g, GRID_RIGHT, "clock");
    grid_column(&g, GRID_LEFT, "verdict");
    for (size_t i = 0; i < count; i++) {
        const sight_row *r = &rows[i];
        add_name(&g, r->line);
        grid_cell(&g, TONE_PLAIN, r->kind == SIGHT_TUBE ? "bow" : "miss");
        add_quantity(&g, sight_size(r), DIM_LENGTH, s->units, ROUND_NEAREST);
        if (s->units == UNITS_US) add_fraction(&g, sight_size(r), DIM_LENGTH, s->units, ROUND_NEAREST);
        add_quantity(&g, sight_error(r), DIM_LENGTH, s->units, ROUND_UP);
        add_clock(&g, sight_clock(r), 0);
        grid_cell(&g, r->verdict == SIGHT_RECHECK ? TONE_BAD : TONE_PLAIN, r->verdict == SIGHT_RECHECK ? "RECHECK" : sight_verdict_words[r->verdict].word);
    }
    grid_write(out, &g, s);
    grid_free(&g);
    put_sentence(out, "The error is that of the readings, at 95 %, along the clock.", 0, s);
}

/* ---- one line ------------------------------------------------------------------------------------------------------------------ */

static void say_what_to_type(text *out, const sight_row *r, const screen *s)
{
    text line = {0};
    text_char(&line, '\n');
    put_name(&line, r->line);
    if (r->verdict == SIGHT_RECHECK) text_put(&line, ": read again before you type anything. The readings as they are would give ");
    else if (r->verdict == SIGHT_SIGNIFICANT) text_put(&line, ": type ");
    else text_format(&line, ": no %s shows beyond the error. To be on the safe side type ", r->kind == SIGHT_TUBE ? "bow" : "miss");
    put_sight_columns(&line, r, s->units);
    text_char(&line, '.');
    put_lines(out, &line, 2, s);
}

static void say_fit(text *out, const sight_row *r, const screen *s)
{
    text line = {0};
    if (r->found.freedom == 0) {
        text_put(&line, r->kind == SIGHT_TUBE ? "  Three stations fit every shape, and a wrong reading would not show: read five or more."
                                             : "  Two stations fit every bar, and a wrong reading would not show: read three or more.");
    } else {
        text_format(&line, "  Misfit %.3g, where 95 %% of such readings leave less than %.3g: ", r->found.misfit, r->found.misfit_most);
        if (r->found.holds) {
            text_put(&line, "the readings hold together.");
        } else {
            text_format(&line, "%s, a reading is wrong, or reading_error is too small. The reading at station ",
                        r->kind == SIGHT_TUBE ? "the tube has another shape" : "the bar is bent");
            put_length(&line, r->found.worst, s->units, ROUND_NEAREST);
            text_put(&line, " lies furthest off.");
        }
    }
    put_lines(out, &line, 2, s);
}

static void say_planes(text *out, const sight_row *r, const screen *s)
{
    size_t up = 0, right = 0;
    for (size_t i = 0; i < r->count; i++) {
        if (!isnan(r->at[i].up)) up++;
        if (!isnan(r->at[i].right)) right++;
    }
    if (up > 0 && right > 0) return;
    text line = {0};
    text_format(&line, "  Only %s was read: what is off %s is not in this answer.", up > 0 ? "up" : "right",
                up > 0 ? "to the right or left" : "up or down");
    put_lines(out, &line, 2, s);
}

static void say_offset(text *out, const sight_row *r, const screen *s)
{
    text line = {0};
    if (r->kind == SIGHT_TUBE) return;
    text_put(&line, "  At A the bar lies ");
    put_length(&line, r->found.offset, s->units, ROUND_NEAREST);
    put_clock(&line, r->found.offset_clock);
    text_put(&line, " from the reference line; that is not part of the miss.");
    put_lines(out, &line, 2, s);
}

/* Of a bar the error falls with its length, of a string, whose ends are those of the tube, with the number of readings. */
static void say_better(text *out, const sight_row *r, const screen *s)
{
    text line = {0};
    text_put(&line, r->kind == SIGHT_TUBE ? "  Every station read twice would bring the error down to "
                                          : "  A bar twice as long, read at stations twice as far apart, would halve the error to ");
    put_length(&line, r->kind == SIGHT_TUBE ? sight_error(r) / sqrt(2) : sight_error(r) / 2, s->units, ROUND_UP);
    text_char(&line, '.');
    put_lines(out, &line, 2, s);
}

void sight_text(text *out, const sight_row *rows, size_t count, const screen *s)
{
    put_refused(out, s);
    if (count > 0) {
        say_counts(out, rows, count, s);
        say_lines_table(out, rows, count, s);
    }
    for (size_t i = 0; i < count; i++) {
        say_what_to_type(out, &rows[i], s);
        say_planes(out, &rows[i], s);
        say_offset(out, &rows[i], s);
        say_fit(out, &rows[i], s);
        say_better(out, &rows[i], s);
    }
    put_end(out, s);
}
