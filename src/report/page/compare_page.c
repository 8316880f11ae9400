#include "report/page/compare_page.h"

#include "cases/compare_sum.h"
#include "report/chart/stops.h"
#include "report/page/compare_matrix.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

typedef struct compare_view {
    const compare_row *rows;
    size_t count, tubes, pick; /* pick: tubes for none */
    bool own_od, faults; /* faults: some rows have no answer */
    unit_system units;
} compare_view;

static void put_tube(text *out, const compare_view *c, const compare_row *r)
{
    if (!c->own_od) text_format(out, "%.5g × ", shown(r->tried.od, DIM_LENGTH, c->units));
    text_format(out, "%.4g", shown(r->tried.wall, DIM_LENGTH, c->units));
}

static void put_weight(text *out, const compare_view *c, double own)
{
    page_value(out, own, DIM_MASS, c->units, 4);
}

static void say_pick(text *out, const compare_view *c)
{
    const bool holds = c->pick < c->tubes;
    const tube_sum s = sum_of_tube(c->rows, c->count, holds ? c->pick : nearest_tube(c->rows, c->count));
    if (s.impossible == s.cases) {
        text_put(out, "None of these tubes is possible.");
        return;
    }
    text_put(out, holds ? "The pick is " : "No tube that was tried holds in every case; the nearest is ");
    if (c->own_od) text_put(out, "wall ");
    put_tube(out, c, s.first);
    text_format(out, " %s, ", unit_name(DIM_LENGTH, c->units));
    if (holds) {
        text_put(out, s.cases == 1 ? "the lightest that holds: " : c->faults ? "the lightest that holds in every case that was checked: "
                                                                              : "the lightest that holds in every case: ");
        put_weight(out, c, s.weight);
        text_put(out, " in all, worst margin ");
    } else {
        text_format(out, "which holds in %zu of %zu: worst margin ", s.holds, s.cases);
    }
    put_percent(out, s.worst);
    text_format(out, ", in ‘%s’.", s.worst_case);
}

/* ---- margin over weight ------------------------------------------------------------------------------- */

typedef struct tube_mark {
    double weight, margin; /* as drawn */
    size_t tube;
} tube_mark;

/* The tubes that every case could have, the pick first so that its name has room. */
static size_t marks_of(const compare_view *c, const chart *area, tube_mark marks[CHART_NAMES_MOST])
{
    size_t n = 0;
    for (size_t pass = 0; pass < 2; pass++)
        for (size_t t = 0; t < c->tubes && n < CHART_NAMES_MOST; t++) {
            const tube_sum s = sum_of_tube(c->rows, c->count, t);
            if (s.impossible > 0 || (t == c->pick) != (pass == 0)) continue;
            marks[n++] = (tube_mark){shown(s.weight, DIM_MASS, c->units), fmin(100 * s.worst, area->y_high), t};
        }
    return n;
}

/* The Tab key reaches the pick and the first of the others; the table has all. */
static void put_mark_stops(const compare_view *c, const chart *area, const tube_mark marks[], size_t n)
{
    for (size_t i = 0; i < n; i++) {
        text words = {0};
        put_tube(&words, c, &c->rows[marks[i].tube]);
        text_format(&words, " %s, %.4g %s\nworst margin ", unit_name(DIM_LENGTH, c->units), marks[i].weight, unit_name(DIM_MASS, c->units));
        put_percent(&words, sum_of_tube(c->rows, c->count, marks[i].tube).worst);
        chart_stop(area, marks[i].weight, marks[i].margin, page_said(&words), i < CHART_TABS_MOST);
        text_free_part(&words, area->out);
    }
}

static void put_marks(const compare_view *c, const chart *area)
{
    tube_mark marks[CHART_NAMES_MOST];
    text words[CHART_NAMES_MOST] = {{0}};
    chart_name names[CHART_NAMES_MOST];
    const size_t n = marks_of(c, area, marks);
    for (size_t i = 0; i < n; i++) {
        const bool picked = marks[i].tube == c->pick;
        if (picked) text_put(&words[i], "pick: ");
        put_tube(&words[i], c, &c->rows[marks[i].tube]);
        chart_point(area, marks[i].weight, marks[i].margin, picked ? "dot" : "ring");
        names[i] = (chart_name){marks[i].weight, marks[i].margin, page_said(&words[i]), picked ? "blue bold halo" : "halo"};
    }
    chart_names(area, names, n);
    put_mark_stops(c, area, marks, n);
    for (size_t i = 0; i < n; i++) text_free_part(&words[i], area->out);
}

static void caption(text *out, const compare_view *c, size_t left_out, bool cut_off)
{
    text words = {0};
    text_format(&words, "Each mark is one tube in all cases, named by its %s (%s). On or above the dashed line it holds in every case%s.",
                c->own_od ? "wall" : "diameter and wall", unit_name(DIM_LENGTH, c->units),
                c->pick < c->tubes ? "; filled: the pick, the lightest that does" : "");
    if (cut_off) text_put(&words, " A margin above the chart stands at its upper border.");
    if (left_out > 0) text_format(&words, " Not drawn: %zu, not possible in some case or too many to draw.", left_out);
    text_put(&words, " A mark whose name finds no room stands in the table.");
    page_end_figure(out, page_said(&words));
    text_free_part(&words, out);
}

static void put_chart(text *out, const compare_view *c)
{
    double low = INFINITY, high = -INFINITY, light = INFINITY, heavy = 0;
    size_t drawn = 0;
    bool infinite = false;
    for (size_t t = 0; t < c->tubes; t++) {
        const tube_sum s = sum_of_tube(c->rows, c->count, t);
        if (s.impossible > 0) continue;
        drawn++;
        infinite = infinite || isinf(s.worst);
        page_stretch(s.worst, &low, &high);
        page_stretch(shown(s.weight, DIM_MASS, c->units), &light, &heavy);
    }
    if (!(heavy > 0 && isfinite(heavy))) return;
    const double room = fmax(0.12 * (heavy - light), 0.02 * heavy);
    const double tall = drawn > 8 ? 330 : 220;
    chart area = {.out = out, .left = 44, .top = 30, .width = FIGURE_WIDTH - 60, .height = tall, .x_low = fmax(light - room, 0),
                  .x_high = heavy + room};
    text axis = {0};
    page_margin_range(&area, low, high);
    page_begin_chart(out, "Worst margin over weight", tall + 76, "Worst margin of each tube over the weight of all parts");
    chart_axis_y(&area, "worst margin of all cases, %");
    text_format(&axis, "weight of all parts, %s", unit_name(DIM_MASS, c->units));
    chart_axis_x(&area, page_said(&axis));
    chart_line(&area, (const double[]){area.x_low, area.x_high}, (const double[]){0, 0}, 2, "limit");
    put_marks(c, &area);
    caption(out, c, c->tubes - (drawn < CHART_NAMES_MOST ? drawn : CHART_NAMES_MOST), infinite || 100 * high > area.y_high);
    text_free_part(&axis, out);
}

void page_compare(text *out, const page_head *head, const compare_row *rows, size_t count, bool own_od)
{
    const compare_view c = {rows, count, rows[0].tubes, lightest_tube(rows, count), own_od, head->faults, head->units};
    text said = {0};
    say_pick(&said, &c);
    page_sentence(out, c.pick < c.tubes, &said);
    page_refused(out, head);
    page_compare_matrix(out, rows, count, c.pick, own_od, head->units);
    put_chart(out, &c);
    page_begin_numbers(out);
    page_table(out, &compare_list, rows, count, head->units, "Every case with every tube");
    page_end_numbers(out);
    text_free_part(&said, out);
}
