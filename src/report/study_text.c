#include "report/study_text.h"

#include "report/grid.h"
#include "report/list_text.h"

#include <math.h>
#include <string.h>

enum { NAME_MOST = 40 };

static void add_name(grid *g, const char *name)
{
    text t = {0};
    shorten(&t, name, NAME_MOST);
    grid_cell(g, TONE_PLAIN, t.at != NULL ? t.at : "");
    text_free(&t);
}

static grid_tone tone_of(double margin)
{
    return margin >= 0 ? TONE_GOOD : TONE_BAD;
}

static void add_percent(grid *g, double share)
{
    text t = {0};
    put_percent(&t, share);
    grid_cell(g, tone_of(share), t.at != NULL ? t.at : "");
    text_free(&t);
}

static const char *unit_name(dimension d, unit_system units)
{
    const unit *u = unit_shown(d, units);
    return u != NULL ? u->name : "";
}

static double shown(double value, dimension d, unit_system units)
{
    const unit *u = unit_shown(d, units);
    return u != NULL ? unit_from_own(u, value) : value;
}

static void finish(text *out, bool faults)
{
    if (faults) text_put(out, "\nSome rows could not be answered and are not in this: see the messages.\n");
    text_char(out, '\n');
    wrap(out, caution, 0);
}

/* ---- compare ----------------------------------------------------------------------------------------- */

typedef struct tube_sum { /* one tube over all cases */
    size_t holds, cases, impossible;
    double weight, change, worst;
    const char *worst_case;
    const compare_row *first;
} tube_sum;

static tube_sum sum_of(const compare_row *rows, size_t count, size_t tube)
{
    const size_t tubes = rows[0].tubes;
    tube_sum s = {.worst = INFINITY, .worst_case = "", .first = &rows[tube]};
    for (size_t i = tube; i < count; i += tubes) {
        const compare_row *r = &rows[i];
        s.cases++;
        s.holds += r->outcome == COMPARE_HOLDS;
        s.impossible += r->outcome == COMPARE_NOT_POSSIBLE;
        s.weight += r->weight;
        s.change += r->weight_change;
        if (r->margin < s.worst || (*s.worst_case == '\0' && !isnan(r->margin))) {
            s.worst = r->margin;
            s.worst_case = r->name;
        }
    }
    return s;
}

static void put_tube(text *out, const compare_row *r, bool own_od, unit_system units)
{
    if (!own_od) text_format(out, "%.5g x ", shown(r->od, DIM_LENGTH, units));
    text_format(out, units == UNITS_SI ? "%.3g" : "%.4g", shown(r->wall, DIM_LENGTH, units));
}

static void say_pick(text *out, const compare_row *rows, size_t count, bool own_od, unit_system units, bool colour)
{
    const size_t tubes = rows[0].tubes;
    size_t best = tubes, most = 0;
    tube_sum pick = {0}, nearest = {0};
    for (size_t t = 0; t < tubes; t++) {
        const tube_sum s = sum_of(rows, count, t);
        if (s.holds == s.cases && (best == tubes || s.weight < pick.weight)) best = t, pick = s;
        if (t == 0 || s.holds > most) nearest = s, most = s.holds;
    }
    text line = {0};
    const tube_sum *s = best < tubes ? &pick : &nearest;
    text_put(out, tone_on(best < tubes ? TONE_GOOD : TONE_BAD, colour));
    text_put(&line, best < tubes ? "For the whole frame: " : "No one tube holds in every case. Nearest: ");
    text_put(&line, own_od ? "wall " : "");
    put_tube(&line, s->first, own_od, units);
    text_format(&line, " %s", unit_name(DIM_LENGTH, units));
    if (best < tubes)
        text_format(&line, " is the lightest that holds in all %zu case%s: %.2f %s in all (%+.2f %s), worst margin ", s->cases,
                    s->cases == 1 ? "" : "s", shown(s->weight, DIM_MASS, units), unit_name(DIM_MASS, units),
                    shown(s->change, DIM_MASS, units), unit_name(DIM_MASS, units));
    else
        text_format(&line, " holds in %zu of %zu, worst margin ", s->holds, s->cases);
    put_percent(&line, s->worst);
    text_format(&line, " in '%s'.", s->worst_case);
    wrap(out, line.at, 2);
    text_put(out, tone_off(colour));
    text_free(&line);
}

