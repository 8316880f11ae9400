#include "report/text/cells.h"

#include "report/caution.h"
#include "report/lines.h"
#include "report/values.h"

#include <math.h>

enum { NAME_MOST = 40, QUOTED_MOST = 60 };

void add_name(grid *g, const char *name)
{
    text t = {0};
    shorten(&t, name, NAME_MOST);
    grid_cell(g, TONE_PLAIN, text_string(&t, &g->cells.failed));
    text_free(&t);
}

void put_name(text *out, const char *name)
{
    text_char(out, '\'');
    shorten(out, name, QUOTED_MOST);
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
    grid_cell(g, tone_of(margin), text_string(&t, &g->cells.failed));
    text_free(&t);
}

void put_degrees(text *out, double clock)
{
    double degrees = fmod(clock * (180 / 3.14159265358979323846), 360);
    if (degrees < 0) degrees += 360;
    text_format(out, "%.1f", degrees >= 359.95 ? 0 : degrees);
}

void put_paragraph(text *out, const text *paragraph, grid_tone tone, bool colour)
{
    text_put(out, tone_on(tone, colour));
    wrap(out, text_string(paragraph, &out->failed), 2);
    text_put(out, tone_off(colour));
}

void put_end(text *out, bool faults)
{
    if (faults) text_put(out, "\nSome rows could not be answered and are not in this: see the messages.\n");
    text_char(out, '\n');
    wrap(out, caution, 0);
}

void put_lines(text *out, text *line, size_t indent)
{
    if (line->at != NULL) wrap(out, line->at, indent);
    text_free(line);
}
