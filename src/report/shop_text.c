#include "report/shop_text.h"

#include "report/grid.h"
#include "report/list_text.h"
#include "table/number.h"

#include <math.h>

static const double degree = 3.14159265358979323846 / 180;

static void put_measure(text *out, double value, dimension d, unit_system units)
{
    const unit *u = unit_shown(d, units);
    const double number = unit_from_own(u, value);
    if (fabs(number) >= 1000)
        text_format(out, "%.0f", number);
    else
        put_number(out, number, 4);
    text_format(out, " %s", u->name);
}

static void put_clock(text *out, double clock)
{
    if (!isnan(clock)) text_format(out, " toward clock %.0f", clock / degree);
}

static void flush(text *out, text *line, size_t indent)
{
    if (line->at != NULL) wrap(out, line->at, indent);
    text_free(line);
}

static void put_name(text *line, const char *name)
{
    text_char(line, '\'');
    shorten(line, name, 60);
    text_put(line, "': ");
}

static void finish(text *out, bool faults)
{
    if (faults) text_put(out, "\nSome rows could not be answered and are not in this: see the messages.\n");
    text_char(out, '\n');
    wrap(out, caution, 0);
}

/* ---- release ----------------------------------------------------------------------------------------- */

static void say_locked(text *out, const release_row *r, unit_system units)
{
    text line = {0};
    put_name(&line, r->name);
    put_measure(&line, r->fit_stress, DIM_STRESS, units);
    text_format(&line, " was locked in, %.0f %% of yield: ", 100 * r->yield_use);
    put_measure(&line, fabs(r->fit_axial), DIM_FORCE, units);
    text_put(&line, r->fit_axial > 0 ? " of push" : r->fit_axial < 0 ? " of pull" : " along the tube");
    text_put(&line, ", bending ");
    put_measure(&line, r->moment_a, DIM_MOMENT, units);
    text_put(&line, " at joint A and ");
    put_measure(&line, r->moment_b, DIM_MOMENT, units);
    text_put(&line, " at joint B; sideways force at the cut ");
    put_measure(&line, r->shear, DIM_FORCE, units);
    put_clock(&line, r->shear_clock);
    text_char(&line, '.');
    flush(out, &line, 2);
}

static void say_basis(text *out, const release_row *r)
{
    if (r->basis == BASIS_LEAST_ENERGY)
        wrap(out, "  The angle between the stubs was not read: this is the LEAST that explains the movement; more may "
                  "have been locked in. Read the angle too.", 2);
    if (r->yield_use > 1)
        wrap(out, "  That is MORE THAN YIELD: this answer is elastic, so the tube took a set, or a reading is wrong.", 2);
}

static void say_new_rail(text *out, const release_row *r, unit_system units)
{
    text line = {0};
    text_put(&line, "  A straight new rail of this length, with the joints pointing as they did, would miss its landing by ");
    put_measure(&line, r->miss_a, DIM_LENGTH, units);
    put_clock(&line, r->miss_a_clock);
    text_put(&line, " from A's socket (miss_a), and by ");
    put_measure(&line, r->miss_b, DIM_LENGTH, units);
    put_clock(&line, r->miss_b_clock);
    text_put(&line, " from B's (miss_b). Put these into a load case and check it before you force a rail in.");
    flush(out, &line, 2);
}

void release_text(text *out, const release_row *rows, size_t count, bool faults, unit_system units, bool colour)
{
    (void)colour;
    for (size_t i = 0; i < count; i++) {
        if (i > 0) text_char(out, '\n');
        say_locked(out, &rows[i], units);
        say_basis(out, &rows[i]);
        say_new_rail(out, &rows[i], units);
    }
    finish(out, faults);
}

/* ---- pull -------------------------------------------------------------------------------------------- */

/* Common practice, no source: beyond this strain at the outer fibre a tube is heated or replaced, not pulled cold. */
static const double cold_strain = 0.02;

