#include "report/text/life_text.h"

#include "cases/detail/life_words.h"
#include "report/caution.h"
#include "report/lines.h"
#include "report/text/cells.h"

#include <math.h>

enum { NAMED = 4 };

/* "'socket weld' of 'rail UL'" */
static void put_detail(text *out, const life_row *r)
{
    put_name(out, r->detail);
    text_put(out, " of ");
    put_name(out, r->of);
}

/* ---- what cracks first ---------------------------------------------------------------------------------- */

/* What has no number is named before all that has one. */
static void say_unknown(text *out, const life_told *t, size_t unknown, unsigned bit, const char *why, const screen *s)
{
    text line = {0};
    size_t found = 0;
    for (size_t i = 0; i < unknown; i++) {
        const life_row *r = &t->rows[t->order[i].row];
        if ((r->result.remarks & bit) == 0 || found++ >= NAMED) continue;
        if (found > 1) text_put(&line, ", ");
        put_detail(&line, r);
    }
    if (found > NAMED) text_format(&line, " and %zu more", found - NAMED);
    if (found > 0) {
        text_format(&line, ": %s", why);
        put_paragraph(out, &line, 2, TONE_BAD, s);
    }
    text_free(&line);
}

static void say_first(text *out, const life_row *first, size_t unknown, const screen *s)
{
    text line = {0};
    text_put(&line, unknown > 0 ? "Of those that have a number, first to crack: " : "First to crack: ");
    put_detail(&line, first);
    text_put(&line, ": ");
    life_put_runs(&line, first->result.runs);
    text_put(&line, ", most damage in ");
    put_name(&line, first->most);
    text_char(&line, '.');
    put_paragraph(out, &line, 2, TONE_PLAIN, s);
    text_free(&line);
}

/* Where forcing costs most, if that is not what cracks first. */
static void say_most_forced(text *out, const life_told *t, const life_row *first, const screen *s)
{
    const life_row *most = life_most_forced(t->rows, t->count);
    text line = {0};
    if (most == NULL || most == first) return;
    text_put(&line, "  Forcing costs most at ");
    put_detail(&line, most);
    text_put(&line, ": ");
    life_put_runs(&line, most->result.runs);
    text_put(&line, ", without it ");
    life_put_runs(&line, most->result.runs_unforced);
    text_char(&line, '.');
    put_lines(out, &line, 2, s);
}

static void say_summary(text *out, const life_told *t, const screen *s)
{
    const size_t unknown = life_unknown(t->rows, t->count);
    const life_row *first = &t->rows[t->order[unknown < t->count ? unknown : 0].row];
    text line = {0};
    say_unknown(out, t, unknown, RBOW_LIFE_LOW_CYCLE, "beyond yield: low-cycle. The range of stress exceeds the yield of the place. No curve here "
                                                      "covers that: expect few runs, and change the place.", s);
    say_unknown(out, t, unknown, RBOW_LIFE_NO_STATE, "no equilibrium under a load that comes in a run, so there is no life.", s);
    if (unknown < t->count && isinf(first->result.runs)) {
        put_sentence(out, unknown > 0 ? "The others do not crack by their curves." : "No detail cracks by its curve.", 2, s);
    } else if (unknown < t->count) {
        say_first(out, first, unknown, s);
    }
    line_pad(&line, 2);
    life_put_forced(&line, first);
    put_lines(out, &line, 2, s);
    say_most_forced(out, t, first, s);
    line_pad(&line, 2);
    life_put_curve(&line, first);
    put_lines(out, &line, 2, s);
}

/* ---- detail by detail ------------------------------------------------------------------------------------ */

static void add_life(grid *g, double runs)
{
    text t = {0};
    life_put_number(&t, runs);
    grid_text(g, isnan(runs) ? TONE_BAD : TONE_PLAIN, &t);
}

static void add_row(grid *g, const life_row *r, const screen *s)
{
    text cost = {0};
    add_name(g, r->of);
    add_name(g, r->detail);
    grid_cell(g, TONE_PLAIN, r->curve);
    add_life(g, r->result.runs);
    add_life(g, r->result.runs_unforced);
    life_put_cost(&cost, r);
    grid_text(g, TONE_PLAIN, &cost);
    add_name(g, r->most);
    add_quantity(g, r->result.range, DIM_STRESS, s->units, ROUND_NEAREST);
    add_life(g, r->result.cycles_to_crack);
}

