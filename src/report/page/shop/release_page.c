#include "report/page/shop/shop_pages.h"

#include "cases/field_lines.h"
#include "report/caution.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

enum { LINE = 34 };

static const double degree = 3.14159265358979323846 / 180;

/* The largest share of yield of those with this basis; NULL where there is none. */
static const release_row *worst_of(const release_row *rows, size_t count, int basis)
{
    const release_row *worst = NULL;
    for (size_t i = 0; i < count; i++)
        if (rows[i].basis == basis && (worst == NULL || rows[i].yield_use > worst->yield_use)) worst = &rows[i];
    return worst;
}

static size_t count_of(const release_row *rows, size_t count, int basis)
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++) n += rows[i].basis == basis;
    return n;
}

static void say_share(text *out, const release_row *r)
{
    text_format(out, "‘%s’: %.0f %% of yield", r->name, 100 * r->yield_use);
    if (r->yield_use > 1) text_put(out, ", more than yield: this answer is elastic, so the tube took a set, or a reading is wrong");
    text_char(out, '.');
}

/* No case is the worst while the angle of one was not read: in that one more may have been locked in. */
static void say_verdict(text *out, const release_row *rows, size_t count)
{
    const release_row *known = worst_of(rows, count, BASIS_TURN_READ), *unread = worst_of(rows, count, BASIS_LEAST_ENERGY);
    const size_t many = count_of(rows, count, BASIS_TURN_READ), open = count - many;
    if (known != NULL) {
        text_put(out, many == 1 ? "Locked into " : open > 0 ? "Of the cuts with an angle, the most was locked into " : "The most was locked into ");
        say_share(out, known);
    }
    if (unread == NULL) return;
    if (known != NULL) text_char(out, ' ');
    if (open == 1) text_put(out, "Not certain, as the angle of the stubs was not read: ");
    else text_format(out, "Not certain, as the angle of the stubs was not read, in %zu; the largest is ", open);
    say_share(out, unread);
    text_put(out, " More may have been locked in.");
}

/* A bar of which nobody knows where it ends. */
static void put_open_end(const chart *c, double use, double y)
{
    text_format(c->out, "<path d=\"M%.2f %.2fh24\" class=\"dashed\"/>\n", chart_x(c, use), y);
}

static void put_bars(text *out, const release_row *rows, size_t count)
{
    double most = 100;
    for (size_t i = 0; i < count; i++) page_stretch(100 * rows[i].yield_use, &(double){0}, &most);
    const double high = LINE * (double)count;
    const chart c = {.out = out, .left = 8, .top = 20, .width = FIGURE_WIDTH - 76, .height = high, .x_high = chart_round_up(most, 6), .y_high = 1};
    page_begin_figure(out, "Share of yield that was locked in", high + 60, "Locked-in stress of each case as a share of yield");
    chart_axis_x(&c, "% of yield");
    for (size_t i = 0; i < count; i++) {
        const double y = c.top + LINE * ((double)i + 0.5), use = 100 * rows[i].yield_use;
        text words = {0};
        page_short_name(&words, rows[i].name, 34);
        chart_words(out, c.left, y - 3, "start", "halo", page_said(&words));
        text_clear(&words);
        const bool open = rows[i].basis == BASIS_LEAST_ENERGY;
        chart_bar(&c, 0, use, y + 7, 9, use > 100 ? "fill-red" : open ? "fill-steel" : "fill-blue");
        if (open) put_open_end(&c, use, y + 7);
        text_format(&words, open ? "%.0f %% ?" : "%.0f %%", use);
        chart_words(out, c.left + c.width + 8, y + 11, "start", use > 100 ? "red bold" : "", page_said(&words));
        text_free_part(&words, out);
    }
    chart_upright(&c, 100, "limit");
    page_end_figure(out, worst_of(rows, count, BASIS_LEAST_ENERGY) == NULL
                             ? "Dashed: yield."
                             : "Dashed upright: yield. Grey, with an open end and a question mark: the angle was not read, and more may have been locked in.");
}

static void put_miss(text *out, const char *from, double miss, double clock, unit_system units)
{
    put_length(out, miss, units, ROUND_NEAREST);
    if (miss > 0) text_format(out, " toward %.1f°", clock / degree);
    text_format(out, " from %s", from);
}

static void put_new_rail(text *out, const release_row *r, unit_system units)
{
    text words = {0};
    text_format(&words, "%s: a straight new rail would miss its landing by ", r->name);
    put_miss(&words, "A’s socket (miss_a), and by ", r->found.miss_a, r->found.miss_a_clock, units);
    put_miss(&words, "B’s (miss_b).", r->found.miss_b, r->found.miss_b_clock, units);
    if (r->basis == BASIS_LEAST_ENERGY) text_format(&words, " %s", unread_angle);
    html_element(out, "li", NULL, page_said(&words));
    text_char(out, '\n');
    text_free_part(&words, out);
}

/* What a page has room for; the misses stand above, and CSV has the rest. */
static const field_word angles[] = {{"read", BASIS_TURN_READ}, {"not read", BASIS_LEAST_ENERGY}, {NULL, 0}};
static const field fields[] = {
    TEXT(release_row, "case", name, ""),
    NUMBER(release_row, "push, − is pull", found.fit_axial, DIM_FORCE, ""),
    NUMBER(release_row, "sideways force at the cut", found.shear, DIM_FORCE, ""),
    NUMBER(release_row, "toward clock", found.shear_clock, DIM_ANGLE, ""),
    NUMBER(release_row, "bending at the cut", found.moment_at_cut, DIM_MOMENT, ""),
    NUMBER(release_row, "toward clock", found.moment_clock, DIM_ANGLE, ""),
    NUMBER(release_row, "bending at joint A", found.moment_a, DIM_MOMENT, ""),
    NUMBER(release_row, "bending at joint B", found.moment_b, DIM_MOMENT, ""),
    NUMBER(release_row, "largest stress", found.fit_stress, DIM_STRESS, ""),
    NUMBER(release_row, "share of yield", yield_use, DIM_NONE, ""),
    WORD(release_row, "angle of the stubs", basis, angles, ""),
    NUMBER(release_row, "stress with the kindest joints", found.fit_stress_low, DIM_STRESS, ""),
};
static const field_list shown_list = FIELD_LIST("release", fields, release_row);

void page_release(text *out, const page_head *head, const release_row *rows, size_t count)
{
    text said = {0};
    bool beyond_yield = false;
    for (size_t i = 0; i < count; i++) beyond_yield = beyond_yield || rows[i].yield_use > 1;
    say_verdict(&said, rows, count);
    page_finding(out, beyond_yield, &said);
    html_element(out, "p", "about", caution);
    page_refused(out, head);
    put_bars(out, rows, count);
    text_put(out, "<h2>What a new rail would meet</h2>\n<ul>\n");
    for (size_t i = 0; i < count; i++) put_new_rail(out, &rows[i], head->units);
    text_put(out, "</ul>\n<p class=\"soft\">Put these misses into a load case and check it before a rail is forced in.</p>\n");
    page_table(out, &shown_list, rows, count, head->units, "What was locked in");
    text_free_part(&said, out);
}
