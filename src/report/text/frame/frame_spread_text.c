#include "report/text/frame/frame_spread_text.h"

#include "report/caution.h"
#include "report/text/cells.h"
#include "report/text/measures.h"
#include "report/text/scatter_text.h"

#include <railbow/member.h>

#include <math.h>

/* ---- scatter -------------------------------------------------------------------------------------------------- */

static void say_shorts(text *out, const scatter_row *r, const screen *s)
{
    text line = {0};
    text_put(&line, "The frame: ");
    if (isnan(r->margins.short_share)) text_put(&line, "no sample lies inside the model");
    else scatter_shorts_text(&line, r);
    text_put(&line, "; as given the margin is ");
    put_percent(&line, r->nominal);
    text_char(&line, '.');
    put_paragraph(out, &line, 2, !(r->margins.short_share <= 0) ? TONE_BAD : TONE_GOOD, s);
    text_free(&line);
}

static void say_worst_tubes(text *out, const frame_scatter_shown *a, const screen *s)
{
    enum { NAMED = 5 };
    grid g = {0};
    size_t shown = 0;
    for (size_t i = 0; i < a->tube_count; i++) shown += a->tubes[i].samples > 0 && (a->every_tube || shown < NAMED);
    if (shown == 0) return;
    text_char(out, '\n');
    grid_column(&g, GRID_NAME, "worst tube");
    grid_column(&g, GRID_RIGHT, "of the samples");
    for (size_t i = 0; i < shown; i++) {
        add_name(&g, a->tubes[i].tube);
        grid_format(&g, TONE_PLAIN, "%.1f %%", 100 * a->tubes[i].share);
    }
    grid_write(out, &g, s);
    grid_free(&g);
}

static void say_drivers(text *out, const frame_scatter_shown *a, const screen *s)
{
    grid g = {0};
    text_char(out, '\n');
    if (*a->rows->driver_of == '\0') {
        if (!(a->rows->all.margins.sd > 0)) text_put(out, "Nothing that varies moves the margin.\n");
        else put_sentence(out, "No column stands out: none moves the margin by more than chance does with so many samples.", 0, s);
        return;
    }
    grid_column(&g, GRID_NAME, "driven by");
    grid_column(&g, GRID_LEFT, "column");
    grid_column(&g, GRID_RIGHT, "of the spread");
    for (size_t i = 0; i < a->count; i++) {
        add_name(&g, a->rows[i].driver_of);
        grid_cell(&g, TONE_PLAIN, a->rows[i].all.driver);
        grid_format(&g, TONE_PLAIN, "%.1f %%", 100 * a->rows[i].all.driver_share);
    }
    grid_write(out, &g, s);
    grid_free(&g);
}

static void say_what_varies(text *out, const frame_scatter_shown *a, const screen *s)
{
    text line = {0};
    text_format(&line, "%zu number%s of joints and tubes var%s, each for itself.", a->columns, a->columns == 1 ? "" : "s",
                a->columns == 1 ? "ies" : "y");
    if (a->clocks > 0)
        text_format(&line, " %zu of them %s the clock of a miss that the frame does not give: it points anywhere.", a->clocks,
                    a->clocks == 1 ? "is" : "are");
    if (a->chance > 0) text_format(&line, " A share of the spread under %.1f %% may be chance.", 100 * a->chance);
    if (a->first > 1) text_format(&line, " These are the samples from %zu to %.0f.", a->first, (double)a->first - 1 + a->rows->all.margins.samples);
    put_lines(out, &line, 0, s);
}

void frame_scatter_text(text *out, const frame_scatter_shown *a, const screen *s)
{
    const scatter_row *all = &a->rows->all;
    say_shorts(out, all, s);
    scatter_margins_text(out, all, s);
    say_worst_tubes(out, a, s);
    say_drivers(out, a, s);
    scatter_bars_text(out, all, s);
    scatter_seed_text(out, a->seed, s);
    say_what_varies(out, a, s);
    text_char(out, '\n');
    put_sentence(out, frame_assumptions, 0, s);
    put_end(out, s);
}

/* ---- index ---------------------------------------------------------------------------------------------------- */

static bool is_turned(const frame_index_row *r)
{
    return r->best_clock < r->marked_clock || r->best_clock > r->marked_clock;
}

static void put_margin_of(text *out, double margin, const char *tube, const char *run)
{
    put_percent(out, margin);
    if (*tube == '\0') return;
    text_put(out, " (");
    put_name(out, tube);
    text_put(out, " in run ");
    put_name(out, run);
    text_char(out, ')');
}

static void say_verdict(text *out, const frame_index_shown *a, size_t turned, const screen *s)
{
    text line = {0};
    text_put(&line, a->before >= 0 ? "The frame holds with its bows as marked" : "The frame is SHORT with its bows as marked");
    if (a->count == 0) text_put(&line, ": no tube has a bow, so there is nothing to turn");
    else if (turned == 0) text_put(&line, ", and turning them gains nothing");
    else text_put(&line, a->before >= 0 ? "; turned it holds by more" : a->after >= 0 ? "; turned it HOLDS" : ", and turned it is SHORT by less");
    text_put(&line, ": margin ");
    put_margin_of(&line, a->before, a->worst_before, a->run_before);
    if (turned > 0) {
        text_put(&line, " as marked, ");
        put_margin_of(&line, a->after, a->worst_after, a->run_after);
        text_put(&line, " at the best clocks");
    }
    text_char(&line, '.');
    put_paragraph(out, &line, 2, a->after >= 0 ? TONE_GOOD : TONE_BAD, s);
    text_free(&line);
}

static void say_turns(text *out, const frame_index_shown *a, size_t turned, const screen *s)
{
    grid g = {0};
    text_char(out, '\n');
    grid_column(&g, GRID_NAME, "turn the bow of");
    grid_column(&g, GRID_RIGHT, "now at");
    grid_column(&g, GRID_RIGHT, "to clock");
    grid_column(&g, GRID_RIGHT, "gains");
    for (size_t i = 0; i < a->count; i++) {
        const frame_index_row *r = &a->rows[i];
        if (!is_turned(r)) continue;
        add_name(&g, r->tube);
        add_clock(&g, r->marked_clock, 0);
        add_clock(&g, r->best_clock, 0);
        grid_format(&g, TONE_PLAIN, "%+.2f pt", 100 * r->gained);
    }
    grid_write(out, &g, s);
    grid_free(&g);
    if (turned == a->count) return;
    text line = {0};
    text_format(&line, "The other %zu bow%s: turning gains less than 0.01 pt each.", a->count - turned, a->count - turned == 1 ? "" : "s");
    put_lines(out, &line, 0, s);
}

void frame_index_text(text *out, const frame_index_shown *a, const screen *s)
{
    size_t turned = 0;
    for (size_t i = 0; i < a->count; i++) turned += is_turned(&a->rows[i]);
    say_verdict(out, a, turned, s);
    if (turned > 0) say_turns(out, a, turned, s);
    if (a->count > 0) {
        text line = {0};
        text_format(&line, "pt: points of margin. Clocks in degrees, seen from joint A: 0 up, 90 right. This is a descent: one bow turned "
                           "after another, from the worst tube on, in %zu round%s. Another set of clocks may be better.", a->rounds,
                    a->rounds == 1 ? "" : "s");
        text_char(out, '\n');
        put_lines(out, &line, 0, s);
    }
    text_char(out, '\n');
    put_sentence(out, frame_assumptions, 0, s);
    put_end(out, s);
}
