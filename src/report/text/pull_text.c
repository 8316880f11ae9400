#include "report/text/pull_text.h"

#include "report/lines.h"
#include "report/text/cells.h"
#include "report/text/measures.h"

#include <math.h>

/* Common practice, no source: beyond this strain at the outer fibre a tube is replaced, not pulled cold. */
static const double cold_strain = 0.02;

static void say_first_yield(text *out, const pulled_row *r, unit_system units)
{
    text line = {0};
    put_name(&line, r->name);
    text_put(&line, ": ");
    text_put(&line, "pulled up to ");
    put_measure(&line, r->found.yield_travel, DIM_LENGTH, units);
    text_put(&line, " (");
    put_measure(&line, r->found.yield_pull, DIM_FORCE, units);
    text_put(&line, ") it springs back whole.");
    put_lines(out, &line, 2);
}

static void say_pull(text *out, const pulled_row *r, unit_system units)
{
    text line = {0};
    text_put(&line, "  To stay moved by ");
    put_measure(&line, r->set, DIM_LENGTH, units);
    text_put(&line, ": pull it ");
    put_measure(&line, r->found.travel, DIM_LENGTH, units);
    text_put(&line, " (");
    put_measure(&line, r->found.pull, DIM_FORCE, units);
    text_put(&line, ") and let go; it comes back ");
    put_measure(&line, r->found.springback, DIM_LENGTH, units);
    text_format(&line, ". Strain at the root %.2f %% (%.1f times yield), yielded over ", 100 * r->found.peak_strain,
                r->found.strain_over_yield);
    put_measure(&line, r->found.yielded_length, DIM_LENGTH, units);
    text_put(&line, " from the root; ");
    put_measure(&line, r->found.residual_stress, DIM_STRESS, units);
    text_put(&line, " stays in the outer fibre there.");
    put_lines(out, &line, 2);
}

static void say_warnings(text *out, const pulled_row *r, unit_system units, bool colour)
{
    text line = {0};
    if (r->found.beyond) {
        text_put(&line, "  NOT POSSIBLE: no pull here leaves ");
        put_measure(&line, r->set, DIM_LENGTH, units);
        text_put(&line, "; the horn folds at the root first, at ");
        put_measure(&line, r->found.most_set, DIM_LENGTH, units);
        text_put(&line, " of set. Pull nearer to the end, or cut the socket off and set it anew. Do not heat it: heat spoils the temper of 4130, and only somebody who knows how may do it.");
    } else if (r->found.peak_strain > cold_strain) {
        text_format(&line, "  CAREFUL: %.1f %% strain at the root is over 2 %% (common practice, no source): cut the socket "
                    "off and set it anew instead. Heating it spoils the temper of 4130; only somebody who knows how may do it.", 100 * r->found.peak_strain);
    }
    if (line.at == NULL) return;
    text_put(out, tone_on(TONE_BAD, colour));
    put_lines(out, &line, 2);
    text_put(out, tone_off(colour));
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
        add_measure(&g, r->found.travel, DIM_LENGTH, units, 4);
        add_measure(&g, r->found.pull, DIM_FORCE, units, 4);
        add_measure(&g, r->found.springback, DIM_LENGTH, units, 4);
        add_measure(&g, r->set, DIM_LENGTH, units, 4);
        grid_format(&g, r->found.peak_strain > cold_strain ? TONE_BAD : TONE_PLAIN, isnan(r->found.peak_strain) ? "-" : "%.2f",
                    100 * r->found.peak_strain);
    }
    grid_write(out, &g, colour);
    grid_free(&g);
    for (int i = 0; i < 4; i++) text_free(&heads[i]);
}

/* How many rows are of the same horn: one, or the steps of a pull in steps. */
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
        if (!goal->found.beyond) say_pull(out, goal, units);
        say_warnings(out, goal, units, colour);
        if (goal->step > 0) say_steps(out, &rows[i], steps, units, colour);
        i += steps;
    }
    text_char(out, '\n');
    wrap(out, "Perfectly plastic tube on a root that does not turn: the real one hardens and its root gives, so sneak up "
              "and measure.", 0);
    put_end(out, faults);
}
