#include "report/page/frame/frame_spread_page.h"

#include "report/caution.h"
#include "report/html.h"
#include "report/lines.h"
#include "report/page/parts.h"
#include "report/page/scatter_page.h"
#include "report/values.h"

#include <math.h>

/* ---- scatter -------------------------------------------------------------------------------------------------- */

static void say_shorts(text *out, const margin_statistics *m)
{
    if (isnan(m->short_share)) text_put(out, "No sample of the frame lies inside the model.");
    else if (m->short_share >= 1) text_put(out, "Every sample of the frame is short.");
    else if (m->short_share > 0) text_format(out, "The frame is short in %.2f %% of the samples.", 100 * m->short_share);
    else text_put(out, "No sample of the frame is short.");
}

/* How many tubes are ever the worst. */
static size_t worst_tubes(const frame_scatter_shown *a)
{
    size_t count = 0;
    while (count < a->tube_count && a->tubes[count].samples > 0) count++;
    return count;
}

void page_frame_scatter(text *out, const page_head *head, const frame_scatter_shown *a)
{
    text said = {0};
    say_shorts(&said, &a->rows->all.margins);
    page_frame_sentence(out, a->rows->all.margins.short_share <= 0, &said);
    page_refused(out, head);
    text_put(out, "<div class=\"figures\">\n");
    page_scatter_figure(out, &a->rows->all, a->rows->all.low, a->rows->all.high);
    text_put(out, "</div>\n");
    if (a->clocks > 0)
        text_format(out, "<p class=\"soft\">%zu of the %zu numbers that vary are clocks of misses that the frame does not give: they point "
                         "anywhere.</p>\n", a->clocks, a->columns);
    page_table(out, &frame_scatter_summary, a->rows, 1, head->units, "Scatter of the frame");
    page_table(out, &frame_scatter_drivers, a->rows, a->count, head->units, "What drives it");
    page_table(out, &frame_worst_list, a->tubes, worst_tubes(a), head->units, "How often each tube is the worst");
    text_free_part(&said, out);
}

/* ---- index ---------------------------------------------------------------------------------------------------- */

static bool is_turned(const frame_index_row *r)
{
    return r->best_clock < r->marked_clock || r->best_clock > r->marked_clock;
}

static void say_verdict(text *out, const frame_index_shown *a)
{
    text_put(out, a->before >= 0 ? "The frame holds with its bows as marked, margin " : "The frame is short with its bows as marked, margin ");
    put_percent(out, a->before);
    if (!(a->after > a->before)) {
        text_put(out, "; turning them gains nothing.");
        return;
    }
    text_put(out, a->before < 0 && a->after >= 0 ? "; turned it holds, " : "; turned it has ");
    put_percent(out, a->after);
    text_char(out, '.');
}

enum { TURN_HEIGHT = 19, TURNS_TOP = 22, TURN_NAME = 20, TURNS_DRAWN = 20 };

static double most_gained(const frame_index_shown *a)
{
    double most = 0;
    for (size_t i = 0; i < a->count; i++) most = fmax(most, a->rows[i].gained);
    return most;
}

static void put_turn(const chart *c, const frame_index_row *r, double middle)
{
    text name = {0}, words = {0};
    shorten(&name, r->tube, TURN_NAME);
    chart_words(c->out, 0, middle + 4, "start", "", page_said(&name));
    chart_bar(c, 0, r->gained, middle, 11, "fill-steel");
    text_format(&words, "%+.2f pt, to ", 100 * r->gained);
    page_quantity(&words, r->best_clock, DIM_ANGLE, UNITS_US);
    chart_words(c->out, c->left + c->width + 6, middle + 4, "start", "", page_said(&words));
    text_free_part(&name, c->out);
    text_free_part(&words, c->out);
}

static void put_turns(text *out, const frame_index_shown *a)
{
    size_t turned = 0, drawn = 0;
    const double most = most_gained(a);
    for (size_t i = 0; i < a->count; i++) turned += is_turned(&a->rows[i]);
    if (turned == 0 || !(most > 0)) return;
    if (turned > TURNS_DRAWN) turned = TURNS_DRAWN;
    page_begin_figure(out, "What turning each bow gains", TURNS_TOP + TURN_HEIGHT * (double)turned + 4, "Points of margin that each turn gains");
    const chart c = {.out = out, .left = 120, .top = TURNS_TOP, .width = FIGURE_WIDTH - 120 - 140, .height = 1, .x_high = most, .y_high = 1};
    for (size_t i = 0; i < a->count && drawn < turned; i++)
        if (is_turned(&a->rows[i])) put_turn(&c, &a->rows[i], TURNS_TOP + TURN_HEIGHT * ((double)drawn++ + 0.5));
    page_end_figure(out, "Points of margin of the whole frame, and the clock to turn to. A descent: one bow turned after another, from the worst "
                         "tube on. Another set of clocks may be better.");
}

void page_frame_index(text *out, const page_head *head, const frame_index_shown *a)
{
    text said = {0};
    say_verdict(&said, a);
    page_frame_sentence(out, a->before >= 0, &said);
    page_refused(out, head);
    text_put(out, "<div class=\"figures\">\n");
    put_turns(out, a);
    text_put(out, "</div>\n");
    page_table(out, &frame_index_list, a->rows, a->count, head->units, "Bows of the frame");
    text_free_part(&said, out);
}
