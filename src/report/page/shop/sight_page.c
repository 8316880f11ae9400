#include "report/page/shop/sight_page.h"

#include "cases/field_lines.h"
#include "report/caution.h"
#include "report/chart/polar.h"
#include "report/chart/stops.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/shop/shop_words.h"
#include "report/values.h"

#include <railbow/clock.h>

#include <math.h>

/* ---- the line from its side ------------------------------------------------------------------------------------------------------ */

typedef struct side { /* one line; offsets in the unit shown */
    const sight_row *r;
    unit_system units;
    double off[2]; /* up and right of miss or bow, in */
} side;

static double length_shown(const side *s, double length)
{
    return shown(length, DIM_LENGTH, s->units);
}


static bool is_read(const side *s, int plane)
{
    return !isnan(plane == 0 ? s->r->found.up[0] : s->r->found.right[0]);
}

/* What is drawn as 0: of a tube the chord, of a socket the bar's offset at A, so that the line ends at the miss. */
static double zero_at(const side *s, int plane, double station)
{
    const rbow_sight *f = &s->r->found;
    const double *ends = plane == 0 ? f->up : f->right, per_inch = (ends[1] - ends[0]) / (f->last - f->first);
    return ends[0] + per_inch * ((s->r->kind == SIGHT_SOCKET ? 0 : station) - f->first);
}

/* Up or right of a reading. */
static double offset_of(const side *s, const rbow_sight_reading *reading, int plane)
{
    return (plane == 0 ? reading->up : reading->right) - zero_at(s, plane, reading->station);
}

/* Up or right of the fit at a station. */
static double fit_at(const side *s, int plane, double station)
{
    const rbow_sight *f = &s->r->found;
    if (s->r->kind == SIGHT_SOCKET) return s->off[plane] * station / s->r->landing;
    const rbow_bow bow = {(rbow_bow_shape)f->bow_shape, s->off[plane], f->last - f->first, f->bow_at - f->first};
    rbow_bow_place place;
    return rbow_bow_at(&bow, fmin(fmax(station - f->first, 0), bow.length), &place) == RBOW_OK ? place.offset : 0;
}

static void set_range(chart *c, const side *s)
{
    const rbow_sight *f = &s->r->found;
    const bool socket = s->r->kind == SIGHT_SOCKET;
    double low = 0, high = 0;
    c->x_low = length_shown(s, socket ? fmin(0, f->first) : f->first);
    c->x_high = length_shown(s, socket ? fmax(s->r->landing, f->last) : f->last);
    for (int plane = 0; plane < 2; plane++) {
        if (!is_read(s, plane)) continue;
        page_stretch(length_shown(s, s->off[plane]), &low, &high);
        page_stretch(length_shown(s, fit_at(s, plane, socket ? fmax(s->r->landing, f->last) : f->last)), &low, &high);
        for (size_t i = 0; i < s->r->count; i++) {
            const rbow_sight_reading *r = &s->r->at[i];
            page_stretch(length_shown(s, offset_of(s, r, plane) - r->error), &low, &high);
            page_stretch(length_shown(s, offset_of(s, r, plane) + r->error), &low, &high);
        }
    }
    const double step = chart_ticks_in(low, high, 6).step;
    c->y_low = step * floor(low / step);
    c->y_high = step * ceil(high / step);
}

static void put_fit(const chart *c, const side *s, int plane)
{
    enum { POINTS = 73 };
    double x[POINTS], y[POINTS];
    const double from = s->r->kind == SIGHT_SOCKET ? fmin(0, s->r->found.first) : s->r->found.first;
    const double to = s->r->kind == SIGHT_SOCKET ? fmax(s->r->landing, s->r->found.last) : s->r->found.last;
    for (int i = 0; i < POINTS; i++) {
        const double station = from + (to - from) * i / (POINTS - 1);
        x[i] = length_shown(s, station);
        y[i] = length_shown(s, fit_at(s, plane, station));
    }
    chart_line(c, x, y, POINTS, plane == 0 ? "strong" : "dotted");
}