static void say_tubes(text *out, const compare_row *rows, size_t count, bool own_od, unit_system units, bool colour)
{
    grid g = {0};
    text head = {0}, weight = {0};
    text_format(&head, "%s, %s", own_od ? "wall" : "tube", unit_name(DIM_LENGTH, units));
    text_format(&weight, "weight, %s", unit_name(DIM_MASS, units));
    grid_column(&g, head.at, GRID_LEFT);
    grid_column(&g, "holds", GRID_RIGHT);
    grid_column(&g, "worst margin", GRID_RIGHT);
    grid_column(&g, "in case", GRID_LEFT);
    grid_column(&g, weight.at, GRID_RIGHT);
    grid_column(&g, "change", GRID_RIGHT);
    for (size_t t = 0; t < rows[0].tubes; t++) {
        const tube_sum s = sum_of(rows, count, t);
        text tube = {0};
        put_tube(&tube, s.first, own_od, units);
        grid_cell(&g, TONE_PLAIN, tube.at);
        text_free(&tube);
        if (s.impossible == s.cases) {
            grid_cell(&g, TONE_BAD, "not possible");
            for (int i = 0; i < 4; i++) grid_cell(&g, TONE_PLAIN, i == 1 ? strchr(s.first->verdict, ':') + 2 : "-");
            continue;
        }
        grid_format(&g, s.holds == s.cases ? TONE_GOOD : TONE_BAD, "%zu of %zu", s.holds, s.cases);
        add_percent(&g, s.worst);
        add_name(&g, s.worst_case);
        grid_format(&g, TONE_PLAIN, "%.2f", shown(s.weight, DIM_MASS, units));
        grid_format(&g, TONE_PLAIN, "%+.2f", shown(s.change, DIM_MASS, units));
    }
    grid_write(out, &g, colour);
    grid_free(&g);
    text_free(&head);
    text_free(&weight);
}

/* Case by case: a line a case, a column a tube, as many tubes as fit. */
static void say_block(text *out, const compare_row *rows, size_t count, size_t first, size_t tubes, bool own_od,
                      unit_system units, bool colour)
{
    grid g = {0};
    text heads[GRID_COLUMNS_MOST] = {{0}};
    const size_t all = rows[0].tubes;
    grid_column(&g, "margin", GRID_LEFT);
    for (size_t t = 0; t < tubes; t++) {
        put_tube(&heads[t], &rows[first + t], own_od, units);
        text_put(&heads[t], " "); /* room for the pick's mark */
        grid_column(&g, heads[t].at, GRID_RIGHT);
    }
    for (size_t i = 0; i < count; i += all) {
        add_name(&g, rows[i].name);
        for (size_t t = 0; t < tubes; t++) {
            const compare_row *r = &rows[i + first + t];
            text cell = {0};
            if (r->outcome == COMPARE_NOT_POSSIBLE)
                text_put(&cell, "no");
            else
                put_percent(&cell, r->margin);
            text_put(&cell, *r->pick != '\0' ? "*" : " ");
            grid_cell(&g, r->outcome == COMPARE_HOLDS ? TONE_GOOD : TONE_BAD, cell.at);
            text_free(&cell);
        }
    }
    grid_write(out, &g, colour);
    grid_free(&g);
    for (size_t t = 0; t < GRID_COLUMNS_MOST; t++) text_free(&heads[t]);
}

static void say_impossible(text *out, const compare_row *rows, size_t count, bool own_od, unit_system units)
{
    for (size_t t = 0; t < rows[0].tubes; t++)
        for (size_t i = t; i < count; i += rows[0].tubes) {
            if (rows[i].outcome != COMPARE_NOT_POSSIBLE) continue;
            text line = {0};
            put_tube(&line, &rows[i], own_od, units);
            text_format(&line, " %s is %s ('%s')", unit_name(DIM_LENGTH, units), rows[i].verdict, rows[i].name);
            wrap(out, line.at, 4);
            text_free(&line);
            break;
        }
}

