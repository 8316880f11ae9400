#include "report/chart/chart.h"

#include "report/html.h"

#include <math.h>
#include <stdio.h>
#include <stdbool.h>
#include <string.h>

enum { LINE_HEIGHT = 15 };

/* ---- ticks ------------------------------------------------------------------------------------------ */

static double round_step(double span, size_t most)
{
    const double raw = span / (double)(most > 1 ? most - 1 : 1);
    const double ten = pow(10, floor(log10(raw)));
    static const double rounds[] = {1, 2, 5, 10};
    for (size_t i = 0; i < 4; i++)
        if (rounds[i] * ten >= raw * (1 - 1e-9)) return rounds[i] * ten;
    return 10 * ten;
}

chart_ticks chart_ticks_in(double low, double high, size_t most)
{
    chart_ticks t = {.step = NAN};
    if (!(high > low && isfinite(high - low))) return t;
    t.step = round_step(high - low, most);
    t.decimals = (int)fmax(0, -floor(log10(t.step) + 1e-9));
    const double first = ceil(low / t.step - 1e-9), last = floor(high / t.step + 1e-9);
    for (double i = first; i <= last && t.count < CHART_TICKS_MOST; i++) t.at[t.count++] = i * t.step + 0.0;
    return t;
}

double chart_round_up(double high, size_t most)
{
    if (!(high > 0 && isfinite(high))) return 1;
    const double step = round_step(high, most);
    return ceil(high / step - 1e-9) * step;
}

/* ---- labels ----------------------------------------------------------------------------------------- */

double chart_text_width(const char *string)
{
    size_t characters = 0;
    for (; *string != '\0'; string++) characters += ((unsigned char)*string & 0xC0) != 0x80;
    return 7.5 * (double)characters; /* of thirteen units' height, in the widest of the page's fonts */
}

void chart_spread(double at[], size_t count, double gap, double low, double high)
{
    for (size_t i = 0; i < count; i++) {
        const double least = i > 0 ? at[i - 1] + gap : low;
        if (at[i] < least) at[i] = least;
    }
    for (size_t i = count; i-- > 0;) {
        const double most = i + 1 < count ? at[i + 1] - gap : high;
        if (at[i] > most) at[i] = most;
    }
}

/* ---- drawing ---------------------------------------------------------------------------------------- */

void chart_open(text *out, double width, double height, const char *title, const char *description)
{
    text_format(out, "<svg viewBox=\"0 0 %g %g\" role=\"img\"><title>", width, height);
    html_text(out, title);
    text_put(out, "</title>");
    if (*description != '\0') html_element(out, "desc", NULL, description);
    text_char(out, '\n');
}

void chart_close(text *out)
{
    text_put(out, "</svg>\n");
}

double chart_x(const chart *c, double x)
{
    return c->left + (x - c->x_low) / (c->x_high - c->x_low) * c->width;
}

double chart_y(const chart *c, double y)
{
    return c->top + c->height - (y - c->y_low) / (c->y_high - c->y_low) * c->height;
}

void chart_words(text *out, double x, double y, const char *anchor, const char *style, const char *words)
{
    text_format(out, "<text x=\"%.2f\" y=\"%.2f\"", x, y);
    if (strcmp(anchor, "start") != 0) text_format(out, " text-anchor=\"%s\"", anchor);
    if (*style != '\0') text_format(out, " class=\"%s\"", style);
    text_char(out, '>');
    html_text(out, words);
    text_put(out, "</text>\n");
}

static void straight(text *out, double x1, double y1, double x2, double y2, const char *style)
{
    text_format(out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"%s\"/>\n", x1, y1, x2, y2, style);
}

void chart_tick_words(char words[CHART_TICK_ROOM], double value, int decimals)
{
    char plain[CHART_TICK_ROOM];
    const char *form = fabs(value) < 1e6 && decimals <= 6 ? "%.*f" : "%.*g";
    const int wanted = snprintf(plain, sizeof plain, form, form[3] == 'f' ? decimals : 6, value);
    const size_t length = wanted > 0 && (size_t)wanted < sizeof plain ? (size_t)wanted : 0;
    size_t whole = 0, n = 0;
    while (whole < length && plain[whole] != '.' && plain[whole] != 'e') whole++;
    for (size_t i = 0; i < length && n < CHART_TICK_ROOM - 2; i++) {
        const bool apart = i > 0 && i < whole && (whole - i) % 3 == 0 && plain[i - 1] != '-' && whole > 4;
        if (apart) words[n++] = ' ';
        words[n++] = plain[i];
    }
    words[n] = '\0';
}

/* Three or more: one or two numbers are no scale. */
static chart_ticks enough_ticks(double low, double high, size_t most)
{
    chart_ticks t = chart_ticks_in(low, high, most);
    for (size_t more = most + 1; t.count < 3 && more <= 8; more++) t = chart_ticks_in(low, high, more);
    return t;
}

