#include "report/text/check_text.h"

#include "cases/case_words.h"
#include "cases/remark_list.h"
#include "report/caution.h"
#include "report/lines.h"
#include "report/text/grid.h"
#include "report/values.h"

#include <math.h>

enum { NAME_MOST = 40 };

/* ---- the verdict in words --------------------------------------------------------------------------- */

static const check_row *worst_of(const check_row *rows, size_t count)
{
    const check_row *worst = rows;
    for (size_t i = 1; i < count; i++)
        if (rows[i].result.margin < worst->result.margin) worst = &rows[i];
    return worst;
}

static void say_count(text *out, size_t holds, size_t count, bool colour)
{
    const bool all = holds == count;
    text_put(out, tone_on(all ? TONE_GOOD : TONE_BAD, colour));
    if (count == 1)
        text_put(out, all ? "The case holds." : "The case is SHORT.");
    else if (all)
        text_format(out, "All %zu cases hold.", count);
    else
        text_format(out, "%zu of %zu cases hold, %zu %s SHORT.", holds, count, count - holds,
                    count - holds == 1 ? "is" : "are");
    text_put(out, tone_off(colour));
    text_char(out, '\n');
}

static void say_limit(text *out, const check_row *r)
{
    const double limit = deciding_factor(r), asked = asked_factor(r);
    if (isinf(limit)) {
        text_put(out, "no run load that could bring it to a limit.");
    } else if (!(limit > 0)) {
        text_put(out, "it is at its limit with no run load at all; a load factor of ");
        put_factor(out, asked);
        text_put(out, " is asked.");
    } else {
        text_put(out, "it reaches its limit at ");
        put_factor(out, limit);
        text_put(out, " times the run load; ");
        put_factor(out, asked);
        text_put(out, " is asked: margin ");
        put_percent(out, r->result.margin);
        text_char(out, '.');
    }
}

/* "at joint A", "27.4 in from A (length 60.0 in)" */
static void put_place(text *out, const check_row *r, unit_system units)
{
    const char *unit_shown_as = unit_name(DIM_LENGTH, units);
    const double at = shown(r->result.governs_at, DIM_LENGTH, units), all = shown(r->given.member.length, DIM_LENGTH, units);
    if (at <= 0)
        text_put(out, "at joint A");
    else if (at >= all)
        text_put(out, "at joint B");
    else
        text_format(out, "%.1f %s from A (length %.1f %s)", at, unit_shown_as, all, unit_shown_as);
    if (r->result.governs_in_weld_zone) text_put(out, ", in the weld zone");
}

static void say_where(text *out, const check_row *r, unit_system units)
{
    static const char *const reasons[] = {
        [RBOW_BY_COLUMN] = "the column load: the tube as a whole bows out",
        [RBOW_BY_YIELD] = "yield of the outer fibre",
        [RBOW_BY_INTERACTION] = "push and bending together",
    };
    if (r->result.governs == RBOW_BY_NONE) return;
    const bool somewhere = !isnan(r->result.governs_at), buckles = r->result.governs == RBOW_BY_YIELD && !somewhere;
    text line = {0};
    text_format(&line, "  What governs: %s",
                buckles ? "elastic buckling, which comes before any yield" : reasons[r->result.governs]);
    if (somewhere) {
        text_put(&line, ", ");
        put_place(&line, r, units);
    }
    text_char(&line, '.');
    wrap(out, text_string(&line, &out->failed), 4);
    text_free(&line);
}

static void say_fit(text *out, const check_row *r, unit_system units)
{
    if (!r->result.forced) return;
    const double cost = 100 * (r->result.margin_unforced - r->result.margin);
    text line = {0};
    if (isfinite(cost)) {
        text_format(&line, "  Forced fit: it %s %.1f points of margin; without it the margin is ",
                    cost < 0 ? "brings" : "costs", fabs(cost));
        put_percent(&line, r->result.margin_unforced);
    } else {
        text_put(&line, isinf(r->result.margin_unforced) ? "  Forced fit: without it there is no limit" : "  Forced fit");
    }
    if (!isnan(r->result.fit_stress))
        text_format(&line, " (it alone: %.0f %s)", shown(r->result.fit_stress, DIM_STRESS, units), unit_name(DIM_STRESS, units));
    text_char(&line, '.');
    wrap(out, text_string(&line, &out->failed), 4);
    text_free(&line);
}

