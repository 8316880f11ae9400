#include "report/text/check_text.h"

#include "cases/case_words.h"
#include "cases/detail/detail_sentences.h"
#include "cases/remark_list.h"
#include "report/advice_words.h"
#include "report/text/cells.h"
#include "report/text/check_table_text.h"
#include "report/text/detail_text.h"

#include <math.h>

/* ---- the verdict in words --------------------------------------------------------------------------- */

/* Where rows were refused, the others are called so: no headline says that all hold. */
static void put_count(text *out, size_t holds, size_t count, bool faults)
{
    if (count == 1)
        text_format(out, "The %scase %s.", faults ? "other " : "", holds == 1 ? "holds" : "is SHORT");
    else if (holds == count)
        text_format(out, faults ? "The %zu other cases hold." : "All %zu cases hold.", count);
    else
        text_format(out, "%zu of %s%zu %scases hold, %zu %s SHORT.", holds, faults ? "the " : "", count, faults ? "other " : "",
                    count - holds, count - holds == 1 ? "is" : "are");
}

static void say_count(text *out, const check_row *rows, size_t count, const screen *s)
{
    size_t holds = 0;
    text line = {0};
    for (size_t i = 0; i < count; i++) holds += rows[i].result.verdict == RBOW_HOLDS;
    put_count(&line, holds, count, s->faults);
    put_paragraph(out, &line, 2, holds == count ? TONE_GOOD : TONE_BAD, s);
    text_free(&line);
}

static void put_factors(text *out, const check_row *r)
{
    const double factor = deciding_factor(r);
    if (r->detail.governs) {
        put_detail_factors(out, r->governs, &r->detail, r->result.margin);
    } else if (isinf(factor)) {
        text_put(out, "no run load could make it yield or buckle.");
    } else if (!(factor > 0)) {
        text_put(out, "it yields or buckles with no run load at all; a load factor of ");
        put_required(out, asked_factor(r));
        text_put(out, " is required.");
    } else {
        text_put(out, "it yields or buckles at ");
        put_factor(out, factor);
        text_put(out, " times the run load; ");
        put_required(out, asked_factor(r));
        text_put(out, " is required: margin ");
        put_percent(out, r->result.margin);
        text_char(out, '.');
    }
}

static void say_case(text *out, const check_row *r, bool alone, const screen *s)
{
    text line = {0};
    text_put(&line, alone ? "Case " : "Worst: ");
    put_name(&line, r->given.name);
    text_put(&line, ": ");
    put_factors(&line, r);
    put_lines(out, &line, 2, s);
}

/* "at joint A", "27.4 in from A (length 60.0 in)" */
static void put_place(text *out, const check_row *r, unit_system units)
{
    const char *u = unit_name(DIM_LENGTH, units);
    const double at = shown(r->result.governs_at, DIM_LENGTH, units), all = shown(r->given.member.length, DIM_LENGTH, units);
    if (at <= 0)
        text_put(out, "at joint A");
    else if (at >= all)
        text_put(out, "at joint B");
    else
        text_format(out, "%.1f %s from A (length %.1f %s)", at, u, all, u);
    if (r->result.governs_in_weld_zone) text_put(out, ", in the weld zone");
}

static void say_where(text *out, const check_row *r, const screen *s)
{
    static const char *const reasons[] = {
        [RBOW_BY_COLUMN] = "column: the tube as a whole bows out",
        [RBOW_BY_YIELD] = "yield of the outer fibre",
        [RBOW_BY_INTERACTION] = "interaction: push and bending together",
    };
    if (r->result.governs == RBOW_BY_NONE && !r->detail.governs) return;
    const bool somewhere = !isnan(r->result.governs_at), buckles = r->result.governs == RBOW_BY_YIELD && !somewhere;
    text line = {0};
    if (r->detail.governs) put_detail_governs(&line, r->governs, &r->detail);
    else text_format(&line, "  What governs: %s", buckles ? "elastic buckling, which comes before any yield" : reasons[r->result.governs]);
    if (somewhere) {
        text_put(&line, ", ");
        put_place(&line, r, s->units);
    }
    text_char(&line, '.');
    put_lines(out, &line, 4, s);
}

