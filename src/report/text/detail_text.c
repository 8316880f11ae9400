#include "report/text/detail_text.h"

#include "cases/detail/detail_sentences.h"
#include "report/detail_words.h"
#include "report/text/cells.h"

#include <math.h>
#include <stdlib.h>

/* ---- in a sentence ------------------------------------------------------------------------------------------ */

static void put_detail(text *out, const char *name, const governing_detail *d)
{
    text_format(out, "%s ", rbow_detail_kind_name(d->kind));
    put_name(out, name);
}

void put_detail_factors(text *out, const char *name, const governing_detail *d, double margin)
{
    text_put(out, "its ");
    put_detail(out, name, d);
    text_put(out, " gives way: ");
    put_detail_limit(out, d, margin);
}

void put_detail_governs(text *out, const char *name, const governing_detail *d)
{
    text_put(out, "  What governs: ");
    put_detail(out, name, d);
    text_format(out, ": %s", detail_limit_words[d->mode]);
}

/* ---- the table ---------------------------------------------------------------------------------------------- */

enum { SHOWN_MOST = 24 };

static int weakest_first(const void *a, const void *b)
{
    return detail_by_margin(*(const detail_answer *const *)a, *(const detail_answer *const *)b);
}

static void add_heads(grid *g, bool of_frame, unit_system units)
{
    grid_column(g, GRID_NAME, "detail");
    grid_column(g, GRID_NAME, of_frame ? "tube" : "case");
    if (of_frame) grid_column(g, GRID_NAME, "run");
    grid_column(g, GRID_LEFT, "kind");
    grid_spare(g, 2);
    grid_column(g, GRID_RIGHT, "at (%s)", unit_name(DIM_LENGTH, units));
    grid_column(g, GRID_LEFT, "verdict");
    grid_column(g, GRID_RIGHT, "margin");
    grid_column(g, GRID_LEFT, "mode");
    grid_column(g, GRID_RIGHT, "factor");
    grid_column(g, GRID_RIGHT, "required");
    grid_spare(g, 3);
    grid_column(g, GRID_RIGHT, "push (%s)", unit_name(DIM_FORCE, units));
    grid_spare(g, 1);
    grid_column(g, GRID_RIGHT, "moment (%s)", unit_name(DIM_MOMENT, units));
    grid_spare(g, 1);
}

static void add_number(grid *g, double value, void (*put)(text *, double))
{
    text t = {0};
    put(&t, value);
    grid_text(g, TONE_PLAIN, &t);
}

static void add_force(grid *g, double value, dimension d, unit_system units)
{
    if (isnan(value)) grid_cell(g, TONE_PLAIN, "-");
    else add_quantity(g, value, d, units, ROUND_NEAREST);
}

static void add_row(grid *g, const detail_answer *d, bool of_frame, unit_system units)
{
    const rbow_detail_result *r = &d->result;
    const governing_detail limit = governing_detail_of(d);
    const bool holds = r->verdict == RBOW_HOLDS;
    add_name(g, d->name);
    add_name(g, d->of);
    if (of_frame) add_name(g, d->run);
    grid_cell(g, TONE_PLAIN, rbow_detail_kind_name(d->detail.kind));
    grid_format(g, TONE_PLAIN, "%.1f", shown(d->detail.at, DIM_LENGTH, units) + 0.0);
    grid_cell(g, holds ? TONE_GOOD : TONE_BAD, holds ? "holds" : "SHORT");
    add_margin(g, r->margin);
    grid_cell(g, TONE_PLAIN, rbow_detail_mode_name(r->mode));
    add_number(g, limit.factor, put_factor);
    add_number(g, limit.required, put_required);
    add_force(g, r->axial, DIM_FORCE, units);
    add_force(g, r->moment, DIM_MOMENT, units);
}

static void say_key(text *out, size_t left, const screen *s)
{
    text line = {0};
    text_put(&line, "mode: what limits the detail first. factor: at this many times the run load. Yield is held against the factor "
                    "required of yield, welds against that required of the tube. push and moment: at the detail under the run load.");
    if (left > 0) text_format(&line, " %zu more have larger margins: --of details shows them all.", left);
    put_lines(out, &line, 0, s);
}

static void say_remarks(text *out, const detail_answer *details, size_t count, const screen *s)
{
    enum { NAMED = 3 };
    for (size_t i = 0; i < RBOW_DETAIL_REMARK_COUNT; i++) {
        size_t found = 0;
        text line = {0};
        text_format(&line, "  %s: %s (", rbow_detail_remark_text(1u << i), detail_remark_list[i].meaning);
        for (size_t k = 0; k < count; k++) {
            if ((details[k].result.remarks & 1u << i) == 0) continue;
            if (found++ >= NAMED) continue;
            if (found > 1) text_put(&line, ", ");
            put_name(&line, details[k].name);
            text_put(&line, " of ");
            put_name(&line, details[k].of);
        }
        if (found > NAMED) text_format(&line, " and %zu more", found - NAMED);
        text_char(&line, ')');
        if (found > 0) put_lines(out, &line, 4, s);
        else text_free(&line);
    }
}

void details_text(text *out, const detail_answer *details, size_t count, bool every, const screen *s)
{
    grid g = {0};
    const detail_answer **order = malloc((count + 1) * sizeof *order);
    out->failed = out->failed || order == NULL;
    if (order != NULL && count > 0) {
        const bool of_frame = *details[0].run != '\0';
        const size_t listed = every || count < SHOWN_MOST ? count : SHOWN_MOST;
        for (size_t i = 0; i < count; i++) order[i] = &details[i];
        qsort(order, count, sizeof *order, weakest_first);
        add_heads(&g, of_frame, s->units);
        for (size_t i = 0; i < listed; i++) add_row(&g, order[i], of_frame, s->units);
        text_format(out, "\nDetails, the weakest first%s:\n", of_frame && !every ? ", each in its worst run" : "");
        grid_write(out, &g, s);
        say_key(out, count - listed, s);
        say_remarks(out, details, count, s);
    }
    grid_free(&g);
    free(order);
}
