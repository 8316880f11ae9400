#include "report/page/case_charts.h"

#include "report/chart/stops.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

enum { RIGHT_ROOM = 96 };

static double in_unit(dimension d, unit_system units, double own)
{
    return unit_from_own(unit_shown(d, units), own);
}

static void convert(double to[], const double from[], size_t count, dimension d, unit_system units)
{
    for (size_t i = 0; i < count; i++) to[i] = in_unit(d, units, from[i]);
}

static double largest(const double values[], size_t count, double so_far)
{
    for (size_t i = 0; i < count; i++)
        if (values[i] > so_far && isfinite(values[i])) so_far = values[i];
    return so_far;
}

static double last_of(const double values[])
{
    return values[PICTURE_STATIONS - 1];
}

static void open_figure(text *out, const char *name)
{
    text_put(out, "<figure>");
    html_element(out, "h3", NULL, name);
}

/* ---- the moment along the rail ---------------------------------------------------------------------- */

static const char *const state_styles[] = {"dotted", "plain", "strong"};

static void put_state_name(text *out, int state, double factor)
{
    static const char *const names[] = {"locked in", "as loaded"};
    if (state < PICTURE_AT_LIMIT) {
        text_put(out, names[state]);
        return;
    }
    text_put(out, "limit, × ");
    put_factor(out, factor);
}

static void moment_caption(text *out, const check_row *r, const picture *p)
{
    text_put(out, "<figcaption>Size of the bending moment from joint A to joint B: ");
    if (r->result.fit_moment > 0) text_put(out, "dotted what is locked in with no run load, ");
    text_put(out, "thin as loaded");
    if (isfinite(p->states[PICTURE_AT_LIMIT].moment[0]))
        text_put(out, ", thick where the tube yields or buckles: it touches what is allowed there (dashed");
    else if (isnan(p->states[PICTURE_LOADED].moment[0]))
        text_put(out, "; as loaded there is no equilibrium (");
    else
        text_put(out, "; bending does not decide (dashed");
    text_put(out, r->tube.governs == RBOW_BY_YIELD ? ", by yield)." : ", by interaction).");
    text_put(out, "</figcaption></figure>\n");
}

typedef double stations[PICTURE_STATIONS];

static bool is_drawn(const chart *c, const double y[])
{
    return largest(y, PICTURE_STATIONS, 0) > 1e-9 * c->y_high;
}

/* Where the curve is highest; the first station without a curve. */
static size_t top_of(const double y[])
{
    size_t at = 0;
    for (size_t i = 1; i < PICTURE_STATIONS; i++)
        if (y[i] > y[at] || (isnan(y[at]) && !isnan(y[i]))) at = i;
    return at;
}

/* The ends, the largest moment of each state, and the place that decides; in a check of one case further stations between them. */
static void stations_with_stops(bool stop[PICTURE_STATIONS], bool tab[PICTURE_STATIONS], const chart *c, const picture *p, const check_row *r,
                                stations y[], bool many)
{
    enum { STEP = 8 };
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        tab[i] = i == 0 || i + 1 == PICTURE_STATIONS || fabs(p->at[i] - r->tube.governs_at) < 1e-12 * p->length;
        stop[i] = many && i % STEP == 0;
    }
    for (int s = 0; s < PICTURE_STATES; s++)
        if (is_drawn(c, y[s])) tab[top_of(y[s])] = true;
}

static void put_reading(text *words, const char *name, double value, bool most)
{
    if (isfinite(value)) text_format(words, "\n%s: %.4g%s", name, value, most ? ", largest" : "");
}

/* What every curve has at one station. */
static void put_moment_stops(const chart *c, const check_row *r, const picture *p, const double x[], stations y[], const text names[],
                             unit_system units, bool many)
{
    bool stop[PICTURE_STATIONS], tab[PICTURE_STATIONS];
    chart_strip strips[PICTURE_STATIONS];
    size_t n = 0;
    stations_with_stops(stop, tab, c, p, r, y, many);
    for (size_t i = 0; i < PICTURE_STATIONS; i++) {
        if (!stop[i] && !tab[i]) continue;
        if (n > 0 && x[i] - strips[n - 1].x < 1e-6 * x[PICTURE_STATIONS - 1]) { /* stations stand on each other where something begins */
            strips[n - 1].tab = strips[n - 1].tab || tab[i];
            continue;
        }
        chart_strip *s = &strips[n++];
        *s = (chart_strip){.x = x[i], .y = y[isfinite(y[PICTURE_AT_LIMIT][i]) ? PICTURE_AT_LIMIT : PICTURE_LOADED][i], .tab = tab[i]};
        text_format(&s->words, "%.4g %s from A, %s", x[i], unit_name(DIM_LENGTH, units), unit_name(DIM_MOMENT, units));
        for (int k = 0; k < PICTURE_STATES; k++)
            if (is_drawn(c, y[k])) put_reading(&s->words, page_said(&names[k]), y[k][i], top_of(y[k]) == i);
        put_reading(&s->words, "allowed", y[PICTURE_STATES][i], false);
    }
    chart_strips(c, NULL, strips, n);
    for (size_t i = 0; i < n; i++) text_free_part(&strips[i].words, c->out);
}