/* Halves of an inch, quarters ... 64ths, the widest of which three or more lie in the range. count 0: none */
static chart_ticks inch_ticks(double low, double high)
{
    chart_ticks t = {.step = NAN};
    for (double step = 0.5; step >= 1.0 / 64 && high - low <= 2; step /= 2) {
        const double first = ceil(low / step - 1e-9), last = floor(high / step + 1e-9);
        if (last - first < 2) continue;
        t.step = step;
        for (double i = first; i <= last && t.count < CHART_TICKS_MOST; i++) t.at[t.count++] = i * step;
        return t;
    }
    return t;
}

/* A multiple of 1/64: "0", "3/8", "1 1/4", "-1/2" */
static void inch_words(char words[CHART_TICK_ROOM], double value)
{
    const int parts = (int)lround(64 * fmin(fabs(value), 1e6)), whole = parts / 64;
    int top = parts % 64, bottom = 64;
    const char *sign = value < 0 && parts > 0 ? "-" : "";
    for (; top > 0 && top % 2 == 0; top /= 2) bottom /= 2;
    if (top == 0) snprintf(words, CHART_TICK_ROOM, "%s%d", sign, whole);
    else if (whole == 0) snprintf(words, CHART_TICK_ROOM, "%s%d/%d", sign, top, bottom);
    else snprintf(words, CHART_TICK_ROOM, "%s%d %d/%d", sign, whole, top, bottom);
}

void chart_axis_x(const chart *c, const char *name)
{
    chart_ticks t = c->inches ? inch_ticks(c->x_low, c->x_high) : (chart_ticks){.count = 0};
    const bool inches = t.count > 0;
    if (!inches) t = enough_ticks(c->x_low, c->x_high, (size_t)fmin(9, fmax(2, c->width / 45)));
    const double bottom = c->top + c->height;
    for (size_t i = 0; i < t.count; i++) {
        char words[CHART_TICK_ROOM];
        if (inches) inch_words(words, t.at[i]);
        else chart_tick_words(words, t.at[i], t.decimals);
        straight(c->out, chart_x(c, t.at[i]), c->top, chart_x(c, t.at[i]), bottom, "grid");
        chart_words(c->out, chart_x(c, t.at[i]), bottom + LINE_HEIGHT + 2, "middle", "tick", words);
    }
    straight(c->out, c->left, bottom, c->left + c->width, bottom, "axis");
    if (*name != '\0') chart_words(c->out, c->left + c->width, bottom + 2 * LINE_HEIGHT + 2, "end", "name", name);
}

void chart_axis_y(const chart *c, const char *name)
{
    const chart_ticks t = enough_ticks(c->y_low, c->y_high, (size_t)fmin(9, fmax(4, c->height / 30)));
    for (size_t i = 0; i < t.count; i++) {
        char words[CHART_TICK_ROOM];
        chart_tick_words(words, t.at[i], t.decimals);
        straight(c->out, c->left, chart_y(c, t.at[i]), c->left + c->width, chart_y(c, t.at[i]), "grid");
        chart_words(c->out, c->left - 5, chart_y(c, t.at[i]) + 4, "end", "tick", words);
    }
    chart_words(c->out, 0, c->top - 9, "start", "name", name);
}

/* ---- lines ------------------------------------------------------------------------------------------ */

typedef struct path { /* of SVG, while it is written */
    text *out;
    const char *style;
    double x, y; /* where the pen is */
    bool begun, down;
} path;

static void path_to(path *p, double x1, double y1, double x2, double y2)
{
    if (!p->begun) text_put(p->out, "<path d=\"");
    p->begun = true;
    const bool joined = p->down && fabs(p->x - x1) < 1e-9 && fabs(p->y - y1) < 1e-9;
    if (!joined) text_format(p->out, "M%.2f %.2f", x1, y1);
    text_format(p->out, "L%.2f %.2f", x2, y2);
    p->x = x2;
    p->y = y2;
    p->down = true;
}

static void path_end(path *p)
{
    if (p->begun) text_format(p->out, "\" class=\"%s\"/>\n", p->style);
}

/* Narrows the stretch [*t0, *t1] of a line from a by d to where it lies in [low, high]. Returned: whether any is. */
static bool narrow(double a, double d, double low, double high, double *t0, double *t1)
{
    if (!(fabs(d) > 0)) return a >= low && a <= high;
    const double u = (low - a) / d, v = (high - a) / d;
    *t0 = fmax(*t0, fmin(u, v));
    *t1 = fmin(*t1, fmax(u, v));
    return *t0 <= *t1;
}

void chart_line(const chart *c, const double x[], const double y[], size_t count, const char *style)
{
    path p = {.out = c->out, .style = style};
    for (size_t i = 0; i + 1 < count; i++) {
        const double dx = x[i + 1] - x[i], dy = y[i + 1] - y[i];
        double t0 = 0, t1 = 1;
        if (!isfinite(dx + dy + x[i] + y[i]) || !narrow(x[i], dx, c->x_low, c->x_high, &t0, &t1)
            || !narrow(y[i], dy, c->y_low, c->y_high, &t0, &t1))
            continue;
        path_to(&p, chart_x(c, x[i] + t0 * dx), chart_y(c, y[i] + t0 * dy), chart_x(c, x[i] + t1 * dx),
                chart_y(c, y[i] + t1 * dy));
    }
    path_end(&p);
}

