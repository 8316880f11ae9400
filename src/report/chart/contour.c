#include "report/chart/contour.h"

#include <math.h>
#include <string.h>

/* Between the grid's points: each cell is four triangles that meet in its middle, whose value is the mean of the
 * corners. In a triangle the value is linear, so bands have straight edges and a saddle is never ambiguous. */

typedef struct contour_path { /* a path while it is written */
    text *out;
    bool begun;
} contour_path;

static text *contour_path_on(contour_path *s)
{
    if (!s->begun) text_put(s->out, "<path d=\"");
    s->begun = true;
    return s->out;
}

static bool contour_path_end(const contour_path *s, const char *style)
{
    if (s->begun) text_format(s->out, "\" class=\"%s\"/>\n", style);
    return s->begun;
}

typedef struct corner {
    double x, y, value; /* x, y: on the drawing */
} corner;

typedef struct cell {
    corner at[4], middle; /* at: round the cell */
} cell;

/* Returned: whether all its values are known. */
static bool cell_at(const chart *c, const chart_field *f, size_t column, size_t line, cell *q)
{
    q->middle = (corner){0};
    for (size_t i = 0; i < 4; i++) {
        const size_t k = column + (i == 1 || i == 2), r = line + (i >= 2);
        q->at[i] = (corner){chart_x(c, f->x(f->context, k)), chart_y(c, f->y(f->context, r)), f->value(f->context, k, r)};
        q->middle.x += q->at[i].x / 4;
        q->middle.y += q->at[i].y / 4;
        q->middle.value += q->at[i].value / 4;
    }
    return isfinite(q->middle.value);
}

static corner between(const corner *a, const corner *b, double level)
{
    const double t = (level - a->value) / (b->value - a->value);
    return (corner){a->x + t * (b->x - a->x), a->y + t * (b->y - a->y), level};
}

/* ---- bands ------------------------------------------------------------------------------------------ */

enum { SIDES_MOST = 6 }; /* of a triangle that was cut twice, and room */

/* Leaves of a polygon what is not under the level, or with above = false what is not over it. */
static size_t cut(const corner from[], size_t count, double level, bool above, corner to[])
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++) {
        const corner *a = &from[i], *b = &from[(i + 1) % count];
        const bool a_in = above ? a->value >= level : a->value <= level, b_in = above ? b->value >= level : b->value <= level;
        if (a_in) to[n++] = *a;
        if (a_in != b_in) to[n++] = between(a, b, level);
    }
    return n;
}

static void put_polygon(contour_path *s, const corner at[], size_t count)
{
    for (size_t i = 0; i < count; i++) text_format(contour_path_on(s), "%c%.2f %.2f", i == 0 ? 'M' : 'L', at[i].x, at[i].y);
    if (count > 0) text_char(s->out, 'Z');
}

static void put_cut_cell(contour_path *s, const cell *q, double low, double high)
{
    for (size_t i = 0; i < 4; i++) {
        const corner whole[] = {q->at[i], q->at[(i + 1) % 4], q->middle};
        corner once[SIDES_MOST], twice[SIDES_MOST];
        put_polygon(s, twice, cut(once, cut(whole, 3, low, true, once), high, false, twice));
    }
}

static bool lies_in(const cell *q, double low, double high)
{
    for (size_t i = 0; i < 4; i++)
        if (!(q->at[i].value >= low && q->at[i].value <= high)) return false;
    return true;
}

/* One path, so that cells show no seams; whole cells beside each other become one polygon. */
void chart_band(const chart *c, const chart_field *f, double low, double high, const char *style)
{
    contour_path s = {.out = c->out};
    for (size_t line = 0; line + 1 < f->rows; line++) {
        corner run[4];
        bool running = false;
        for (size_t column = 0; column + 1 < f->columns; column++) {
            cell q;
            const bool known = cell_at(c, f, column, line, &q), whole = known && lies_in(&q, low, high);
            if (whole && !running) memcpy(run, q.at, sizeof run);
            if (whole) run[1] = q.at[1], run[2] = q.at[2];
            if (running && !whole) put_polygon(&s, run, 4);
            running = whole;
            if (known && !whole) put_cut_cell(&s, &q, low, high);
        }
        if (running) put_polygon(&s, run, 4);
    }
    contour_path_end(&s, style);
}

/* ---- lines ------------------------------------------------------------------------------------------ */

typedef struct segment {
    double x1, y1, x2, y2;
} segment;

/* The straight segments of a level's line in one cell. Returned: how many, at most four. */
static size_t segments_in(const cell *q, double level, segment segments[4])
{
    size_t n = 0;
    for (size_t i = 0; i < 4; i++) {
        const corner *t[] = {&q->at[i], &q->at[(i + 1) % 4], &q->middle};
        corner ends[3];
        size_t found = 0;
        for (size_t k = 0; k < 3; k++)
            if ((t[k]->value >= level) != (t[(k + 1) % 3]->value >= level)) ends[found++] = between(t[k], t[(k + 1) % 3], level);
        if (found == 2) segments[n++] = (segment){ends[0].x, ends[0].y, ends[1].x, ends[1].y};
    }
    return n;
}