/* ", 49 % of its yield": of the softer metal where there is a weld zone, for the stress may stand there or elsewhere. */
static void put_share_of_yield(text *out, const check_row *r)
{
    const rbow_material *m = r->material;
    const bool softer = r->taken.weld_zone > 0 && m->weld_yield < m->yield;
    text_format(out, ", %s%.0f %% of its yield.", softer ? "up to " : "",
                100 * r->result.fit_stress / (softer ? m->weld_yield : m->yield));
}

static void put_cost(text *out, const check_row *r)
{
    const double cost = fit_cost(r);
    if (isfinite(cost)) {
        text_format(out, " It %s %.1f points of margin: without it %s is ", cost < 0 ? "brings" : "costs", fabs(cost) + 0.0,
                    unforced_margin_words(r->detail.governs));
        put_percent(out, r->result.margin_unforced);
        text_char(out, '.');
    } else if (isinf(r->result.margin_unforced)) {
        text_put(out, " Without it no run load could make the tube yield or buckle.");
    }
}

static void say_fit(text *out, const check_row *r, const screen *s)
{
    if (!r->result.forced) return;
    text line = {0};
    text_put(&line, "  Forced fit:");
    if (isnan(r->result.fit_stress)) {
        text_put(&line, " before any load the squeeze alone buckles the tube.");
    } else {
        text_put(&line, " before any load the forced tube already carries ");
        put_quantity(&line, r->result.fit_stress, DIM_STRESS, s->units, ROUND_NEAREST);
        put_share_of_yield(&line, r);
    }
    put_cost(&line, r);
    put_lines(out, &line, 4, s);
}

static void put_taken_clock(text *out, const char *what, double clock, int *count)
{
    if (isnan(clock)) return;
    const double degrees = round(clock * 1800 / 3.14159265358979323846) / 10;
    text_format(out, "%s %s toward %g\u00b0", (*count)++ > 0 ? "," : "", what, degrees >= 360 ? 0 : degrees);
}

/* What the worst case takes of what is not known. */
static void say_taken(text *out, const check_row *r, const screen *s)
{
    static const char *const fit[] = {"", "part of the forced fit relaxed", "the forced fit relaxed"};
    const rbow_result *of = &r->result;
    text line = {0};
    int count = 0;
    text_put(&line, "  Taken at its worst:");
    if (of->joints_taken != RBOW_JOINTS_NONE) {
        text_format(&line, " welded joints %s", joints_words[of->joints_taken].word);
        count++;
    }
    if (r->given.member.bow_clock <= RBOW_ANY_CLOCK) put_taken_clock(&line, "bow", of->bow_clock_taken, &count);
    if (r->given.member.miss_a_clock <= RBOW_ANY_CLOCK) put_taken_clock(&line, "miss_a", of->miss_a_clock_taken, &count);
    if (r->given.member.miss_b_clock <= RBOW_ANY_CLOCK) put_taken_clock(&line, "miss_b", of->miss_b_clock_taken, &count);
    if (of->fit_taken != RBOW_FIT_AS_BUILT) text_format(&line, "%s %s", count++ > 0 ? "," : "", fit[of->fit_taken]);
    text_char(&line, '.');
    if (count > 0)
        put_lines(out, &line, 4, s);
    else
        text_free(&line);
}

/* A case that asks nothing of its tube holds; that must not pass for a check. */
static void say_idle(text *out, const check_row *rows, size_t count, const screen *s)
{
    size_t idle = 0;
    text line = {0};
    for (size_t i = 0; i < count; i++) idle += !rows[i].result.runs;
    if (idle == 0) return;
    text_format(&line, "%zu of the cases %s no run load at all: nothing was asked of the tube.", idle, idle == 1 ? "has" : "have");
    put_lines(out, &line, 2, s);
}