/* A case that asks nothing of its tube holds; that must not pass for a check. */
static void say_idle(text *out, const check_row *rows, size_t count)
{
    size_t idle = 0;
    for (size_t i = 0; i < count; i++) idle += !rows[i].result.runs;
    if (idle == 0) return;
    text_format(out, "%zu of the cases %s no run load at all: nothing was asked of the tube.\n", idle, idle == 1 ? "has" : "have");
}

/* What holds only because of what is locked in may stop to hold when that relaxes. */
static void say_propped(text *out, const check_row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!holds_by_fit(&rows[i])) continue;
        text line = {0};
        text_put(&line, "Careful: '");
        shorten(&line, rows[i].given.name, NAME_MOST);
        text_put(&line, "' holds only by its forced fit; without it the margin is ");
        put_percent(&line, rows[i].result.margin_unforced);
        text_put(&line, ". What is locked in can relax.");
        wrap(out, text_string(&line, &out->failed), 2);
        text_free(&line);
    }
}

void check_verdict_text(text *out, const check_row *rows, size_t count, bool faults, unit_system units, bool colour)
{
    size_t holds = 0;
    for (size_t i = 0; i < count; i++) holds += rows[i].result.verdict == RBOW_HOLDS;
    if (count > 0) {
        const check_row *worst = worst_of(rows, count);
        say_count(out, holds, count, colour);
        text line = {0};
        text_put(&line, count == 1 ? "Case '" : "Worst: '");
        shorten(&line, worst->given.name, 60);
        text_put(&line, "': ");
        say_limit(&line, worst);
        wrap(out, text_string(&line, &out->failed), 2);
        text_free(&line);
        say_where(out, worst, units);
        say_fit(out, worst, units);
    }
    say_idle(out, rows, count);
    say_propped(out, rows, count);
    if (faults) text_put(out, "Some rows could not be checked and are not in this answer: see the messages.\n");
}

/* ---- the table -------------------------------------------------------------------------------------- */

static void add(grid *g, grid_tone tone, text *cell)
{
    grid_cell(g, tone, text_string(cell, &g->cells.failed));
    text_free(cell);
}

static void add_row(grid *g, const check_row *r, bool show_asked, unit_system units)
{
    const bool holds = r->result.verdict == RBOW_HOLDS;
    const grid_tone tone = holds ? TONE_GOOD : TONE_BAD;
    text name = {0}, margin = {0}, limit = {0}, asked = {0};
    shorten(&name, r->given.name, NAME_MOST);
    put_percent(&margin, r->result.margin);
    put_factor(&limit, deciding_factor(r));
    put_factor(&asked, asked_factor(r));
    add(g, TONE_PLAIN, &name);
    grid_format(g, TONE_PLAIN, units == UNITS_SI ? "%.5g x %.3g" : "%.5g x %.4g", shown(r->given.member.od, DIM_LENGTH, units),
                shown(r->given.member.wall, DIM_LENGTH, units));
    grid_cell(g, tone, holds ? "holds" : "SHORT");
    add(g, tone, &margin);
    grid_cell(g, TONE_PLAIN, governs_words[r->result.governs].word);
    if (isnan(r->result.governs_at))
        grid_cell(g, TONE_PLAIN, "-");
    else
        grid_format(g, TONE_PLAIN, "%.1f%s", shown(r->result.governs_at, DIM_LENGTH, units), r->result.governs_in_weld_zone ? "w" : " ");
    add(g, TONE_PLAIN, &limit);
    if (show_asked) add(g, TONE_PLAIN, &asked);
    text_free(&asked);
    const double cost = 100 * (r->result.margin_unforced - r->result.margin);
    if (!r->result.forced)
        grid_cell(g, TONE_PLAIN, "-");
    else if (isfinite(cost) && fabs(cost) < 1000)
        grid_format(g, TONE_PLAIN, "%.1f pt", cost);
    else
        grid_cell(g, TONE_PLAIN, isnan(cost) ? "-" : cost > 0 ? "over 999" : "wins all");
}