static void put_readings(const chart *c, const side *s, int plane)
{
    for (size_t i = 0; i < s->r->count; i++) {
        const rbow_sight_reading *r = &s->r->at[i];
        const double offset = offset_of(s, r, plane), x[2] = {length_shown(s, r->station), length_shown(s, r->station)};
        const double y[2] = {length_shown(s, offset - r->error), length_shown(s, offset + r->error)};
        if (isnan(offset)) continue;
        chart_line(c, x, y, 2, "plain");
        chart_point(c, x[0], length_shown(s, offset), plane == 0 ? "dot" : "ring");
    }
}

/* The readings of one station: one reading may have one direction alone. */
static void put_reading_stops(const chart *c, const side *s)
{
    for (size_t i = 0; i < s->r->count; i++) {
        const rbow_sight_reading *r = &s->r->at[i];
        text words = {0};
        text_format(&words, "station %.5g", length_shown(s, r->station));
        for (int plane = 0; plane < 2; plane++)
            if (!isnan(offset_of(s, r, plane))) text_format(&words, "\n%s %.4g", plane == 0 ? "up" : "right", length_shown(s, offset_of(s, r, plane)));
        const double offset = length_shown(s, offset_of(s, r, isnan(offset_of(s, r, 0)) ? 1 : 0));
        chart_stop(c, length_shown(s, r->station), offset, page_said(&words), i < CHART_TABS_MOST);
        text_free_part(&words, c->out);
    }
}

/* How many times larger offsets are drawn than lengths. */
static double exaggeration(const chart *c)
{
    return c->height / (c->y_high - c->y_low) / (c->width / (c->x_high - c->x_low));
}

/* Whether the numbers leave anything to draw: not where they are beyond all that a frame could be. */
static bool can_be_drawn(double low, double high)
{
    return high - low > 1e-9 * fmax(fabs(low), fabs(high)) && isfinite(1 / (high - low)) && high - low < 1e100;
}

static void put_side(text *out, const side *s)
{
    const rbow_sight *f = &s->r->found;
    const bool socket = s->r->kind == SIGHT_SOCKET;
    chart c = {.out = out, .left = 48, .top = 24, .width = FIGURE_WIDTH - 48 - 44, .height = 150};
    chart_label labels[2];
    size_t count = 0;
    text axis = {0}, words = {0};
    set_range(&c, s);
    if (!can_be_drawn(c.x_low, c.x_high) || !can_be_drawn(c.y_low, c.y_high)) {
        page_words_figure(out, s->r->line, "These readings cannot be drawn.");
        return;
    }
    page_begin_chart(out, s->r->line, 222, socket ? "Readings along the bar, and the straight line through them"
                                                    : "Readings along the tube, and the bow that fits them");
    text_format(&axis, "station from A, %s", unit_name(DIM_LENGTH, s->units));
    chart_axis_x(&c, page_said(&axis));
    text_clear(&axis);
    text_format(&axis, socket ? "offset less that at A, %s" : "offset from the chord, %s", unit_name(DIM_LENGTH, s->units));
    chart_axis_y(&c, page_said(&axis));
    for (int plane = 0; plane < 2; plane++) {
        if (!is_read(s, plane)) continue;
        put_fit(&c, s, plane);
        put_readings(&c, s, plane);
        labels[count++] = (chart_label){length_shown(s, fit_at(s, plane, socket ? fmax(s->r->landing, f->last) : f->last)),
                                        plane == 0 ? "up" : "right", plane == 0 ? "blue" : ""};
    }
    chart_labels(&c, labels, count);
    put_reading_stops(&c, s);
    text_put(&words, "Offsets are drawn ");
    const double times = exaggeration(&c);
    put_decimals(&words, times, times < 10 ? 1 : 0, ROUND_NEAREST);
    text_put(&words, " times larger than lengths. Dots and solid line: up; rings and dotted line: right. The strokes are one standard deviation of a reading");
    text_put(&words, socket ? ". Both lines go on to the landing, where they show the miss." : ".");
    page_end_figure(out, page_said(&words));
    text_free_part(&axis, out);
    text_free_part(&words, out);
}