void page_moment_chart(text *out, const check_row *r, const picture *p, unit_system units, bool many)
{
    stations x, y[PICTURE_STATES + 1];
    text names[PICTURE_STATES] = {{0}}, axis = {0};
    chart_label labels[PICTURE_STATES + 1];
    size_t count = 0;
    double most = 0;
    convert(x, p->at, PICTURE_STATIONS, DIM_LENGTH, units);
    for (int s = 0; s < PICTURE_STATES; s++) {
        convert(y[s], p->states[s].moment, PICTURE_STATIONS, DIM_MOMENT, units);
        most = largest(y[s], PICTURE_STATIONS, most);
    }
    convert(y[PICTURE_STATES], p->allowed, PICTURE_STATIONS, DIM_MOMENT, units);
    const double allowed = largest(y[PICTURE_STATES], PICTURE_STATIONS, 0);
    const chart c = {.out = out, .left = 52, .top = 22, .width = FIGURE_WIDTH - 52 - RIGHT_ROOM, .height = 170, .x_high = x[PICTURE_STATIONS - 1],
                     .y_high = chart_round_up(1.04 * (most > 0 && allowed > 3 * most ? 3 * most : fmax(most, allowed)), 6)};
    open_figure(out, "Moment along the rail");
    chart_open_stops(out, FIGURE_WIDTH, 230, "Bending moment along the rail");
    text_format(&axis, "moment, %s", unit_shown(DIM_MOMENT, units)->name);
    chart_axis_y(&c, page_said(&axis));
    text_clear(&axis);
    text_format(&axis, "from A, %s", unit_shown(DIM_LENGTH, units)->name);
    chart_axis_x(&c, page_said(&axis));
    chart_line(&c, x, y[PICTURE_STATES], PICTURE_STATIONS, "limit");
    if (isfinite(last_of(y[PICTURE_STATES])))
        labels[count++] = (chart_label){last_of(y[PICTURE_STATES]), "allowed", "red"};
    for (int s = 0; s < PICTURE_STATES; s++) {
        if (!is_drawn(&c, y[s])) continue;
        put_state_name(&names[s], s, p->states[s].factor);
        chart_line(&c, x, y[s], PICTURE_STATIONS, state_styles[s]);
        if (!isfinite(last_of(y[s]))) continue;
        labels[count++] = (chart_label){last_of(y[s]), page_said(&names[s]), s == PICTURE_AT_LIMIT ? "blue" : ""};
    }
    for (size_t i = 0; i < PICTURE_STATIONS; i++) /* the place that decides stands among the stations */
        if (fabs(p->at[i] - r->tube.governs_at) < 1e-12 * p->length) {
            chart_point(&c, x[i], y[PICTURE_AT_LIMIT][i], "dot");
            break;
        }
    chart_labels(&c, labels, count);
    put_moment_stops(&c, r, p, x, y, names, units, many);
    chart_close(out);
    moment_caption(out, r, p);
    for (int s = 0; s < PICTURE_STATES; s++) text_free_part(&names[s], out);
    text_free_part(&axis, out);
}

/* ---- the column curve ------------------------------------------------------------------------------- */

static void put_column_stops(const chart *c, const check_row *r, double loaded, double allowed, unit_system units)
{
    const char *name = units == UNITS_SI ? "MPa" : "ksi";
    text words = {0};
    text_format(&words, "slenderness %.4g\ncolumn stress %.4g %s", r->result.slenderness, allowed, name);
    chart_stop(c, r->result.slenderness, allowed, page_said(&words), true);
    text_clear(&words);
    text_format(&words, "P/A as loaded %.4g %s", loaded, name);
    if (loaded > 0) chart_stop(c, r->result.slenderness, loaded, page_said(&words), true);
    text_free_part(&words, c->out);
}

