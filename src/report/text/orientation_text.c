#include "report/text/orientation_text.h"

#include "report/lines.h"
#include "report/text/cells.h"

#include <railbow/member.h>

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

static void say_summary(text *out, const orientation_row *rows, size_t count)
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
    put_paragraph(out, &line, TONE_PLAIN, false);
    text_free(&line);
}

static void add_clock(grid *g, double clock)
{
    text t = {0};
    if (isnan(clock))
        text_put(&t, "-");
    else if (clock <= RBOW_ANY_CLOCK)
        text_put(&t, "any");
    else
        put_degrees(&t, clock);
    grid_cell(g, TONE_PLAIN, text_string(&t, &g->cells.failed));
    text_free(&t);
}

static void add_win(grid *g, const orientation_row *r)
{
    const double win = win_of(r);
    if (!(r->bow > 0))
        grid_cell(g, TONE_QUIET, "no bow");
    else if (!(win >= worth))
        grid_cell(g, TONE_PLAIN, "too little");
    else if (isinf(win))
        grid_cell(g, TONE_GOOD, "all: then no limit");
    else if (win > 99.99)
        grid_cell(g, TONE_PLAIN, "over 9999 points");
    else
        grid_format(g, TONE_PLAIN, "%+.1f points%s", 100 * win,
                    r->found.margin_as_marked < 0 && r->found.best_margin >= 0 ? ": then HOLDS" : "");
}

static void say_rows(text *out, const orientation_row *rows, size_t count, bool colour)
{
    grid g = {0};
    grid_column(&g, rows->is_part ? "part, all its cases" : "case", GRID_LEFT);
    grid_column(&g, "now at", GRID_RIGHT);
    grid_column(&g, "margin", GRID_RIGHT);
    grid_column(&g, "best at", GRID_RIGHT);
    grid_column(&g, "margin", GRID_RIGHT);
    grid_column(&g, "worst at", GRID_RIGHT);
    grid_column(&g, "margin", GRID_RIGHT);
    grid_column(&g, "turning wins", GRID_LEFT);
    for (size_t i = 0; i < count; i++) {
        const orientation_row *r = &rows[i];
        add_name(&g, name_of(r));
        add_clock(&g, r->marked_clock);
        add_margin(&g, r->found.margin_as_marked);
        add_clock(&g, r->found.best_clock);
        add_margin(&g, r->found.best_margin);
        add_clock(&g, r->found.worst_clock);
        add_margin(&g, r->found.worst_margin);
        add_win(&g, r);
    }
    grid_write(out, &g, colour);
    grid_free(&g);
}

void orientation_text(text *out, const orientation_row *rows, size_t count, bool faults, bool colour)
{
    const bool shares = orientation_shares(rows, count);
    const size_t parts = orientation_parts(rows, count);
    const orientation_row *cases = &rows[parts];
    if (count > 0) {
        say_summary(out, shares ? rows : cases, shares ? parts : count - parts);
        text_char(out, '\n');
        if (shares) {
            say_rows(out, rows, parts, colour);
            text_char(out, '\n');
        }
        say_rows(out, cases, count - parts, colour);
        text_char(out, '\n');
        wrap(out, "Too little: under a point of margin. The cases of a part are one tube, which has one clock: with the best one "
                  "for the part the lowest margin of its cases is the largest.", 0);
    }
    put_end(out, faults);
}
