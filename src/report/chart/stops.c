#include "report/chart/stops.h"

#include "report/html.h"

#include <math.h>
#include <string.h>

enum { LINE = 14, PAD = 5, AWAY = 9, CROSSINGS_MOST = 4 };

void chart_open_stops(text *out, double width, double height, const char *name)
{
    text_format(out, "<svg viewBox=\"0 0 %g %g\" role=\"group\" aria-label=\"", width, height);
    html_text(out, name);
    text_put(out, "\">\n");
}

/* ---- words ------------------------------------------------------------------------------------------ */

static double inside(double v, double low, double high)
{
    return fmax(low, fmin(v, high));
}

static size_t length_of_line(const char *words)
{
    return strcspn(words, "\n");
}

/* Each line with the function; the last ends the words. */
static const char *next_line(text *line, const char *words)
{
    const size_t length = length_of_line(words);
    text_clear(line);
    text_add(line, words, length);
    return words[length] == '\n' ? words + length + 1 : NULL;
}

/* out: is told where memory runs out. */
static double width_of(text *out, const char *words, size_t *lines)
{
    text line = {0};
    double most = 0;
    for (*lines = 0; words != NULL; (*lines)++) {
        words = next_line(&line, words);
        most = fmax(most, line.at != NULL ? chart_text_width(line.at) : 0);
    }
    text_free_part(&line, out);
    return most;
}

/* Lines on a card of their own, so that they read on whatever is drawn there. left: of the words; top: of the card */
static void put_words(text *out, double left, double top, double wide, size_t lines, const char *words)
{
    text line = {0};
    const char *rest = next_line(&line, words);
    text_format(out, "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%zu\" rx=\"3\" class=\"note\"/>", left - PAD, top, wide + 2 * PAD, LINE * lines + PAD);
    text_format(out, "<text x=\"%.1f\" y=\"%.1f\">", left, top + LINE);
    html_text(out, line.at != NULL ? line.at : "");
    while (rest != NULL) {
        rest = next_line(&line, rest);
        text_format(out, "<tspan x=\"%.1f\" dy=\"%d\">", left, (int)LINE);
        html_text(out, line.at != NULL ? line.at : "");
        text_put(out, "</tspan>");
    }
    text_put(out, "</text>");
    text_free_part(&line, out);
}

/* The lines as one sentence, for who hears them. */
static void put_name(text *out, const char *words)
{
    text name = {0};
    for (; *words != '\0'; words++) {
        if (*words == '\n') text_put(&name, "; ");
        else text_char(&name, *words);
    }
    html_text(out, name.at != NULL ? name.at : "");
    text_free_part(&name, out);
}

static void begin(text *out, const char *words, bool tab)
{
    text_put(out, "<g class=\"stop\"");
    if (!tab) return;
    text_put(out, " tabindex=\"0\" role=\"img\" aria-label=\"");
    put_name(out, words);
    text_char(out, '"');
}

/* ---- points and boxes ------------------------------------------------------------------------------- */

/* Where words of a width begin, so that their card is whole on the drawing. */
static double left_of(double wanted, double wide)
{
    return inside(wanted, PAD + 1, fmax(PAD + 1, CHART_WIDTH - PAD - 1 - wide));
}

/* Above what is named, or below it where there is no room. */
static void put_words_by(text *out, double middle, double top, double bottom, const char *words)
{
    size_t lines;
    const double wide = width_of(out, words, &lines), high = LINE * (double)lines + PAD;
    put_words(out, left_of(middle - wide / 2, wide), top - high - 2 >= 0 ? top - high - 2 : bottom + 2, wide, lines, words);
}

void chart_stop_round(text *out, double x, double y, double radius, const char *words, bool tab)
{
    begin(out, words, tab);
    text_format(out, "><circle cx=\"%.1f\" cy=\"%.1f\" r=\"%g\" class=\"hit\"/>", x, y, radius);
    put_words_by(out, x, y - radius, y + radius, words);
    text_put(out, "</g>\n");
}

void chart_stop(const chart *c, double x, double y, const char *words, bool tab)
{
    if (x >= c->x_low && x <= c->x_high && y >= c->y_low && y <= c->y_high) chart_stop_round(c->out, chart_x(c, x), chart_y(c, y), AWAY, words, tab);
}