void page_column_chart(text *out, const check_row *r, const picture *p, unit_system units)
{
    double y[PICTURE_SLENDERNESSES], most = 0;
    text axis = {0}, here = {0};
    const double stress = in_unit(DIM_STRESS, units, r->result.column_stress);
    const double loaded = in_unit(DIM_STRESS, units, r->result.axial / r->result.section.area), kilo = units == UNITS_SI ? 1 : 0.001;
    convert(y, p->curves[p->curve].stress, PICTURE_SLENDERNESSES, DIM_STRESS, units);
    most = largest(y, PICTURE_SLENDERNESSES, most);
    const chart c = {.out = out, .left = 40, .top = 22, .width = FIGURE_WIDTH - 40 - RIGHT_ROOM, .height = 170,
                     .x_high = p->slenderness[PICTURE_SLENDERNESSES - 1], .y_high = chart_round_up(1.02 * most * kilo, 6)};
    open_figure(out, "Column curve");
    chart_open_stops(out, FIGURE_WIDTH, 230, "Column stress over slenderness, this tube on its curve");
    text_format(&axis, "column stress, %s", units == UNITS_SI ? "MPa" : "ksi");
    chart_axis_y(&c, page_said(&axis));
    chart_axis_x(&c, "slenderness L'/r");
    convert(y, p->curves[p->curve].stress, PICTURE_SLENDERNESSES, DIM_STRESS, units);
    for (size_t i = 0; i < PICTURE_SLENDERNESSES; i++) y[i] *= kilo;
    chart_line(&c, p->slenderness, y, PICTURE_SLENDERNESSES, "strong");
    chart_label labels[] = {{y[PICTURE_SLENDERNESSES - 1], p->curves[p->curve].name, "blue"}};
    chart_labels(&c, labels, 1);
    if (loaded > 0) {
        const double x[] = {r->result.slenderness, r->result.slenderness}, up[] = {loaded * kilo, stress * kilo};
        chart_line(&c, x, up, 2, "dashed");
        chart_point(&c, r->result.slenderness, loaded * kilo, "ring");
        chart_words(out, chart_x(&c, r->result.slenderness) + 8, chart_y(&c, fmin(loaded * kilo, c.y_high)) + 4, "start", "halo", "P/A as loaded");
    }
    chart_point(&c, r->result.slenderness, stress * kilo, "dot");
    text_put(&here, "this tube");
    chart_words(out, chart_x(&c, r->result.slenderness) + 8, chart_y(&c, stress * kilo) - 6, "start", "bold", page_said(&here));
    put_column_stops(&c, r, loaded * kilo, stress * kilo, units);
    chart_close(out);
    text_put(out, "<figcaption>The tube’s slenderness is ");
    put_number(out, r->result.slenderness, 4);
    text_put(out, "; its curve allows ");
    page_value(out, r->result.column_stress, DIM_STRESS, units, 5);
    text_put(out, ", a column load of ");
    page_value(out, r->result.column_load, DIM_FORCE, units, 5);
    text_put(out, ".</figcaption></figure>\n");
    text_free_part(&axis, out);
    text_free_part(&here, out);
}

/* ---- the three load factors ------------------------------------------------------------------------- */

typedef struct factor_bar {
    const char *name;
    double reached, asked;
} factor_bar;

static void put_factor_bar(const chart *c, const factor_bar *b, double middle)
{
    const bool holds = b->reached >= b->asked;
    const double asked[] = {b->asked, b->asked};
    text words = {0}, title = {0};
    put_factor(&words, b->reached);
    text_put(&words, holds ? " ✓" : " ✗ short");
    chart_words(c->out, 0, middle + 4, "start", "", b->name);
    text_format(&title, "%s: ", b->name);
    put_factor(&title, b->reached);
    text_put(&title, " reached, ");
    put_required(&title, b->asked);
    text_put(&title, " required");
    chart_bar(c, 0, fmin(b->reached, c->x_high), middle, 16, holds ? "fill-blue" : "fill-red");
    text_format(c->out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"plain\"/>\n", chart_x(c, asked[0]), middle - 13,
                chart_x(c, asked[1]), middle + 13);
    chart_words(c->out, chart_x(c, fmin(fmax(b->reached, b->asked), c->x_high)) + 6, middle + 4, "start", holds ? "" : "red bold", page_said(&words));
    chart_stop_box(c->out, (chart_box){c->left, middle - 14, c->width, 28}, page_said(&title), true);
    text_free_part(&words, c->out);
    text_free_part(&title, c->out);
}

void page_factor_chart(text *out, const check_row *r)
{
    const factor_bar bars[] = {{"column", r->result.column_factor, r->given.member.factor},
                               {"yield", r->result.yield_factor, asked_of_yield(r)},
                               {"interaction", r->result.interaction_factor, r->given.member.factor}};
    double most = fmax(r->given.member.factor, asked_of_yield(r));
    for (size_t i = 0; i < 3; i++)
        if (isfinite(bars[i].reached)) most = fmax(most, fmin(bars[i].reached, 4 * fmax(r->given.member.factor, asked_of_yield(r))));
    const chart c = {.out = out, .left = 84, .top = 8, .width = FIGURE_WIDTH - 84 - 104, .height = 102, .x_high = chart_round_up(most, 5), .y_high = 1};
    open_figure(out, "Load factors");
    chart_open_stops(out, FIGURE_WIDTH, 150, "Load factor that each check reaches, against the one required");
    chart_axis_x(&c, "times the run load");
    for (size_t i = 0; i < 3; i++) put_factor_bar(&c, &bars[i], 26 + 34 * (double)i);
    chart_close(out);
    text_put(out, "<figcaption>Required: ");
    put_required(out, r->given.member.factor);
    if (fabs(asked_of_yield(r) - r->given.member.factor) > 0) {
        text_put(out, ", against yield ");
        put_required(out, asked_of_yield(r));
    }
    text_format(out, ".%s</figcaption></figure>\n",
                isinf(r->result.column_factor) && isinf(r->result.interaction_factor) ? " Without a push there is no column factor." : "");
}