bool chart_contour(const chart *c, const chart_field *f, double level, const char *style)
{
    contour_path s = {.out = c->out};
    for (size_t line = 0; line + 1 < f->rows; line++)
        for (size_t column = 0; column + 1 < f->columns; column++) {
            cell q;
            segment segments[4];
            const size_t count = cell_at(c, f, column, line, &q) ? segments_in(&q, level, segments) : 0;
            for (size_t i = 0; i < count; i++)
                text_format(contour_path_on(&s), "M%.2f %.2fL%.2f %.2f", segments[i].x1, segments[i].y1, segments[i].x2, segments[i].y2);
        }
    return contour_path_end(&s, style);
}

/* How far a name's middle is from what it must not touch, in names: 1 is just apart. */
static double room_at(const chart *c, double x, double y, double half_width, const chart_taken *taken)
{
    double room = fmin(fmin(x - c->left, c->left + c->width - x) / half_width, fmin(y - c->top, c->top + c->height - y) / 8);
    room = fmin(room, 2); /* the middle of the chart is no better than a bit off its border */
    for (size_t i = 0; i < taken->count; i++)
        room = fmin(room, fmax(fabs(x - taken->x[i]) / (2 * half_width), fabs(y - taken->y[i]) / 16));
    return room;
}

void chart_contour_name(const chart *c, const chart_field *f, double level, const char *words, const char *style,
                        chart_taken *taken)
{
    double best = 1, x = 0, y = 0;
    bool found = false;
    for (size_t line = 0; line + 1 < f->rows; line++)
        for (size_t column = 0; column + 1 < f->columns; column++) {
            cell q;
            segment segments[4];
            const size_t count = cell_at(c, f, column, line, &q) ? segments_in(&q, level, segments) : 0;
            for (size_t i = 0; i < count; i++) {
                const double at_x = (segments[i].x1 + segments[i].x2) / 2, at_y = (segments[i].y1 + segments[i].y2) / 2;
                const double room = room_at(c, at_x, at_y, chart_text_width(words) / 2 + 2, taken);
                if (room > best) best = room, x = at_x, y = at_y, found = true;
            }
        }
    if (!found || taken->count == CHART_LABELS_MOST) return;
    chart_words(c->out, x, y + 4, "middle", style, words);
    taken->x[taken->count] = x;
    taken->y[taken->count++] = y;
}

/* ---- strokes ---------------------------------------------------------------------------------------- */

/* The cell that holds a value of one axis. */
static size_t cell_of(double (*axis)(const void *, size_t), const void *context, size_t count, double value)
{
    size_t low = 0, high = count - 1;
    while (high - low > 1) {
        const size_t middle = (low + high) / 2;
        if (axis(context, middle) <= value)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* The value at a place of the drawing; NaN where it is not known. */
static double value_at(const chart *c, const chart_field *f, double x, double y)
{
    const double along = c->x_low + (x - c->left) / c->width * (c->x_high - c->x_low);
    const double up = c->y_low + (c->top + c->height - y) / c->height * (c->y_high - c->y_low);
    cell q;
    if (!cell_at(c, f, cell_of(f->x, f->context, f->columns, along), cell_of(f->y, f->context, f->rows, up), &q)) return NAN;
    const double u = (x - q.at[0].x) / (q.at[1].x - q.at[0].x), v = (y - q.at[0].y) / (q.at[3].y - q.at[0].y);
    if (!(u > -1e-9 && u < 1 + 1e-9 && v > -1e-9 && v < 1 + 1e-9)) return NAN;
    const double from_side[] = {v, 1 - u, 1 - v, u}; /* the nearest side's triangle holds the place */
    size_t side = 0;
    for (size_t i = 1; i < 4; i++)
        if (from_side[i] < from_side[side]) side = i;
    const double along_side[] = {u, v, 1 - u, 1 - v}, d = from_side[side], s = along_side[side];
    return (1 - s - d) * q.at[side].value + (s - d) * q.at[(side + 1) % 4].value + 2 * d * q.middle.value;
}

typedef struct stroke {
    contour_path *on;
    bool down;
    double x, y; /* the last place under the level */
} stroke;

static void stroke_to(stroke *s, double x, double y, bool under)
{
    if (under && !s->down) text_format(contour_path_on(s->on), "M%.1f %.1f", x, y);
    if (!under && s->down) text_format(contour_path_on(s->on), "L%.1f %.1f", s->x, s->y);
    s->down = under;
    s->x = x;
    s->y = y;
}

/* Along slanting lines in steps of one unit; where a step crosses the level, to the crossing. */
void chart_hatch(const chart *c, const chart_field *f, double level, const char *style)
{
    enum { GAP = 7 };
    contour_path all = {.out = c->out};
    for (double start = GAP; start < c->width + c->height; start += GAP) { /* x + y from the plot's upper left */
        stroke s = {.on = &all};
        double before = NAN;
        const double first = fmax(0, start - c->height), last = fmin(start, c->width);
        for (double i = 0; first + i <= last; i++) {
            const double x = c->left + first + i, y = c->top + start - first - i, value = value_at(c, f, x, y);
            const double t = (level - before) / (value - before);
            const bool crosses = (before < level && value >= level) || (before >= level && value < level);
            if (crosses && value < level) stroke_to(&s, x - 1 + t, y + 1 - t, true);
            if (crosses && s.down) s.x = x - 1 + t, s.y = y + 1 - t;
            if (!(crosses && value < level)) stroke_to(&s, x, y, value < level);
            before = value;
        }
        if (s.down) text_format(contour_path_on(&all), "L%.1f %.1f", s.x, s.y);
    }
    contour_path_end(&all, style);
}
