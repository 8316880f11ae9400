#include "report/text/frame/frame_arch_text.h"

#include "report/text/cells.h"

#include <math.h>

static const double counts = 0.001; /* in: joints nearer to their drawn place have no row */

static double size_of(const frame_arch_row *r)
{
    return hypot(hypot(r->rise[RBOW_X], r->rise[RBOW_Y]), r->rise[RBOW_Z]);
}

static void add_three(grid *g, const double *values, int decimals, unit_system units)
{
    for (int i = 0; i < RBOW_AXES; i++) {
        text t = {0};
        put_decimals(&t, shown(values[i], DIM_LENGTH, units), units == UNITS_SI ? decimals - 1 : decimals, ROUND_NEAREST);
        grid_text(g, TONE_PLAIN, &t);
    }
}

static void put_heads(grid *g, const char *what, unit_system units)
{
    grid_column(g, GRID_RIGHT, "%s x, %s", what, unit_name(DIM_LENGTH, units));
    grid_column(g, GRID_RIGHT, "y");
    grid_column(g, GRID_RIGHT, "z");
}

static void put_largest(text *out, const frame_answers *a, const frame_arch_row *most, const screen *s)
{
    text line = {0};
    text_put(&line, "Arch: so that run ");
    put_name(&line, a->arch_run);
    text_put(&line, " at load factor 1 brings every joint to its drawn place, weld ");
    put_name(&line, most->name);
    text_put(&line, " farthest from it, by ");
    put_quantity(&line, size_of(most), DIM_LENGTH, s->units, ROUND_NEAREST);
    text_char(&line, '.');
    text_char(out, '\n');
    put_lines(out, &line, 2, s);
}

void frame_arch_text(text *out, const frame_answers *a, const screen *s)
{
    const frame_arch_row *most = a->arch;
    grid g = {0};
    for (size_t i = 1; i < a->model->joint_count; i++)
        if (size_of(&a->arch[i]) > size_of(most)) most = &a->arch[i];
    if (!(size_of(most) >= counts)) {
        text line = {0};
        text_put(&line, "Arch: run ");
        put_name(&line, a->arch_run);
        text_put(&line, " leaves every joint within ");
        put_quantity(&line, counts, DIM_LENGTH, s->units, ROUND_NEAREST);
        text_put(&line, " of its drawn place: weld them where they are drawn.");
        text_char(out, '\n');
        put_lines(out, &line, 2, s);
        return;
    }
    put_largest(out, a, most, s);
    grid_column(&g, GRID_NAME, "joint");
    put_heads(&g, "weld at", s->units);
    put_heads(&g, "rise", s->units);
    for (size_t i = 0; i < a->model->joint_count; i++) {
        const frame_arch_row *r = &a->arch[i];
        if (size_of(r) < counts) continue;
        add_name(&g, r->name);
        add_three(&g, r->weld, 3, s->units);
        add_three(&g, r->rise, 3, s->units);
    }
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
    put_sentence(out, "x: forward, y: to the left, z: up. weld at: the place on the unloaded frame, before anything is forced. rise: how far that "
                      "is from the drawn place. Other joints: where they are drawn. Masses, loads, misses and gaps stay.", 0, s);
}
