#include "report/text/scatter_text.h"

#include "report/text/cells.h"

#include <math.h>
#include <stdlib.h>

static void put_share(text *out, double share)
{
    if (share > 0 && share < 0.0001)
        text_put(out, "under 0.01 %");
    else if (share < 1 && share > 0.9999)
        text_put(out, "over 99.99 %");
    else
        text_format(out, "%.2f %%", 100 * share);
}

void scatter_shorts_text(text *out, const scatter_row *r)
{
    const double judged = r->margins.samples - r->margins.refused;
    if (!(r->margins.short_share > 0)) {
        text_format(out, "none of %.0f samples is short (95 %% sure: under ", judged);
        put_share(out, r->margins.short_high);
    } else {
        put_share(out, r->margins.short_share);
        text_format(out, " of %.0f samples are SHORT (95 %% sure: from ", judged);
        put_share(out, r->margins.short_low);
        text_put(out, " to ");
        put_share(out, r->margins.short_high);
    }
    text_put(out, ")");
}

static void say_shorts(text *out, const scatter_row *r, const screen *s)
{
    text line = {0};
    put_name(&line, r->name);
    text_put(&line, ": ");
    if (isnan(r->margins.short_share))
        text_put(&line, "no sample lies inside the model");
    else
        scatter_shorts_text(&line, r);
    text_put(&line, "; as given the margin is ");
    put_percent(&line, r->nominal);
    text_put(&line, ".");
    put_paragraph(out, &line, 2, !(r->margins.short_share <= 0) ? TONE_BAD : TONE_GOOD, s);
    text_free(&line);
}

static void say_margins(text *out, const scatter_row *r, const screen *s)
{
    const struct {
        const char *before;
        double share;
    } parts[] = {{"  Margin: mean ", r->margins.mean}, {", deviation ", r->margins.sd}, {", 1 of 100 under ", r->margins.p01},
                 {", 5 of 100 under ", r->margins.p05}, {", half under ", r->margins.p50}, {", 5 of 100 over ", r->margins.p95}};
    if (isnan(r->margins.mean)) return;
    text line = {0};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        text_put(&line, parts[i].before);
        if (i == 1 && parts[i].share < 99.99)
            text_format(&line, "%.1f %%", 100 * parts[i].share); /* without a sign */
        else
            put_percent(&line, parts[i].share);
    }
    put_lines(out, &line, 2, s);
}

static void say_odd_ones(text *out, const scatter_row *r, const screen *s)
{
    if (r->margins.refused > 0) {
        text line = {0};
        text_format(&line, "  Outside the model and not judged: %.0f (the first: %s %s).", r->margins.refused, r->refused_column,
                    r->refused_why);
        put_lines(out, &line, 2, s);
    }
    if (r->margins.infinite > 0) text_format(out, "  Without any limit, so they hold, and stand in no mean: %.0f.\n", r->margins.infinite);
    if (r->margins.unstable > 0) text_format(out, "  Unstable as loaded: %.0f.\n", r->margins.unstable);
}

void scatter_margins_text(text *out, const scatter_row *r, const screen *s)
{
    say_margins(out, r, s);
    say_odd_ones(out, r, s);
}

static void say_driver(text *out, const scatter_row *r)
{
    if (*r->driver != '\0')
        text_format(out, "  %s %-12s %5.1f %% of the spread\n", r->rank == 0 ? "Driven by" : "         ", r->driver,
                    100 * r->driver_share);
    else if (!isnan(r->margins.mean))
        text_put(out, "  Nothing that varies moves the margin.\n");
}

void scatter_bars_text(text *out, const scatter_row *r, const screen *s)
{
    enum { OTHERS = 28, MOST = 56 }; /* columns of the margin and the count */
    const size_t room = s->width - OTHERS, longest = room < MOST ? room : MOST;
    double most = 0;
    for (int i = 0; i < SCATTER_BARS; i++) most = fmax(most, r->bars[i]);
    if (!(r->high > r->low)) return;
    const double width = (r->high - r->low) / SCATTER_BARS;
    text_char(out, '\n');
    for (int i = 0; i < SCATTER_BARS; i++) {
        const double from = r->low + i * width;
        const int length = (int)lround(r->bars[i] / most * (double)longest);
        text margin = {0};
        put_percent(&margin, from);
        text_format(out, "  from %12s  ", text_string(&margin, &out->failed));
        text_free(&margin);
        for (int k = 0; k < length; k++) text_char(out, from + width / 2 < 0 ? '-' : '+');
        text_format(out, "%s%.0f\n", length > 0 ? " " : "", r->bars[i]);
    }
}