static void say_first_yield(text *out, const pulled_row *r, unit_system units)
{
    text line = {0};
    put_name(&line, r->name);
    text_put(&line, "pulled up to ");
    put_measure(&line, r->yield_travel, DIM_LENGTH, units);
    text_put(&line, " (");
    put_measure(&line, r->yield_pull, DIM_FORCE, units);
    text_put(&line, ") it springs back whole.");
    flush(out, &line, 2);
}

static void say_pull(text *out, const pulled_row *r, unit_system units)
{
    text line = {0};
    text_put(&line, "  To stay moved by ");
    put_measure(&line, r->set, DIM_LENGTH, units);
    text_put(&line, ": pull it ");
    put_measure(&line, r->travel, DIM_LENGTH, units);
    text_put(&line, " (");
    put_measure(&line, r->pull, DIM_FORCE, units);
    text_put(&line, ") and let go; it comes back ");
    put_measure(&line, r->springback, DIM_LENGTH, units);
    text_format(&line, ". Strain at the root %.2f %% (%.1f times yield), yielded over ", 100 * r->peak_strain,
                r->strain_over_yield);
    put_measure(&line, r->yielded_length, DIM_LENGTH, units);
    text_put(&line, " from the root; ");
    put_measure(&line, r->residual_stress, DIM_STRESS, units);
    text_put(&line, " stays in the outer fibre there.");
    flush(out, &line, 2);
}

static void say_warnings(text *out, const pulled_row *r, unit_system units, bool colour)
{
    text line = {0};
    if (r->state == PULL_BEYOND) {
        text_put(&line, "  NOT POSSIBLE: no pull here leaves ");
        put_measure(&line, r->set, DIM_LENGTH, units);
        text_put(&line, "; the horn folds at the root first, at ");
        put_measure(&line, r->most_set, DIM_LENGTH, units);
        text_put(&line, " of set. Pull nearer to the end, heat it, or cut the socket and set it anew.");
    } else if (r->peak_strain > cold_strain) {
        text_format(&line, "  CAREFUL: %.1f %% strain at the root is over 2 %% (common practice, no source): heat it or "
                    "replace it instead.", 100 * r->peak_strain);
    }
    if (line.at == NULL) return;
    text_put(out, tone_on(TONE_BAD, colour));
    flush(out, &line, 2);
    text_put(out, tone_off(colour));
}

static void add_measure(grid *g, double value, dimension d, unit_system units, int digits)
{
    if (isnan(value)) {
        grid_cell(g, TONE_PLAIN, "-");
        return;
    }
    char cell[NUMBER_ROOM];
    const double number = unit_from_own(unit_shown(d, units), value);
    number_write_digits(cell, number, digits);
    grid_cell(g, TONE_PLAIN, cell);
}

/* A row a step: pull to this travel, let go, expect this set. */
static void say_steps(text *out, const pulled_row *rows, size_t count, unit_system units, bool colour)
{
    const char *length = unit_shown(DIM_LENGTH, units)->name, *force = unit_shown(DIM_FORCE, units)->name;
    text heads[4] = {{0}};
    grid g = {0};
    text_format(&heads[0], "pull to, %s", length);
    text_format(&heads[1], "with, %s", force);
    text_format(&heads[2], "comes back, %s", length);
    text_format(&heads[3], "stays, %s", length);
    grid_column(&g, "step", GRID_RIGHT);
    for (int i = 0; i < 4; i++) grid_column(&g, heads[i].at, GRID_RIGHT);
    grid_column(&g, "strain, %", GRID_RIGHT);
    for (size_t i = 0; i < count; i++) {
        const pulled_row *r = &rows[i];
        grid_format(&g, TONE_PLAIN, "%d", r->step);
        add_measure(&g, r->travel, DIM_LENGTH, units, 4);
        add_measure(&g, r->pull, DIM_FORCE, units, 4);
        add_measure(&g, r->springback, DIM_LENGTH, units, 4);
        add_measure(&g, r->set, DIM_LENGTH, units, 4);
        grid_format(&g, r->peak_strain > cold_strain ? TONE_BAD : TONE_PLAIN, isnan(r->peak_strain) ? "-" : "%.2f",
                    100 * r->peak_strain);
    }
    grid_write(out, &g, colour);
    grid_free(&g);
    for (int i = 0; i < 4; i++) text_free(&heads[i]);
}