/* ---- the clock face ---------------------------------------------------------------------------------------------------------------- */

static void put_place(const chart_polar *p, double up, double right, double *x, double *y)
{
    const double scale = p->radius / p->high;
    *x = p->x + scale * right;
    *y = p->y - scale * up;
}

/* The 95 % ellipse about the miss; a stroke where one direction was not read. */
static void put_ellipse(const chart_polar *p, const side *s)
{
    enum { POINTS = 73 };
    const rbow_sight *f = &s->r->found;
    const double minor = isnan(f->minor) ? 0 : f->minor, full = 2 * 3.14159265358979323846;
    double x[POINTS], y[POINTS], axis[2];
    rbow_clock_components(1, f->major_clock, axis);
    for (int i = 0; i < POINTS; i++) {
        const double along = f->major * cos(full * i / (POINTS - 1)), across = minor * sin(full * i / (POINTS - 1));
        put_place(p, length_shown(s, s->off[0] + along * axis[0] - across * axis[1]),
                  length_shown(s, s->off[1] + along * axis[1] + across * axis[0]), &x[i], &y[i]);
    }
    chart_path(p->out, x, y, POINTS, "plain");
}

static void say_face(text *out, const side *s)
{
    const sight_row *r = s->r;
    text_put(out, r->kind == SIGHT_TUBE ? "Bow " : "Miss ");
    page_quantity(out, sight_size(r), DIM_LENGTH, s->units);
    if (!isnan(sight_clock(r))) {
        text_put(out, " toward clock ");
        put_whole_degrees(out, sight_clock(r));
    }
    text_put(out, ", error ");
    put_quantity(out, sight_error(r), DIM_LENGTH, s->units, ROUND_UP);
    text_put(out, " at 95 %: the oval. ");
    if (r->found.significant) text_put(out, "It does not reach the middle. ");
    else if (sight_size(r) > sight_error(r)) text_put(out, "A corner that may lie anywhere finds as much in noise: not significant. ");
    else text_put(out, "It reaches the middle: not significant. ");
    if (r->verdict == SIGHT_RECHECK)
        text_put(out, "But the readings do not lie on the fit: read them again. As they are: ");
    else
        text_put(out, "Type: ");
    put_sight_columns(out, r, s->units);
    text_char(out, '.');
}

static void put_face(text *out, const side *s)
{
    const double size = length_shown(s, sight_size(s->r)), major = length_shown(s, s->r->found.major);
    chart_polar p = {.out = out, .x = FIGURE_WIDTH / 2.0, .y = 108, .radius = 84, .high = chart_round_up(fmax(size + major, 1e-6), 4)};
    double x[2] = {p.x}, y[2] = {p.y};
    text words = {0};
    if (!can_be_drawn(0, p.high)) {
        page_words_figure(out, s->r->line, "This miss or bow cannot be drawn.");
        return;
    }
    page_begin_figure(out, s->r->kind == SIGHT_TUBE ? "Bow on the clock" : "Miss on the clock", 216, "Miss or bow seen from A, with the 95 % ellipse of its error");
    chart_polar_axes(&p);
    put_ellipse(&p, s);
    put_place(&p, length_shown(s, s->off[0]), length_shown(s, s->off[1]), &x[1], &y[1]);
    chart_path(out, x, y, 2, "strong");
    if (!isnan(sight_clock(s->r))) chart_polar_point(&p, sight_clock(s->r), size, "dot");
    say_face(&words, s);
    page_end_figure(out, page_said(&words));
    text_free_part(&words, out);
}