void chart_path(text *out, const double x[], const double y[], size_t count, const char *style)
{
    path p = {.out = out, .style = style};
    for (size_t i = 0; i + 1 < count; i++)
        if (isfinite(x[i] + y[i] + x[i + 1] + y[i + 1])) path_to(&p, x[i], y[i], x[i + 1], y[i + 1]);
    path_end(&p);
}

static double inside(double v, double low, double high)
{
    return fmin(fmax(v, low), high);
}

void chart_bar(const chart *c, double from, double to, double middle, double thick, const char *style)
{
    const double a = chart_x(c, inside(fmin(from, to), c->x_low, c->x_high));
    const double b = chart_x(c, inside(fmax(from, to), c->x_low, c->x_high));
    text_format(c->out, "<rect x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\" class=\"%s\"/>\n", a,
                middle - thick / 2, b - a, thick, style);
}

void chart_point(const chart *c, double x, double y, const char *style)
{
    if (!(x >= c->x_low && x <= c->x_high && y >= c->y_low && y <= c->y_high)) return;
    text_format(c->out, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"4\" class=\"%s\"/>\n", chart_x(c, x), chart_y(c, y), style);
}

void chart_upright(const chart *c, double x, const char *style)
{
    if (x >= c->x_low && x <= c->x_high)
        straight(c->out, chart_x(c, x), c->top, chart_x(c, x), c->top + c->height, style);
}

void chart_labels(const chart *c, chart_label labels[], size_t count)
{
    double at[CHART_LABELS_MOST];
    for (size_t i = 1; i < count; i++) /* from the top down */
        for (size_t k = i; k > 0 && labels[k].y > labels[k - 1].y; k--) {
            const chart_label other = labels[k];
            labels[k] = labels[k - 1];
            labels[k - 1] = other;
        }
    for (size_t i = 0; i < count; i++) at[i] = chart_y(c, inside(labels[i].y, c->y_low, c->y_high));
    chart_spread(at, count, LINE_HEIGHT - 1, c->top, c->top + c->height - 5);
    for (size_t i = 0; i < count; i++) {
        const double right = c->left + c->width, y = chart_y(c, inside(labels[i].y, c->y_low, c->y_high));
        if (fabs(at[i] - y) > 3) straight(c->out, right + 1, y, right + 6, at[i], "leader");
        chart_words(c->out, right + 8, at[i] + 4, "start", labels[i].style, labels[i].words);
    }
}

/* ---- names of points -------------------------------------------------------------------------------- */

typedef struct box {
    double left, top, right, bottom;
} box;

static bool apart(const box *a, const box *b)
{
    return a->right < b->left || b->right < a->left || a->bottom < b->top || b->bottom < a->top;
}

static box box_around(double x, double y, double half_width, double half_height)
{
    return (box){x - half_width, y - half_height, x + half_width, y + half_height};
}

/* Whether a name's box is free of all points and of the names before. */
static bool is_free(const chart *c, const box *b, const chart_name names[], size_t count, const box used[], size_t uses)
{
    const box plot = {c->left, c->top - LINE_HEIGHT, c->left + c->width, c->top + c->height};
    if (!(b->left >= plot.left && b->right <= plot.right && b->top >= plot.top && b->bottom <= plot.bottom)) return false;
    for (size_t i = 0; i < uses; i++)
        if (!apart(b, &used[i])) return false;
    for (size_t i = 0; i < count; i++) {
        const box dot = box_around(chart_x(c, names[i].x), chart_y(c, names[i].y), 4, 4);
        if (!apart(b, &dot)) return false;
    }
    return true;
}

void chart_names(const chart *c, const chart_name names[], size_t count)
{
    box used[CHART_NAMES_MOST];
    size_t uses = 0;
    for (size_t i = 0; i < count && uses < CHART_NAMES_MOST; i++) {
        const double x = chart_x(c, names[i].x), y = chart_y(c, names[i].y), half = (strstr(names[i].style, "bold") != NULL ? 0.56 : 0.5) * chart_text_width(names[i].words);
        const double sideways = half + 8;
        const double shift[][2] = {{0, -13}, {0, 13}, {sideways, 0}, {-sideways, 0},
                                   {sideways, -11}, {-sideways, -11}, {sideways, 11}, {-sideways, 11}};
        for (size_t k = 0; k < sizeof shift / sizeof *shift; k++) {
            const box b = box_around(x + shift[k][0], y + shift[k][1], half, 6);
            if (!is_free(c, &b, names, count, used, uses)) continue;
            chart_words(c->out, x + shift[k][0], y + shift[k][1] + 4, "middle", names[i].style, names[i].words);
            used[uses++] = b;
            break;
        }
    }
}
