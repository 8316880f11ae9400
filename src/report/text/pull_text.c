#include "report/text/pull_text.h"

#include "report/text/cells.h"

#include <math.h>

/* Common practice, no source: beyond this strain at the outer fibre a tube is replaced, not pulled cold. */
static const double cold_strain = 0.02;

static void say_first_yield(text *out, const pulled_row *r, const screen *s)
{
    text line = {0};
    put_name(&line, r->name);
    text_put(&line, ": ");
    text_put(&line, "pulled up to ");
    put_length(&line, r->found.yield_travel, s->units, ROUND_DOWN);
    text_put(&line, " with ");
    put_quantity(&line, r->found.yield_pull, DIM_FORCE, s->units, ROUND_DOWN);
    text_put(&line, " it springs back whole.");
    put_lines(out, &line, 2, s);
}

static void say_pull(text *out, const pulled_row *r, const screen *s)
{
    text line = {0};
    text_put(&line, "  To stay moved by ");
    put_value(&line, r->set, DIM_LENGTH, s->units);
    text_put(&line, ": pull it ");
    put_length(&line, r->found.travel, s->units, ROUND_UP);
    text_put(&line, " with ");
    put_quantity(&line, r->found.pull, DIM_FORCE, s->units, ROUND_UP);
    text_put(&line, " and let go; it comes back ");
    put_quantity(&line, r->found.springback, DIM_LENGTH, s->units, ROUND_NEAREST);
    text_format(&line, ". Strain at the root %.2f %% (%.1f times yield), yielded over ", 100 * r->found.peak_strain,
                r->found.strain_over_yield);
    put_quantity(&line, r->found.yielded_length, DIM_LENGTH, s->units, ROUND_NEAREST);
    text_put(&line, " from the root; ");
    put_quantity(&line, r->found.residual_stress, DIM_STRESS, s->units, ROUND_NEAREST);
    text_put(&line, " stays in the outer fibre there.");
    put_lines(out, &line, 2, s);
}

static void say_warnings(text *out, const pulled_row *r, const screen *s)
{
    text line = {0};
    if (r->found.beyond) {
        text_put(&line, "  NOT POSSIBLE: no pull here leaves ");
        put_value(&line, r->set, DIM_LENGTH, s->units);
        text_put(&line, "; the horn folds at the root first, at ");
        put_quantity(&line, r->found.most_set, DIM_LENGTH, s->units, ROUND_DOWN);
        text_put(&line, " of set. Pull nearer to the end, or cut the socket off and set it anew. Do not heat it: heat spoils the temper "
                        "of 4130, and only somebody who knows how may do it.");
    } else if (r->found.peak_strain > cold_strain) {
        text_format(&line, "  CAREFUL: %.1f %% strain at the root is over 2 %% (common practice, no source): cut the socket "
                    "off and set it anew instead. Heating it spoils the temper of 4130; only somebody who knows how may do it.", 100 * r->found.peak_strain);
    }
    put_paragraph(out, &line, 2, TONE_BAD, s);
    text_free(&line);
}

/* A row a step: pull to this travel, let go, expect this set. */
static void say_steps(text *out, const pulled_row *rows, size_t count, const screen *s)
{
    const char *length = unit_name(DIM_LENGTH, s->units);
    grid g = {0};
    grid_column(&g, GRID_RIGHT, "step");
    grid_column(&g, GRID_RIGHT, "pull to, %s", length);
    grid_column(&g, GRID_RIGHT, "with, %s", unit_name(DIM_FORCE, s->units));
    grid_column(&g, GRID_RIGHT, "comes back, %s", length);
    grid_column(&g, GRID_RIGHT, "stays, %s", length);
    grid_column(&g, GRID_RIGHT, "strain, %%");
    for (size_t i = 0; i < count; i++) {
        const pulled_row *r = &rows[i];
        grid_format(&g, TONE_PLAIN, "%d", r->step);
        text strain = {0};
        add_quantity(&g, r->found.travel, DIM_LENGTH, s->units, ROUND_UP);
        add_quantity(&g, r->found.pull, DIM_FORCE, s->units, ROUND_UP);
        add_quantity(&g, r->found.springback, DIM_LENGTH, s->units, ROUND_NEAREST);
        add_quantity(&g, r->set, DIM_LENGTH, s->units, ROUND_NEAREST);
        put_decimals(&strain, 100 * r->found.peak_strain, 2, ROUND_NEAREST);
        grid_text(&g, r->found.peak_strain > cold_strain ? TONE_BAD : TONE_PLAIN, &strain);
    }
    grid_write(out, &g, s);
    grid_free(&g);
}

/* How many rows are of the same horn: one, or the steps of a pull in steps. */
static size_t steps_of(const pulled_row *rows, size_t count)
{
    size_t steps = 1;
    while (steps < count && rows[steps].step > rows[steps - 1].step) steps++;
    return steps;
}

void pull_text(text *out, const pulled_row *rows, size_t count, const screen *s)
{
    put_refused(out, s);
    for (size_t i = 0; i < count;) {
        const size_t steps = steps_of(&rows[i], count - i);
        const pulled_row *goal = &rows[i + steps - 1];
        if (i > 0) text_char(out, '\n');
        say_first_yield(out, goal, s);
        if (!goal->found.beyond) say_pull(out, goal, s);
        say_warnings(out, goal, s);
        if (goal->step > 0) say_steps(out, &rows[i], steps, s);
        i += steps;
    }
    text_char(out, '\n');
    put_sentence(out, "Perfectly plastic tube on a root that does not turn: the real one hardens and its root gives, so sneak up "
                      "and measure.", 0, s);
    put_end(out, s);
}