/* ---- the table ------------------------------------------------------------------------------------------------------------------------ */

/* What a page has room for; CSV has the rest. */
static const field fields[] = {
    TEXT(sight_row, "line", line, ""),
    WORD(sight_row, "kind", kind, sight_kind_words, ""),
    WORD(sight_row, "verdict", verdict, sight_verdict_words, ""),
    NUMBER(sight_row, "off_by", found.size, DIM_LENGTH, ""),
    NUMBER(sight_row, "error", found.error, DIM_LENGTH, ""),
    NUMBER(sight_row, "clock", found.clock, DIM_ANGLE, ""),
    TEXT(sight_row, "shape", bow_shape, ""),
    NUMBER(sight_row, "misfit", found.misfit, DIM_NONE, ""),
    NUMBER(sight_row, "misfit_limit", found.misfit_most, DIM_NONE, ""),
    NUMBER(sight_row, "worst_station", found.worst, DIM_LENGTH, ""),
};
static const field_list shown_list = FIELD_LIST("sight", fields, sight_row);

/* ---- the page ------------------------------------------------------------------------------------------------------------------------ */

static bool say_verdict(text *out, const sight_row *rows, size_t count)
{
    size_t of[3] = {0};
    for (size_t i = 0; i < count; i++) of[rows[i].verdict]++;
    text_format(out, "%zu of %zu lines %s off by more than the error of the readings", of[SIGHT_SIGNIFICANT], count, of[SIGHT_SIGNIFICANT] == 1 ? "is" : "are");
    if (of[SIGHT_RECHECK] > 0) text_format(out, "; %zu to recheck", of[SIGHT_RECHECK]);
    text_char(out, '.');
    return of[SIGHT_RECHECK] == 0;
}

enum { TYPED_MOST = 4 }; /* lines that the head of the page says what to type of */

static void put_typed(text *out, const sight_row *r, unit_system units)
{
    text words = {0};
    text_format(&words, "‘%s’: type ", r->line);
    put_sight_columns(&words, r, units);
    text_char(&words, '.');
    html_element(out, "p", "advice", page_said(&words));
    text_char(out, '\n');
    text_free_part(&words, out);
}

/* What to type of the lines that are off: of all if they are few, else of the one furthest off. */
static void put_what_to_type(text *out, const sight_row *rows, size_t count, unit_system units)
{
    size_t off = 0;
    const sight_row *worst = NULL;
    for (size_t i = 0; i < count; i++) {
        if (rows[i].verdict != SIGHT_SIGNIFICANT) continue;
        off++;
        if (worst == NULL || sight_size(&rows[i]) > sight_size(worst)) worst = &rows[i];
    }
    for (size_t i = 0; i < count; i++)
        if (rows[i].verdict == SIGHT_SIGNIFICANT && (off <= TYPED_MOST || &rows[i] == worst)) put_typed(out, &rows[i], units);
    if (off > TYPED_MOST) text_put(out, "<p class=\"soft\">That line is the furthest off; of the others it stands under their drawings.</p>\n");
}

void page_sight(text *out, const page_head *head, const sight_row *rows, size_t count)
{
    text said = {0};
    const bool fine = say_verdict(&said, rows, count);
    page_finding(out, !fine, &said);
    put_what_to_type(out, rows, count, head->units);
    html_element(out, "p", "about", caution);
    page_refused(out, head);
    text_put(out, "<div class=\"figures\">\n");
    for (size_t i = 0; i < count; i++) {
        side s = {.r = &rows[i], .units = head->units};
        if (!isnan(sight_clock(s.r))) rbow_clock_components(sight_size(s.r), sight_clock(s.r), s.off);
        put_side(out, &s);
        put_face(out, &s);
    }
    text_put(out, "</div>\n");
    page_table(out, &shown_list, rows, count, head->units, "What the readings say");
    text_free_part(&said, out);
}