/* What would hold only because of what is locked in is short: that can relax. */
static void say_propped(text *out, const check_row *rows, size_t count, const screen *s)
{
    for (size_t i = 0; i < count; i++) {
        if (!holds_by_fit(&rows[i])) continue;
        text line = {0};
        text_put(&line, "Careful: ");
        put_name(&line, rows[i].given.name);
        text_put(&line, " would hold only by its forced fit (margin as built ");
        put_percent(&line, rows[i].result.margin_as_built);
        text_put(&line, "). What is locked in can relax, so it does not count as help.");
        put_lines(out, &line, 2, s);
    }
}

static void say_advice(text *out, const check_row *rows, size_t count, const advice *a, const screen *s)
{
    size_t shorts = 0;
    text line = {0};
    for (size_t i = 0; i < count; i++) shorts += rows[i].result.verdict == RBOW_SHORT;
    if (shorts == 0) return;
    text_put(&line, "  ");
    put_advice(&line, a, shorts - 1, s->units);
    put_lines(out, &line, 4, s);
}

void check_verdict_text(text *out, const check_row *rows, size_t count, const advice *a, const screen *s)
{
    put_refused(out, s);
    if (count == 0) return;
    const check_row *worst = check_worst(rows, count);
    say_count(out, rows, count, s);
    say_case(out, worst, count == 1, s);
    say_advice(out, rows, count, a, s);
    say_where(out, worst, s);
    say_taken(out, worst, s);
    say_fit(out, worst, s);
    say_idle(out, rows, count, s);
    say_propped(out, rows, count, s);
}

/* ---- remarks ---------------------------------------------------------------------------------------- */

static void say_remark(text *out, const remark_meaning *remark, const check_row *rows, size_t count, const screen *s)
{
    enum { NAMED = 4 };
    size_t found = 0;
    text line = {0}, names = {0};
    for (size_t i = 0; i < count; i++) {
        if ((rows[i].result.remarks & remark->bit) == 0) continue;
        if (found++ >= NAMED) continue;
        if (found > 1) text_put(&names, ", ");
        put_name(&names, rows[i].given.name);
    }
    if (found > NAMED) text_format(&names, " and %zu more", found - NAMED);
    text_format(&line, "  %s: %s (%s)", rbow_remark_text(remark->bit), remark->meaning,
                found == count && count > 1 ? "all" : text_string(&names, &out->failed));
    if (found > 0) put_paragraph(out, &line, 4, TONE_PLAIN, s);
    text_free(&line);
    text_free(&names);
}

/* No remark of the table says this, so the text does. */
static void say_squeezed(text *out, const check_row *rows, size_t count, const screen *s)
{
    for (size_t i = 0; i < count; i++) {
        if (!isnan(rows[i].result.fit_stress)) continue;
        text line = {0};
        text_put(&line, "  squeezed: the locked-in squeeze alone is at or above the critical load: the tube bows out "
                        "where it stands (");
        put_name(&line, rows[i].given.name);
        text_char(&line, ')');
        put_lines(out, &line, 4, s);
    }
}

void check_remarks_text(text *out, const check_row *rows, size_t count, const screen *s)
{
    bool any = false;
    for (size_t i = 0; i < count && !any; i++) any = rows[i].result.remarks != 0 || isnan(rows[i].result.fit_stress);
    if (!any) return;
    text_put(out, "\nRemarks:\n");
    for (size_t i = 0; i < RBOW_REMARK_COUNT; i++) say_remark(out, &remark_list[i], rows, count, s);
    say_squeezed(out, rows, count, s);
}

void check_text(text *out, const check_row *rows, size_t count, const detail_answer *details, size_t detail_count, bool every, const advice *a,
                const screen *s)
{
    check_verdict_text(out, rows, count, a, s);
    if (count > 0) check_table_text(out, rows, count, s);
    details_text(out, details, detail_count, every, s);
    check_remarks_text(out, rows, count, s);
    put_assumptions(out, s);
    put_end(out, s);
}