void compare_text(text *out, const compare_row *rows, size_t count, bool own_od, bool faults, unit_system units, bool colour)
{
    enum { BLOCK = 6 };
    if (count > 0) {
        const size_t tubes = rows[0].tubes;
        say_pick(out, rows, count, own_od, units, colour);
        text_char(out, '\n');
        say_tubes(out, rows, count, own_od, units, colour);
        for (size_t first = 0; first < tubes; first += BLOCK) {
            text_char(out, '\n');
            say_block(out, rows, count, first, tubes - first < BLOCK ? tubes - first : BLOCK, own_od, units, colour);
        }
        text_put(out, "* the lightest that holds this case; a minus is short; no: not possible\n");
        say_impossible(out, rows, count, own_od, units);
    }
    finish(out, faults);
}

/* ---- sweep ------------------------------------------------------------------------------------------- */

enum { BAR = 24 };

/* A bar of the margin between the least and the largest of its case: '-' below zero, '+' above it, '|' at it. */
static void add_bar(grid *g, double margin, double least, double most)
{
    char bar[BAR + 1];
    const double span = most > least ? most - least : 1;
    const double zero = fmin(1, fmax(0, -least / span)), here = fmin(1, fmax(0, (fmin(margin, most) - least) / span));
    const int zero_at = (int)lround(zero * (BAR - 1)), here_at = (int)lround(here * (BAR - 1));
    for (int i = 0; i < BAR; i++) {
        const bool filled = margin < 0 ? i >= here_at && i < zero_at : i > zero_at && i <= here_at;
        bar[i] = i == zero_at ? '|' : filled ? (margin < 0 ? '-' : '+') : ' ';
    }
    bar[BAR] = '\0';
    grid_cell(g, tone_of(margin), bar);
}

static void value_heads(grid *g, text heads[], const field *const varied[], size_t columns, unit_system units)
{
    for (size_t i = 0; i < columns; i++) {
        text_put(&heads[i], varied[i]->name);
        if (varied[i]->dimension != DIM_NONE) text_format(&heads[i], ", %s", unit_name(varied[i]->dimension, units));
        grid_column(g, heads[i].at, GRID_RIGHT);
    }
}

static void sweep_case(text *out, const sweep_row *rows, size_t count, const field *const varied[], size_t columns,
                       unit_system units, bool colour)
{
    grid g = {0};
    text heads[SWEEP_COLUMNS_MOST] = {{0}};
    double least = 0, most = 0;
    for (size_t i = 0; i < count; i++) {
        if (isfinite(rows[i].margin)) least = fmin(least, rows[i].margin), most = fmax(most, rows[i].margin);
    }
    value_heads(&g, heads, varied, columns, units);
    grid_column(&g, "margin", GRID_RIGHT);
    grid_column(&g, "short | holds", GRID_LEFT);
    grid_column(&g, "governs", GRID_LEFT);
    grid_column(&g, "verdict", GRID_LEFT);
    for (size_t i = 0; i < count; i++) {
        const sweep_row *r = &rows[i];
        const bool changed = i > 0 && rows[i - 1].verdict != r->verdict;
        for (size_t k = 0; k < columns; k++) grid_format(&g, TONE_PLAIN, "%.6g", shown(r->value[k], varied[k]->dimension, units));
        add_percent(&g, r->margin);
        add_bar(&g, r->margin, least, most);
        grid_cell(&g, TONE_PLAIN, governs_words[r->governs].word);
        grid_format(&g, tone_of(r->margin), "%s%s", r->verdict == VERDICT_HOLDS ? "holds" : "SHORT", changed ? "  <- changes here" : "");
    }
    grid_write(out, &g, colour);
    grid_free(&g);
    for (size_t i = 0; i < SWEEP_COLUMNS_MOST; i++) text_free(&heads[i]);
}

static void sweep_summary(text *out, const sweep_row *rows, size_t count)
{
    size_t holds = 0;
    const sweep_row *worst = rows;
    for (size_t i = 0; i < count; i++) {
        holds += rows[i].verdict == VERDICT_HOLDS;
        if (rows[i].margin < worst->margin) worst = &rows[i];
    }
    text line = {0};
    text_format(&line, "'%s': %s; worst margin ", rows->name,
                holds == count ? "holds throughout" : holds == 0 ? "SHORT throughout" : "holds for some of the values");
    put_percent(&line, worst->margin);
    text_char(&line, '.');
    wrap(out, line.at, 2);
    text_free(&line);
}

/* Rows of one case stand together; cases of the same name next to each other are told apart by their values
 * beginning again. */