/* How many rows are of the same horn: one, or the steps of a sneak-up. */
static size_t steps_of(const pulled_row *rows, size_t count)
{
    size_t steps = 1;
    while (steps < count && rows[steps].step > rows[steps - 1].step) steps++;
    return steps;
}

void pull_text(text *out, const pulled_row *rows, size_t count, bool faults, unit_system units, bool colour)
{
    for (size_t i = 0; i < count;) {
        const size_t steps = steps_of(&rows[i], count - i);
        const pulled_row *goal = &rows[i + steps - 1];
        if (i > 0) text_char(out, '\n');
        say_first_yield(out, goal, units);
        if (goal->state == PULL_SET) say_pull(out, goal, units);
        say_warnings(out, goal, units, colour);
        if (goal->step > 0) say_steps(out, &rows[i], steps, units, colour);
        i += steps;
    }
    text_char(out, '\n');
    wrap(out, "Perfectly plastic tube on a root that does not turn: the real one hardens and its root gives, so sneak up "
              "and measure.", 0);
    finish(out, faults);
}

/* ---- inspect ----------------------------------------------------------------------------------------- */

enum { TAG_ROOM = 18 };

static grid_tone tone_of(int verdict)
{
    return verdict == INSPECT_MEETS ? TONE_GOOD : TONE_BAD;
}

static void say_counts(text *out, const inspect_row *rows, size_t count, bool colour)
{
    size_t tubes = 0, of[4] = {0};
    for (size_t i = 0; i < count; i++) {
        if (rows[i].repeated) continue;
        tubes++;
        of[rows[i].verdict]++;
    }
    text_put(out, tone_on(of[INSPECT_MEETS] == tubes ? TONE_GOOD : TONE_BAD, colour));
    text_format(out, "%zu of %zu tubes meet the spec", of[INSPECT_MEETS], tubes);
    if (of[INSPECT_BELOW] > 0) text_format(out, "; %zu BELOW it", of[INSPECT_BELOW]);
    if (of[INSPECT_RECHECK] > 0) text_format(out, "; %zu to recheck", of[INSPECT_RECHECK]);
    if (of[INSPECT_UNREAD] > 0) text_format(out, "; %zu not read enough", of[INSPECT_UNREAD]);
    text_format(out, ".%s\n\n", tone_off(colour));
}

static void say_tubes(text *out, const inspect_row *rows, size_t count, unit_system units, bool colour)
{
    static const char *const names[] = {"od", "wall", "least read", "thinnest", "bow"}; /* wall: the mean */
    text heads[5] = {{0}};
    grid g = {0};
    for (int i = 0; i < 5; i++) text_format(&heads[i], "%s, %s", names[i], unit_shown(DIM_LENGTH, units)->name);
    grid_column(&g, "tag", GRID_LEFT);
    grid_column(&g, "part", GRID_LEFT);
    grid_column(&g, "verdict", GRID_LEFT);
    for (int i = 0; i < 4; i++) grid_column(&g, heads[i].at, GRID_RIGHT);
    grid_column(&g, "at, deg", GRID_RIGHT);
    grid_column(&g, heads[4].at, GRID_RIGHT);
    for (size_t i = 0; i < count; i++) {
        const inspect_row *r = &rows[i];
        if (r->repeated) continue;
        text tag = {0}, part = {0};
        shorten(&tag, r->tag, TAG_ROOM);
        shorten(&part, r->part, 14);
        grid_cell(&g, TONE_PLAIN, tag.at != NULL ? tag.at : "");
        grid_cell(&g, TONE_PLAIN, part.at != NULL ? part.at : "");
        text_free(&tag);
        text_free(&part);
        grid_cell(&g, tone_of(r->verdict), r->verdict == INSPECT_BELOW ? "BELOW" : inspect_words[r->verdict].word);
        add_measure(&g, r->od_mean, DIM_LENGTH, units, 5);
        add_measure(&g, r->wall_mean, DIM_LENGTH, units, 4);
        add_measure(&g, r->wall_least, DIM_LENGTH, units, 4);
        add_measure(&g, r->wall_fit_least, DIM_LENGTH, units, 4);
        if (isnan(r->thin_clock))
            grid_cell(&g, TONE_PLAIN, "-");
        else
            grid_format(&g, TONE_PLAIN, "%.0f", r->thin_clock / degree);
        add_measure(&g, r->bow, DIM_LENGTH, units, 3);
    }
    grid_write(out, &g, colour);
    grid_free(&g);
    for (int i = 0; i < 5; i++) text_free(&heads[i]);
}

