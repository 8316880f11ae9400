#include "report/page/shop/shop_pages.h"

#include "report/chart/stops.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

/* Common practice, no source: beyond this strain at the outer fibre a tube is replaced, not pulled cold. */
static const double cold_strain = 0.02;

/* How many rows are of the same horn: one, or the steps of a pull in steps. */
static size_t steps_of(const pulled_row *rows, size_t count)
{
    size_t steps = 1;
    while (steps < count && rows[steps].step > rows[steps - 1].step) steps++;
    return steps;
}

static bool is_doubtful(const pulled_row *r)
{
    return r->found.beyond || r->found.peak_strain > cold_strain;
}

/* Returned: whether every horn can be pulled cold. */
static bool say_verdict(text *out, const pulled_row *rows, size_t count, unit_system units)
{
    size_t horns = 0, doubtful = 0;
    const pulled_row *goal = rows;
    for (size_t i = 0; i < count; horns++) {
        const size_t steps = steps_of(&rows[i], count - i);
        if (is_doubtful(&rows[i + steps - 1]) || horns == 0) goal = &rows[i + steps - 1];
        doubtful += is_doubtful(&rows[i + steps - 1]);
        i += steps;
    }
    if (doubtful > 0 && horns > 1) text_format(out, "%zu of %zu horns cannot be pulled cold as asked; ", doubtful, horns);
    text_format(out, "‘%s’: ", goal->name);
    if (goal->found.beyond) {
        text_put(out, "no pull leaves ");
        put_value(out, goal->set, DIM_LENGTH, units);
        text_put(out, "; the horn folds first.");
    } else {
        text_put(out, "pull it ");
        put_length(out, goal->found.travel, units, ROUND_UP);
        text_put(out, " so that ");
        put_value(out, goal->set, DIM_LENGTH, units);
        text_put(out, goal->found.peak_strain > cold_strain ? " stay; the strain at the root is over 2 %." : " stay.");
    }
    return doubtful == 0;
}

static void put_stop(const chart *c, const pulled_row *r, bool tab, unit_system units)
{
    text words = {0};
    text_put(&words, "travel ");
    put_length(&words, r->found.travel, units, ROUND_UP);
    text_put(&words, "\npull ");
    put_quantity(&words, r->found.pull, DIM_FORCE, units, ROUND_UP);
    text_put(&words, "\nset that stays ");
    put_quantity(&words, r->set, DIM_LENGTH, units, ROUND_NEAREST);
    chart_stop(c, shown(r->found.travel, DIM_LENGTH, units), shown(r->found.pull, DIM_FORCE, units), page_said(&words), tab);
    text_free_part(&words, c->out);
}

/* From rest over the first yield to the pull, and back along the elastic slope to the set. Steps return beside each other. */
static void put_figure(text *out, const pulled_row *rows, size_t steps, double farthest, double strongest, unit_system units)
{
    const pulled_row *goal = &rows[steps - 1];
    double x[128] = {0}, y[128] = {0};
    size_t n = 1;
    text axis = {0}, words = {0};
    if (goal->found.beyond) {
        page_words_figure(out, goal->name, "No pull leaves so much: the horn folds at its root first. Pull nearer to the end, or cut the socket off and "
                                           "set it anew. Do not heat it: heat spoils the temper of 4130.");
        return;
    }
    x[n] = shown(goal->found.yield_travel, DIM_LENGTH, units);
    y[n++] = shown(goal->found.yield_pull, DIM_FORCE, units);
    for (size_t i = 0; i < steps && n < 127; i++) {
        x[n] = shown(rows[i].found.travel, DIM_LENGTH, units);
        y[n++] = shown(rows[i].found.pull, DIM_FORCE, units);
    }
    const chart c = {.out = out, .left = 54, .top = 26, .width = FIGURE_WIDTH - 54 - 24, .height = 170, .x_high = 1.08 * farthest,
                     .y_high = chart_round_up(1.05 * strongest, 6)};
    page_begin_chart(out, goal->name, 240, "Pull over travel of the horn's end, and back");
    text_format(&axis, "pull, %s", unit_name(DIM_FORCE, units));
    chart_axis_y(&c, page_said(&axis));
    text_clear(&axis);
    text_format(&axis, "travel of the end, %s", unit_name(DIM_LENGTH, units));
    chart_axis_x(&c, page_said(&axis));
    for (size_t i = 0; i < steps; i++) {
        const double back[] = {shown(rows[i].found.travel, DIM_LENGTH, units), shown(rows[i].set, DIM_LENGTH, units)};
        const double down[] = {shown(rows[i].found.pull, DIM_FORCE, units), 0};
        chart_line(&c, back, down, 2, i + 1 == steps ? "dashed" : "leader");
        chart_point(&c, back[0], down[0], i + 1 == steps ? "dot" : "ring");
    }
    chart_line(&c, x, y, n, "strong");
    chart_point(&c, x[1], y[1], "ring");
    for (size_t i = 0; i < steps; i++) put_stop(&c, &rows[i], i < CHART_TABS_MOST, units);
    text_put(&words, "Ring on the straight part: up to ");
    put_length(&words, goal->found.yield_travel, units, ROUND_DOWN);
    text_put(&words, " it springs back whole. Dot: the pull, ");
    put_length(&words, goal->found.travel, units, ROUND_UP);
    text_put(&words, " with ");
    put_quantity(&words, goal->found.pull, DIM_FORCE, units, ROUND_UP);
    text_format(&words, "; dashed: it comes back, and the set stays. Strain at the root %.2f %%.", 100 * goal->found.peak_strain);
    if (goal->found.peak_strain > cold_strain)
        text_put(&words, " That is over 2 % (common practice, no source): cut the socket off and set it anew instead.");
    page_end_figure(out, page_said(&words));
    text_free_part(&words, out);
    text_free_part(&axis, out);
}

void page_pull(text *out, const page_head *head, const pulled_row *rows, size_t count)
{
    text said = {0};
    double farthest = 0, strongest = 0; /* of all: one scale for all charts */
    for (size_t i = 0; i < count; i++) {
        page_stretch(shown(rows[i].found.travel, DIM_LENGTH, head->units), &(double){0}, &farthest);
        page_stretch(shown(rows[i].found.pull, DIM_FORCE, head->units), &(double){0}, &strongest);
    }
    const bool fine = say_verdict(&said, rows, count, head->units);
    page_plain_sentence(out, fine, &said);
    page_refused(out, head);
    text_put(out, "<p class=\"soft\">Perfectly plastic tube on a root that does not turn: the real one hardens and its root gives, so sneak up and "
                  "measure.</p>\n<div class=\"figures\">\n");
    for (size_t i = 0; i < count;) {
        const size_t steps = steps_of(&rows[i], count - i);
        put_figure(out, &rows[i], steps, farthest, strongest, head->units);
        i += steps;
    }
    text_put(out, "</div>\n");
    page_table(out, &pulled_list, rows, count, head->units, "Every pull");
    text_free_part(&said, out);
}
