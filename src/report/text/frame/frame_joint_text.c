#include "report/text/frame/frame_joint_text.h"

#include "report/text/cells.h"

static void add_three(grid *g, const double *values, dimension d, unit_system units)
{
    for (int i = 0; i < RBOW_AXES; i++) add_quantity(g, values[i], d, units, ROUND_NEAREST);
}

static void put_heads(grid *g, const char *x, dimension d, unit_system units)
{
    grid_column(g, GRID_RIGHT, "%sx, %s", x, unit_name(d, units));
    grid_column(g, GRID_RIGHT, "y");
    grid_column(g, GRID_RIGHT, "z");
}

static void put_grid(text *out, grid *g, const screen *s)
{
    text_char(out, '\n');
    grid_write(out, g, s);
    grid_free(g);
}

static void put_movements(text *out, const frame_joint_answer *joints, size_t count, bool forced, const screen *s)
{
    grid g = {0};
    grid_column(&g, GRID_NAME, "joint");
    put_heads(&g, "moves ", DIM_LENGTH, s->units);
    if (forced) put_heads(&g, "locked in ", DIM_LENGTH, s->units);
    for (size_t i = 0; i < count; i++) {
        add_name(&g, joints[i].name);
        add_three(&g, joints[i].result.move, DIM_LENGTH, s->units);
        if (forced) add_three(&g, joints[i].result.locked, DIM_LENGTH, s->units);
    }
    put_grid(out, &g, s);
}

static void put_supports(text *out, const frame_joint_answer *joints, const frame_model *m, const screen *s)
{
    grid g = {0};
    grid_column(&g, GRID_NAME, "support");
    put_heads(&g, "force ", DIM_FORCE, s->units);
    put_heads(&g, "moment ", DIM_MOMENT, s->units);
    for (size_t i = 0; i < m->joint_count; i++) {
        if (m->frame.joints[i].held == RBOW_HELD_NONE) continue;
        add_name(&g, joints[i].name);
        add_three(&g, joints[i].result.react, DIM_FORCE, s->units);
        add_three(&g, joints[i].result.react + RBOW_AXES, DIM_MOMENT, s->units);
    }
    put_grid(out, &g, s);
}

void frame_joints_text(text *out, const frame_answers *a, const screen *s)
{
    const bool forced = frame_has_fit(a->model);
    for (size_t run = 0; run < a->run_count; run++) {
        const frame_joint_answer *joints = a->joints + run * a->model->joint_count;
        if (!a->runs[run].solved) continue;
        text line = {0};
        text_put(&line, "Run ");
        put_name(&line, a->runs[run].name);
        text_put(&line, ", load factor 1:");
        text_char(out, '\n');
        put_lines(out, &line, 0, s);
        put_movements(out, joints, a->model->joint_count, forced, s);
        put_supports(out, joints, a->model, s);
    }
    text_char(out, '\n');
    put_sentence(out, forced ? "x: forward, y: to the left, z: up. moves: from where the joint was drawn. locked in: the same without any run load."
                             : "x: forward, y: to the left, z: up. moves: from where the joint was drawn.", 0, s);
    put_sentence(out, "force, moment (right-hand): what the support puts on the joint. CSV and JSON also have the turns of the joints.", 0, s);
}