static void say_reasons(text *out, const inspect_row *rows, size_t count)
{
    text_char(out, '\n');
    for (size_t i = 0; i < count; i++) {
        if (rows[i].repeated || *rows[i].reason == '\0') continue;
        text line = {0};
        text_put(&line, "  ");
        shorten(&line, rows[i].tag, TAG_ROOM);
        text_format(&line, ": %s", rows[i].reason);
        flush(out, &line, 4);
    }
}

static const char *cost_of(const inspect_row *r)
{
    if (isnan(r->od_mean) || isnan(r->wall_fit_least)) return "needs od, wall";
    return isnan(r->margin_measured) ? "is outside the model" : r->margin_measured < 0 ? "falls SHORT" : "holds";
}

static void say_margins(text *out, const inspect_row *rows, size_t count, bool colour)
{
    grid g = {0};
    grid_column(&g, "what it costs", GRID_LEFT);
    grid_column(&g, "tag", GRID_LEFT);
    grid_column(&g, "as drawn", GRID_RIGHT);
    grid_column(&g, "as measured", GRID_RIGHT);
    grid_column(&g, "so it", GRID_LEFT);
    for (size_t i = 0; i < count; i++) {
        const inspect_row *r = &rows[i];
        if (*r->name == '\0') continue;
        text name = {0}, tag = {0}, nominal = {0}, measured = {0};
        shorten(&name, r->name, 30);
        shorten(&tag, r->tag, TAG_ROOM);
        put_percent(&nominal, r->margin_nominal);
        if (isnan(r->margin_measured))
            text_put(&measured, "-");
        else
            put_percent(&measured, r->margin_measured);
        grid_cell(&g, TONE_PLAIN, name.at);
        grid_cell(&g, TONE_PLAIN, tag.at);
        grid_cell(&g, r->margin_nominal >= 0 ? TONE_GOOD : TONE_BAD, nominal.at);
        grid_cell(&g, r->margin_measured >= 0 ? TONE_GOOD : TONE_BAD, measured.at);
        grid_cell(&g, TONE_PLAIN, cost_of(r));
        text_free(&name);
        text_free(&tag);
        text_free(&nominal);
        text_free(&measured);
    }
    if (g.count > 0) {
        text_char(out, '\n');
        grid_write(out, &g, colour);
        text_put(out, "As measured: mean outside diameter, and the thinnest wall all round, which is on the safe side.\n");
    }
    grid_free(&g);
}

void inspect_text(text *out, const inspect_row *rows, size_t count, bool faults, unit_system units, bool colour)
{
    if (count > 0) {
        say_counts(out, rows, count, colour);
        say_tubes(out, rows, count, units, colour);
        say_reasons(out, rows, count);
        say_margins(out, rows, count, colour);
    }
    finish(out, faults);
}
