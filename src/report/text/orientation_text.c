#include "report/text/orientation_text.h"

#include "report/text/cells.h"
#include "report/text/measures.h"

#include <math.h>

static const double worth = 0.01; /* of margin; less is not worth a mark on the tube */

static double win_of(const orientation_row *r)
{
    return isinf(r->found.margin_as_marked) ? 0 : r->found.best_margin - r->found.margin_as_marked;
}

static const char *name_of(const orientation_row *r)
{
    return r->is_part ? r->part : r->name;
}

static void say_summary(text *out, const orientation_row *rows, size_t count, const screen *s)
{
    const char *what = rows->is_part ? "part" : "case";
    size_t worthy = 0;
    const orientation_row *most = rows;
    for (size_t i = 0; i < count; i++) {
        worthy += win_of(&rows[i]) >= worth;
        if (win_of(&rows[i]) > win_of(most)) most = &rows[i];
    }
    text line = {0};
    text_put(&line, "Turning the tube's own bow ");
    if (worthy == 0) {
        text_put(&line, "wins less than a point of margin: not worth doing.");
    } else {
        text_format(&line, "is worth doing in %zu of %zu %ss, most in ", worthy, count, what);
        put_name(&line, name_of(most));
        text_put(&line, ".");
    }
    text_put(&line, " Clocks in degrees, seen from A: 0 up, 90 right.");
    put_lines(out, &line, 2, s);
}

static void add_win(grid *g, const orientation_row *r)
{
    const double win = win_of(r);
    if (!(r->bow > 0))
        grid_cell(g, TONE_QUIET, "no bow");
    else if (!(win >= worth))
        grid_cell(g, TONE_PLAIN, "too little");
    else if (isinf(win))
        grid_cell(g, TONE_GOOD, "all: no limit");
    else if (win > 99.99)
        grid_cell(g, TONE_PLAIN, "over 9999 pt");
    else
        grid_format(g, TONE_PLAIN, "%+.1f pt%s", 100 * win,
                    r->found.margin_as_marked < 0 && r->found.best_margin >= 0 ? ": HOLDS" : "");
}

static void say_rows(text *out, const orientation_row *rows, size_t count, const screen *s)
{
    grid g = {0};
    grid_column(&g, GRID_NAME, "%s", rows->is_part ? "part, all cases" : "case");
    grid_column(&g, GRID_RIGHT, "now at");
    grid_column(&g, GRID_RIGHT, "margin");
    grid_spare(&g, 1);
    grid_column(&g, GRID_RIGHT, "best at");
    grid_column(&g, GRID_RIGHT, "best margin");
    grid_column(&g, GRID_RIGHT, "worst at");
    grid_spare(&g, 3);
    grid_column(&g, GRID_RIGHT, "worst margin");
    grid_spare(&g, 2);
    grid_column(&g, GRID_LEFT, "turning wins");
    for (size_t i = 0; i < count; i++) {
        const orientation_row *r = &rows[i];
        add_name(&g, name_of(r));
        add_clock(&g, r->marked_clock, 1);
        add_margin(&g, r->found.margin_as_marked);
        add_clock(&g, r->found.best_clock, 1);
        add_margin(&g, r->found.best_margin);
        add_clock(&g, r->found.worst_clock, 1);
        add_margin(&g, r->found.worst_margin);
        add_win(&g, r);
    }
    grid_write(out, &g, s);
    grid_free(&g);
}

void orientation_text(text *out, const orientation_row *rows, size_t count, const screen *s)
{
    const bool shares = orientation_shares(rows, count);
    const size_t parts = orientation_parts(rows, count);
    const orientation_row *cases = parts > 0 ? &rows[parts] : rows;
    put_refused(out, s);
    if (count > 0) {
        say_summary(out, shares ? rows : cases, shares ? parts : count - parts, s);
        text_char(out, '\n');
        if (shares) {
            say_rows(out, rows, parts, s);
            text_char(out, '\n');
        }
        say_rows(out, cases, count - parts, s);
        put_sentence(out, "pt: points of margin; too little: under one of them. The cases of a part are one tube, which has one clock: "
                          "with the best one for the part the lowest margin of its cases is the largest.", 0, s);
    }
    put_assumptions(out, s);
    put_end(out, s);
}