void chart_stop_box(text *out, chart_box b, const char *words, bool tab)
{
    begin(out, words, tab);
    text_format(out, "><rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" class=\"hit\"/>", b.left, b.top, b.width, b.height);
    put_words_by(out, b.left + b.width / 2, b.top, b.top + b.height, words);
    text_put(out, "</g>\n");
}

/* ---- strips ----------------------------------------------------------------------------------------- */

/* Beside the upright, on the side with more room, in the half of the plot without the dot. */
static void put_words_beside(const chart *c, double x, double dot, const char *words)
{
    size_t lines;
    const double wide = width_of(c->out, words, &lines), high = LINE * (double)lines + PAD;
    const bool low = dot < c->top + c->height / 2;
    put_words(c->out, left_of(x > CHART_WIDTH / 2.0 ? x - AWAY - PAD - wide : x + AWAY + PAD, wide), low ? fmax(c->top + c->height - high, c->top) : c->top, wide,
              lines, words);
}

static void put_strip(const chart *c, const chart *below, const chart_strip *s, double left, double right)
{
    text *out = c->out;
    const char *words = s->words.at != NULL ? s->words.at : "";
    const double x = chart_x(c, s->x), y = s->y >= c->y_low && s->y <= c->y_high ? chart_y(c, s->y) : (double)NAN;
    const double bottom = below != NULL ? below->top + below->height : c->top + c->height;
    begin(out, words, s->tab);
    text_format(out, " data-x=\"%.9g\"><rect x=\"%.1f\" y=\"%g\" width=\"%.1f\" height=\"%g\" class=\"hit\"/><path d=\"M%.1f %gV%g", s->x, left, c->top,
                right - left, bottom - c->top, x, c->top, c->top + c->height);
    if (below != NULL) text_format(out, "M%.1f %gV%g", x, below->top, bottom);
    text_put(out, "\" class=\"at\"/>");
    if (!isnan(y)) text_format(out, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"4\" class=\"at\"/>", x, y);
    put_words_beside(c, x, s->y > c->y_high ? c->top : isnan(y) ? c->top + c->height : y, words);
    text_put(out, "</g>\n");
}

void chart_strips(const chart *c, const chart *below, const chart_strip strips[], size_t count)
{
    const double reach = 14; /* past the outermost places */
    for (size_t i = 0; i < count; i++) {
        if (!(strips[i].x >= c->x_low && strips[i].x <= c->x_high)) continue;
        const double x = chart_x(c, strips[i].x);
        const double left = i > 0 ? (chart_x(c, strips[i - 1].x) + x) / 2 : x - reach;
        const double right = i + 1 < count ? (chart_x(c, strips[i + 1].x) + x) / 2 : x + reach;
        put_strip(c, below, &strips[i], fmax(left, c->left - reach), fmin(right, c->left + c->width + reach));
    }
}

void chart_plot(const chart *c)
{
    text_format(c->out, "<rect x=\"%g\" y=\"%g\" width=\"%g\" height=\"%g\" class=\"plot\" data-x=\"%.9g %.9g\" data-y=\"%.9g %.9g\"/>\n", c->left, c->top,
                c->width, c->height, c->x_low, c->x_high, c->y_low, c->y_high);
}

void chart_notable(const double x[], const double y[], size_t count, double limit, double now, bool notable[])
{
    size_t least = 0, nearest = 0, crossings = 0;
    for (size_t i = 0; i < count; i++) {
        notable[i] = i == 0 || i + 1 == count;
        if (y[i] < y[least] || isnan(y[least])) least = i;
        if (fabs(x[i] - now) < fabs(x[nearest] - now)) nearest = i;
    }
    for (size_t i = 0; i + 1 < count && crossings < CROSSINGS_MOST; i++) {
        if (isnan(y[i] + y[i + 1]) || (y[i] >= limit) == (y[i + 1] >= limit)) continue;
        notable[i] = notable[i + 1] = true;
        crossings++;
    }
    if (count == 0) return;
    notable[least] = true;
    if (!isnan(now)) notable[nearest] = true;
}