/* ---- all cases -------------------------------------------------------------------------------------- */

/* By the share that is short, then by the low margins, else in the order of the file; what was not judged comes first. */
static int worst_first(const void *a, const void *b)
{
    const scatter_row *x = *(const scatter_row *const *)a, *y = *(const scatter_row *const *)b;
    const double left[] = {isnan(x->margins.short_share) ? 2 : x->margins.short_share, -x->margins.p01, -x->nominal};
    const double right[] = {isnan(y->margins.short_share) ? 2 : y->margins.short_share, -y->margins.p01, -y->nominal};
    for (int i = 0; i < 3; i++)
        if (left[i] < right[i] || left[i] > right[i]) return left[i] > right[i] ? -1 : 1;
    return (x > y) - (x < y);
}

static void add_share(grid *g, double share, bool good)
{
    text t = {0};
    if (isnan(share))
        text_put(&t, "-");
    else
        put_share(&t, share);
    grid_text(g, good ? TONE_GOOD : TONE_BAD, &t);
}

static void add_case(grid *g, const scatter_row *r)
{
    const bool good = r->margins.short_share <= 0;
    add_name(g, r->name);
    add_share(g, r->margins.short_share, good);
    add_share(g, r->margins.short_high, good);
    add_margin(g, r->nominal);
    if (isnan(r->margins.p01))
        grid_cell(g, TONE_PLAIN, "-");
    else
        add_margin(g, r->margins.p01);
    grid_cell(g, TONE_PLAIN, r->rank == 0 ? r->driver : "");
}

static void say_cases(text *out, const scatter_row *cases[], size_t count, const screen *s)
{
    grid g = {0};
    qsort(cases, count, sizeof *cases, worst_first);
    grid_column(&g, GRID_NAME, "worst first");
    grid_column(&g, GRID_RIGHT, "short");
    grid_column(&g, GRID_RIGHT, "at most (95 %%)");
    grid_column(&g, GRID_RIGHT, "as given");
    grid_spare(&g, 1);
    grid_column(&g, GRID_RIGHT, "1 of 100 under");
    grid_column(&g, GRID_LEFT, "driven by");
    for (size_t i = 0; i < count; i++) add_case(&g, cases[i]);
    grid_write(out, &g, s);
    text_char(out, '\n');
    grid_free(&g);
}

/* With one case alone its own words say it all. */
static void say_all(text *out, const scatter_row *rows, size_t count, const screen *s)
{
    const scatter_row **cases = malloc((count + 1) * sizeof *cases);
    size_t found = 0;
    for (size_t i = 0; i < count && cases != NULL; i++)
        if (rows[i].rank == 0) cases[found++] = &rows[i];
    out->failed = out->failed || cases == NULL;
    if (found > 1) say_cases(out, cases, found, s);
    free(cases);
}

void scatter_seed_text(text *out, unsigned seed, const screen *s)
{
    text line = {0};
    text_format(&line, "Seed %u. Bars: how many samples have a margin from there on; '-' is short.", seed);
    text_char(out, '\n');
    put_lines(out, &line, 0, s);
}

void scatter_text(text *out, const scatter_row *rows, size_t count, unsigned seed, const screen *s)
{
    put_refused(out, s);
    say_all(out, rows, count, s);
    for (size_t i = 0; i < count; i++) {
        const scatter_row *r = &rows[i];
        if (r->rank == 0) {
            if (i > 0) text_char(out, '\n');
            say_shorts(out, r, s);
            scatter_margins_text(out, r, s);
        }
        say_driver(out, r);
        if (i + 1 == count || rows[i + 1].rank == 0) scatter_bars_text(out, r, s);
    }
    if (count > 0) scatter_seed_text(out, seed, s);
    put_assumptions(out, s);
    put_end(out, s);
}