/* The factor asked for, where it is the same in every row and for every check; else 0. */
static double common_factor(const check_row *rows, size_t count)
{
    const double common = rows[0].given.member.factor;
    for (size_t i = 0; i < count; i++)
        if (fabs(rows[i].given.member.factor - common) > 0 || fabs(asked_of_yield(&rows[i]) - common) > 0) return 0;
    return common;
}

static void say_table(text *out, const check_row *rows, size_t count, unit_system units, bool colour)
{
    const bool show_asked = !(common_factor(rows, count) > 0);
    grid g = {0};
    text tube = {0}, at = {0};
    text_format(&tube, "tube, %s", unit_name(DIM_LENGTH, units));
    text_format(&at, "at, %s", unit_name(DIM_LENGTH, units));
    grid_column(&g, "case", GRID_LEFT);
    grid_column(&g, text_string(&tube, &out->failed), GRID_LEFT);
    grid_column(&g, "verdict", GRID_LEFT);
    grid_column(&g, "margin", GRID_RIGHT);
    grid_column(&g, "governs", GRID_LEFT);
    grid_column(&g, text_string(&at, &out->failed), GRID_RIGHT);
    grid_column(&g, "limit", GRID_RIGHT);
    if (show_asked) grid_column(&g, "asked", GRID_RIGHT);
    grid_column(&g, "fit costs", GRID_RIGHT);
    for (size_t i = 0; i < count; i++) add_row(&g, &rows[i], show_asked, units);
    grid_write(out, &g, colour);
    grid_free(&g);
    text_free(&tube);
    text_free(&at);
}

static void say_key(text *out, double asked)
{
    text line = {0};
    text_put(&line, "limit: the run load times this reaches the limit. margin = limit/asked - 1");
    if (asked > 0) {
        text_put(&line, "; asked of every case: ");
        put_factor(&line, asked);
    }
    text_put(&line, ". at: where, from joint A (w: in a weld zone). fit costs: points of margin that misses and gap take.");
    wrap(out, text_string(&line, &out->failed), 0);
    text_free(&line);
}

/* ---- remarks ---------------------------------------------------------------------------------------- */

static void say_remark(text *out, size_t which, const check_row *rows, size_t count)
{
    const remark_meaning *remark = &remark_list[which];
    size_t found = 0;
    text line = {0}, names = {0};
    for (size_t i = 0; i < count; i++) {
        if ((rows[i].result.remarks & remark->bit) == 0) continue;
        if (found < 4) {
            if (found > 0) text_put(&names, ", ");
            shorten(&names, rows[i].given.name, NAME_MOST);
        }
        found++;
    }
    if (found == 0) return;
    if (found > 4) text_format(&names, " and %zu more", found - 4);
    text_format(&line, "  %s: %s (%s)", rbow_remark_text(remark->bit), remark->meaning,
                found == count && count > 1 ? "all" : text_string(&names, &out->failed));
    wrap(out, text_string(&line, &out->failed), 4);
    text_free(&line);
    text_free(&names);
}

/* No remark of the table says this, so the text does. */
static void say_squeezed(text *out, const check_row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!isnan(rows[i].result.fit_stress)) continue;
        text line = {0};
        text_put(&line, "  squeezed: the locked-in squeeze alone is at or above the critical load: the tube bows out "
                        "where it stands (");
        shorten(&line, rows[i].given.name, NAME_MOST);
        text_char(&line, ')');
        wrap(out, text_string(&line, &out->failed), 4);
        text_free(&line);
    }
}

void check_remarks_text(text *out, const check_row *rows, size_t count)
{
    bool any = false;
    for (size_t i = 0; i < count && !any; i++) any = rows[i].result.remarks != 0 || isnan(rows[i].result.fit_stress);
    if (!any) return;
    text_put(out, "\nWorth a word:\n");
    for (size_t i = 0; i < RBOW_REMARK_COUNT; i++) say_remark(out, i, rows, count);
    say_squeezed(out, rows, count);
}

void check_text(text *out, const check_row *rows, size_t count, bool faults, unit_system units, bool colour)
{
    check_verdict_text(out, rows, count, faults, units, colour);
    if (count > 0) {
        text_char(out, '\n');
        say_table(out, rows, count, units, colour);
        say_key(out, common_factor(rows, count));
        check_remarks_text(out, rows, count);
    }
    text_char(out, '\n');
    wrap(out, caution, 0);
}