static size_t case_length(const sweep_row *rows, size_t count)
{
    size_t n = 1;
    while (n < count && strcmp(rows[n].name, rows[0].name) == 0
           && !(fabs(rows[n].value[0] - rows[0].value[0]) <= 0 && !(fabs(rows[n].value[1] - rows[0].value[1]) > 0)))
        n++;
    return n;
}

void sweep_text(text *out, const sweep_row *rows, size_t count, const field *const varied[], size_t columns, bool faults,
                unit_system units, bool colour)
{
    for (size_t i = 0; i < count;) {
        const size_t n = case_length(&rows[i], count - i);
        if (i > 0) text_char(out, '\n');
        sweep_summary(out, &rows[i], n);
        text_char(out, '\n');
        sweep_case(out, &rows[i], n, varied, columns, units, colour);
        i += n;
    }
    finish(out, faults);
}

/* ---- limit ------------------------------------------------------------------------------------------- */

static void add_value(grid *g, double value, const field *column, unit_system units)
{
    text t = {0};
    if (isinf(value))
        text_put(&t, "none");
    else
        put_number(&t, shown(value, column->dimension, units), 5);
    grid_cell(g, TONE_PLAIN, t.at != NULL ? t.at : "");
    text_free(&t);
}

static bool is_past(const limit_row *r)
{
    return r->state == LIMIT_ROW_ALREADY || (r->state == LIMIT_ROW_FOUND && r->room < 0);
}

void limit_text(text *out, const limit_row *rows, size_t count, const field *column, double target, bool faults,
                unit_system units, bool colour)
{
    static const char *const states[] = {
        [LIMIT_ROW_FOUND] = "falls short beyond it",
        [LIMIT_ROW_NEVER] = "holds to the end",
        [LIMIT_ROW_ALREADY] = "SHORT from the start",
    };
    grid g = {0};
    text head = {0};
    size_t past = 0;
    for (size_t i = 0; i < count; i++) past += is_past(&rows[i]);
    text_put(out, tone_on(past == 0 ? TONE_GOOD : TONE_BAD, colour));
    if (past == 0)
        text_format(out, "Every case is inside its limit of %s", column->name);
    else
        text_format(out, "%zu of %zu cases %s past the limit of %s", past, count, past == 1 ? "is" : "are", column->name);
    text_format(out, " (margin %+.1f %%).\n\n", 100 * target);
    text_put(out, tone_off(colour));

    text_format(&head, "%s%s%s", column->name, column->dimension != DIM_NONE ? ", " : "", unit_name(column->dimension, units));
    grid_column(&g, "case", GRID_LEFT);
    grid_column(&g, "now", GRID_RIGHT);
    grid_column(&g, "limit", GRID_RIGHT);
    grid_column(&g, "room", GRID_RIGHT);
    grid_column(&g, head.at, GRID_LEFT);
    for (size_t i = 0; i < count; i++) {
        const limit_row *r = &rows[i];
        add_name(&g, r->name);
        add_value(&g, r->now, column, units);
        add_value(&g, r->limit, column, units);
        add_value(&g, r->room, column, units);
        grid_format(&g, is_past(r) ? TONE_BAD : TONE_GOOD, "%s%s", states[r->state],
                    r->state == LIMIT_ROW_FOUND && r->room < 0 ? "; now PAST it" : "");
    }
    if (count > 0) grid_write(out, &g, colour);
    grid_free(&g);
    text_free(&head);
    finish(out, faults);
}

/* ---- index ------------------------------------------------------------------------------------------- */

void index_text(text *out, const index_row *rows, size_t count, bool faults, bool colour)
{
    const double degree = 3.14159265358979323846 / 180, worth = 0.01;
    grid g = {0};
    grid_column(&g, "case", GRID_LEFT);
    grid_column(&g, "now at", GRID_RIGHT);
    grid_column(&g, "margin", GRID_RIGHT);
    grid_column(&g, "best at", GRID_RIGHT);
    grid_column(&g, "margin", GRID_RIGHT);
    grid_column(&g, "worst at", GRID_RIGHT);
    grid_column(&g, "margin", GRID_RIGHT);
    grid_column(&g, "turning wins", GRID_LEFT);
    for (size_t i = 0; i < count; i++) {
        const index_row *r = &rows[i];
        const double win = r->best_margin - r->margin_as_marked;
        add_name(&g, r->name);
        grid_format(&g, TONE_PLAIN, "%.1f", r->marked_clock / degree);
        add_percent(&g, r->margin_as_marked);
        grid_format(&g, TONE_PLAIN, "%.1f", r->best_clock / degree);
        add_percent(&g, r->best_margin);
        grid_format(&g, TONE_PLAIN, "%.1f", r->worst_clock / degree);
        add_percent(&g, r->worst_margin);
        if (!(r->bow > 0))
            grid_cell(&g, TONE_QUIET, "no bow");
        else if (!(win >= worth))
            grid_cell(&g, TONE_PLAIN, "too little");
        else
            grid_format(&g, TONE_PLAIN, "+%.1f pt", 100 * win);
    }
    text_put(out, "Turning the tube's own bow, in degrees of the clock seen from A: 0 up, 90 right.\n\n");
    if (count > 0) grid_write(out, &g, colour);
    grid_free(&g);
    finish(out, faults);
}