static void say_rows(text *out, const life_told *t, const screen *s)
{
    grid g = {0};
    grid_column(&g, GRID_NAME, t->of_frame ? "tube" : "part");
    grid_column(&g, GRID_NAME, "detail");
    grid_column(&g, GRID_LEFT, "curve");
    grid_column(&g, GRID_RIGHT, "runs");
    grid_column(&g, GRID_RIGHT, "unforced");
    grid_column(&g, GRID_RIGHT, "forcing costs");
    grid_spare(&g, 1);
    grid_column(&g, GRID_NAME, "most damage in");
    grid_spare(&g, 2);
    grid_column(&g, GRID_RIGHT, "range, %s", unit_name(DIM_STRESS, s->units));
    grid_spare(&g, 3);
    grid_column(&g, GRID_RIGHT, "cycles");
    grid_spare(&g, 4);
    for (size_t i = 0; i < t->count; i++) add_row(&g, &t->rows[t->order[i].row], s);
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
    put_sentence(out, "runs: of the car to a crack, to two digits; unforced: without misses and gap. range and cycles: of the load that does most "
                      "damage, alone.", 0, s);
}

/* ---- remarks -------------------------------------------------------------------------------------------- */

static bool has_bit(const life_row *r, unsigned bit) { return (r->result.remarks & bit) != 0; }
static bool has_usual(const life_row *r, unsigned bit) { (void)bit; return r->usual; }
static bool is_lacking(const life_row *r, unsigned bit) { (void)bit; return r->lacking; }

typedef struct remark {
    const char *words;
    bool (*has)(const life_row *r, unsigned bit);
    unsigned bit;
    const char *meaning;
} remark;

static void say_remark(text *out, const life_told *t, const remark *k, const screen *s)
{
    size_t found = 0;
    text line = {0}, names = {0};
    for (size_t i = 0; i < t->count; i++) {
        const life_row *r = &t->rows[t->order[i].row];
        if (!k->has(r, k->bit) || found++ >= NAMED) continue;
        if (found > 1) text_put(&names, ", ");
        put_detail(&names, r);
    }
    if (found > NAMED) text_format(&names, " and %zu more", found - NAMED);
    text_format(&line, "  %s: %s (%s)", k->words, k->meaning,
                found == t->count && t->count > 1 ? "all" : text_string(&names, &out->failed));
    if (found > 0) put_paragraph(out, &line, 4, TONE_PLAIN, s);
    text_free(&line);
    text_free(&names);
}

#define OF_BIT(bit, meaning) {rbow_life_remark_text(bit), has_bit, bit, meaning}

static void say_remarks(text *out, const life_told *t, const screen *s)
{
    const remark remarks[] = {
        OF_BIT(RBOW_LIFE_BEYOND_YIELD, "a stress exceeds the yield of the place, which then sets; the life assumes that it does not"),
        OF_BIT(RBOW_LIFE_LOW_CYCLE, "the range exceeds it: there is no number"),
        OF_BIT(RBOW_LIFE_NO_STATE, "the tube buckles before the load factor of its cycle: there is no number"),
        OF_BIT(RBOW_LIFE_MEAN_CURVE, "the curve is a mean, its scatter is not known: half of the parts crack earlier"),
        {LIFE_NO_CURVE, has_usual, 0, "the column sn is empty; the usual curve of its kind was taken (common practice, no source)"},
        {LIFE_LACKING, is_lacking, 0, "rows that were refused may be loads of this part: it may last less long"},
    };
    bool any = false;
    for (size_t i = 0; i < t->count && !any; i++) any = *t->rows[i].remarks != '\0';
    if (!any) return;
    text_put(out, "\nRemarks:\n");
    for (size_t i = 0; i < sizeof remarks / sizeof *remarks; i++) say_remark(out, t, &remarks[i], s);
}

/* ---- the answer ----------------------------------------------------------------------------------------- */

static void say_bare(text *out, const life_told *t, const screen *s)
{
    text line = {0};
    for (size_t i = 0; i < t->bare_count && i < NAMED; i++) {
        if (i > 0) text_put(&line, ", ");
        put_name(&line, t->bare[i]);
    }
    if (t->bare_count > NAMED) text_format(&line, " and %zu more", t->bare_count - NAMED);
    if (t->bare_count > 0) text_put(&line, t->bare_count == 1 ? " has no detail and no life here." : " have no detail and no life here.");
    put_lines(out, &line, 0, s);
    if (t->bare_count > 0) text_char(out, '\n');
}

void life_text(text *out, const life_told *t, const screen *s)
{
    text line = {0}, loads = {0};
    put_refused(out, s);
    if (t->count > 0) {
        say_summary(out, t, s);
        say_rows(out, t, s);
        say_remarks(out, t, s);
    }
    text_char(out, '\n');
    say_bare(out, t, s);
    life_put_loads(&loads, t);
    if (loads.length > 0) text_char(&loads, '\n');
    put_lines(out, &loads, 0, s);
    put_sentence(out, t->of_frame ? frame_life_assumptions : life_assumptions, 0, s);
    text_char(out, '\n');
    text_put(&line, life_caution);
    text_put(&line, " The table here: ");
    put_printable(&line, t->curves);
    text_char(&line, '.');
    put_lines(out, &line, 0, s);
    put_end(out, s);
}
