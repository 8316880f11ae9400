#include "report/text/cells.h"

#include "report/caution.h"
#include "report/lines.h"

#include <math.h>

void add_name(grid *g, const char *name)
{
    text t = {0};
    put_printable(&t, name);
    grid_text(g, TONE_PLAIN, &t);
}

void put_name(text *out, const char *name)
{
    text_char(out, '\'');
    put_printable(out, name);
    text_char(out, '\'');
}

grid_tone tone_of(double margin)
{
    return margin >= 0 ? TONE_GOOD : TONE_BAD;
}

void add_margin(grid *g, double margin)
{
    text t = {0};
    put_percent(&t, margin);
    grid_text(g, tone_of(margin), &t);
}

void add_points(grid *g, double cost)
{
    text t = {0};
    if (isnan(cost)) {
        grid_cell(g, TONE_PLAIN, "-");
    } else if (isfinite(cost) && fabs(cost) < 1000) {
        put_decimals(&t, cost, 1, ROUND_NEAREST);
        grid_text(g, TONE_PLAIN, &t);
    } else {
        grid_cell(g, TONE_PLAIN, cost > 0 ? "over 999" : "wins all");
    }
}

void add_quantity(grid *g, double value, dimension d, unit_system units, rounding way)
{
    text t = {0};
    put_bare(&t, value, d, units, way);
    grid_text(g, TONE_PLAIN, &t);
}

void add_fraction(grid *g, double value, dimension d, unit_system units, rounding way)
{
    text t = {0};
    put_fraction(&t, value, d, units, way);
    grid_text(g, TONE_PLAIN, &t);
}

size_t prose_width(const screen *s)
{
    enum { MOST = 100 };
    return s->width < MOST ? s->width : MOST;
}

void put_sentence(text *out, const char *sentence, size_t indent, const screen *s)
{
    wrap(out, sentence, indent, prose_width(s));
}

void put_paragraph(text *out, const text *paragraph, size_t indent, grid_tone tone, const screen *s)
{
    if (paragraph->failed) out->failed = true;
    if (paragraph->length == 0) return;
    text_put(out, tone_on(tone, s->colour));
    put_sentence(out, paragraph->at, indent, s);
    if (tone != TONE_PLAIN) text_put(out, tone_off(s->colour));
}

void put_lines(text *out, text *line, size_t indent, const screen *s)
{
    put_paragraph(out, line, indent, TONE_PLAIN, s);
    text_free(line);
}

void put_refused(text *out, const screen *s)
{
    text line = {0};
    const bool known = s->refused != NULL && *s->refused != '\0';
    if (!s->faults) return;
    text_put(&line, "NOT CHECKED: ");
    put_printable(&line, known ? s->refused : "not everything could be read");
    text_put(&line, " (reasons above).");
    put_paragraph(out, &line, 2, TONE_BAD, s);
    text_free(&line);
}

void put_assumptions(text *out, const screen *s)
{
    text_char(out, '\n');
    put_sentence(out, assumptions, 0, s);
}

void put_end(text *out, const screen *s)
{
    text_char(out, '\n');
    put_sentence(out, caution, 0, s);
}