/* ---- scatter ----------------------------------------------------------------------------------------- */

static void put_share(text *out, double share)
{
    if (share > 0 && share < 0.0001)
        text_put(out, "under 0.01 %");
    else
        text_format(out, "%.2f %%", 100 * share);
}

static void say_share(text *out, const scatter_row *r, bool colour)
{
    text line = {0};
    shorten(&line, r->name, 60);
    if (isnan(r->short_share)) {
        text_put(&line, ": no sample lies inside the model");
    } else {
        text_put(&line, ": ");
        put_share(&line, r->short_share);
        text_format(&line, " of %.0f samples SHORT (95 %% sure: between ", r->samples - r->refused);
        put_share(&line, r->short_low);
        text_put(&line, " and ");
        put_share(&line, r->short_high);
        text_put(&line, "). As given the margin is ");
        put_percent(&line, r->nominal);
    }
    text_char(&line, '.');
    text_put(out, tone_on(r->short_share > 0 ? TONE_BAD : TONE_GOOD, colour));
    wrap(out, line.at, 2);
    text_put(out, tone_off(colour));
    text_free(&line);
}

static void say_margins(text *out, const scatter_row *r)
{
    if (!isnan(r->margin_mean))
        text_format(out, "  margin in %%: mean %+.1f, deviation %.1f, lowest 1 %% under %+.1f, 5 %% under %+.1f, median %+.1f\n",
                    100 * r->margin_mean, 100 * r->margin_sd, 100 * r->margin_p01, 100 * r->margin_p05,
                    100 * r->margin_p50);
    if (r->refused > 0) text_format(out, "  outside the model and not judged: %.0f\n", r->refused);
    if (r->infinite > 0) text_format(out, "  without any limit, and in no mean: %.0f\n", r->infinite);
    if (r->unstable > 0) text_format(out, "  unstable as loaded, counted as short: %.0f\n", r->unstable);
}

static void say_bars(text *out, const scatter_row *r)
{
    enum { WIDTH = 56 };
    double most = 0;
    for (int i = 0; i < SCATTER_BARS; i++) most = fmax(most, r->bars[i]);
    if (!(most > 0 && r->high > r->low)) return;
    const double width = (r->high - r->low) / SCATTER_BARS;
    text_char(out, '\n');
    for (int i = 0; i < SCATTER_BARS; i++) {
        const double from = r->low + i * width;
        const int length = (int)lround(r->bars[i] / most * WIDTH);
        text_format(out, "  from %+7.1f %%  ", 100 * from);
        for (int k = 0; k < length; k++) text_char(out, from + width / 2 < 0 ? '-' : '+');
        text_format(out, "%s%.0f\n", length > 0 ? " " : "", r->bars[i]);
    }
}

void scatter_text(text *out, const scatter_row *rows, size_t count, unsigned seed, bool faults, bool colour)
{
    for (size_t i = 0; i < count; i++) {
        const scatter_row *r = &rows[i];
        if (r->rank == 0) {
            if (i > 0) text_char(out, '\n');
            say_share(out, r, colour);
            say_margins(out, r);
        }
        if (*r->driver != '\0')
            text_format(out, "  %s %s: %.0f %% of the spread\n", r->rank == 0 ? "driven by" : "         ", r->driver,
                        100 * r->driver_share);
        const bool last = i + 1 == count || rows[i + 1].rank == 0;
        if (last) say_bars(out, r);
    }
    text_format(out, "\nSeed %u. Bars: how many samples have a margin from there on; '-' is short.\n", seed);
    finish(out, faults);
}
