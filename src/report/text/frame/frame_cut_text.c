#include "report/text/frame/frame_cut_text.h"

#include "cases/release_table.h"
#include "report/caution.h"
#include "report/text/cells.h"
#include "report/text/measures.h"

#include <math.h>

static void put_angle(text *out, double angle)
{
    put_decimals(out, angle * 180 / 3.14159265358979323846, 2, ROUND_NEAREST);
    text_put(out, " deg");
}

static void put_place(text *line, const char *tube, const char *from, double at, const screen *s)
{
    put_name(line, tube);
    text_put(line, ", cut ");
    put_length(line, at, s->units, ROUND_NEAREST);
    text_put(line, " from joint ");
    put_name(line, from);
    text_put(line, ": ");
}

static void say_faces(text *out, const frame_cut_row *c, const screen *s)
{
    text line = {0};
    put_place(&line, c->tube, c->from, c->at, s);
    text_put(&line, "the face on the side of joint ");
    put_name(&line, c->to);
    text_put(&line, " moves ");
    put_length(&line, c->faces.moved, s->units, ROUND_NEAREST);
    put_clock(&line, c->faces.moved_clock);
    text_put(&line, ", its stub turns ");
    put_angle(&line, c->faces.turned);
    put_clock(&line, c->faces.turned_clock);
    text_put(&line, c->faces.opened < 0 ? ", and the cut closes by " : ", and the cut opens by ");
    put_length(&line, fabs(c->faces.opened), s->units, ROUND_NEAREST);
    text_char(&line, '.');
    put_lines(out, &line, 2, s);
}

static void put_cuts(text *out, const frame_cut_answer *a, const screen *s)
{
    grid g = {0};
    const char *inch = unit_name(DIM_LENGTH, s->units);
    grid_column(&g, GRID_NAME, "tube");
    grid_column(&g, GRID_RIGHT, "at, %s", inch);
    grid_column(&g, GRID_RIGHT, "moved, %s", inch);
    grid_column(&g, GRID_RIGHT, "clock");
    grid_column(&g, GRID_RIGHT, "turned, deg");
    grid_column(&g, GRID_RIGHT, "clock");
    grid_column(&g, GRID_RIGHT, "opened, %s", inch);
    for (size_t i = 0; i < a->cut_count; i++) {
        const frame_cut_row *c = &a->cuts[i];
        text turned = {0};
        add_name(&g, c->tube);
        add_quantity(&g, c->at, DIM_LENGTH, s->units, ROUND_NEAREST);
        add_quantity(&g, c->faces.moved, DIM_LENGTH, s->units, ROUND_NEAREST);
        add_clock(&g, c->faces.moved_clock, 0);
        put_decimals(&turned, c->faces.turned * 180 / 3.14159265358979323846, 2, ROUND_NEAREST);
        grid_text(&g, TONE_PLAIN, &turned);
        add_clock(&g, c->faces.turned_clock, 0);
        add_quantity(&g, c->faces.opened, DIM_LENGTH, s->units, ROUND_NEAREST);
    }
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
}

static void put_joints(text *out, const frame_cut_answer *a, const screen *s)
{
    grid g = {0};
    grid_column(&g, GRID_NAME, "joint");
    grid_column(&g, GRID_RIGHT, "moves x, %s", unit_name(DIM_LENGTH, s->units));
    grid_column(&g, GRID_RIGHT, "y");
    grid_column(&g, GRID_RIGHT, "z");
    for (size_t i = 0; i < a->joint_count; i++) {
        add_name(&g, a->joints[i].joint);
        for (int k = 0; k < RBOW_AXES; k++) add_quantity(&g, a->joints[i].moved.move[k], DIM_LENGTH, s->units, ROUND_NEAREST);
    }
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
    put_sentence(out, "x: forward, y: to the left, z: up, from before the cut to after it. CSV and JSON also have the turns.", 0, s);
}

static void say_farthest(text *out, const frame_cut_answer *a, const screen *s)
{
    double distance;
    text line = {0};
    const frame_cut_joint_row *most = frame_cut_moves_most(a, &distance);
    if (most == NULL) {
        put_sentence(out, "No joint moves.", 0, s);
        return;
    }
    text_put(&line, "Of the joints ");
    put_name(&line, most->joint);
    text_put(&line, " moves most: ");
    put_length(&line, distance, s->units, ROUND_NEAREST);
    text_put(&line, " (--of joints lists all).");
    put_lines(out, &line, 0, s);
}

static void say_loads(text *out, const frame_cut_answer *a, const screen *s)
{
    text line = {0};
    if (a->run == NULL) text_put(&line, "Without any run load: only what is locked in moves the faces.");
    else {
        text_put(&line, "Under run ");
        put_name(&line, a->run);
        text_put(&line, " at load factor 1.");
    }
    put_lines(out, &line, 0, s);
}

void frame_cut_text(text *out, const frame_cut_answer *a, int of, const screen *s)
{
    for (size_t i = 0; i < a->cut_count && a->cut_count <= 4; i++) say_faces(out, &a->cuts[i], s);
    if (of == OF_CUT_JOINTS) put_joints(out, a, s);
    else if (a->cut_count > 1) put_cuts(out, a, s);
    text_char(out, '\n');
    if (of == OF_CUTS) say_farthest(out, a, s);
    say_loads(out, a, s);
    if (a->free_joints > 0) put_sentence(out, frame_cut_free, 0, s);
    put_sentence(out, frame_cut_basis, 0, s);
    put_end(out, s);
}

/* ---- readings ------------------------------------------------------------------------------------------------- */

static void say_locked(text *out, const frame_cut_locked_row *r, const screen *s)
{
    const rbow_frame_released *f = &r->found;
    text line = {0};
    put_place(&line, r->tube, r->from, r->at, s);
    put_quantity(&line, f->fit_stress, DIM_STRESS, s->units, ROUND_NEAREST);
    text_put(&line, r->basis == BASIS_LEAST_ENERGY ? " would explain the movement" : " was locked in");
    text_format(&line, ", %.0f %% of yield: ", 100 * f->yield_use);
    put_quantity(&line, fabs(f->fit_axial), DIM_FORCE, s->units, ROUND_NEAREST);
    text_put(&line, f->fit_axial > 0 ? " of push" : f->fit_axial < 0 ? " of pull" : " along the tube");
    text_put(&line, ", bending ");
    put_quantity(&line, f->moment_a, DIM_MOMENT, s->units, ROUND_NEAREST);
    text_put(&line, " at joint ");
    put_name(&line, r->from);
    text_put(&line, " and ");
    put_quantity(&line, f->moment_b, DIM_MOMENT, s->units, ROUND_NEAREST);
    text_put(&line, " at joint ");
    put_name(&line, r->to);
    text_put(&line, "; at the cut ");
    put_quantity(&line, f->moment_at_cut, DIM_MOMENT, s->units, ROUND_NEAREST);
    put_clock(&line, f->moment_clock);
    text_put(&line, " and a sideways force of ");
    put_quantity(&line, f->shear, DIM_FORCE, s->units, ROUND_NEAREST);
    put_clock(&line, f->shear_clock);
    text_char(&line, '.');
    put_lines(out, &line, 2, s);
}

static void say_built_in(text *out, const frame_cut_locked_row *r, const screen *s)
{
    const rbow_frame_released *f = &r->found;
    text line = {0};
    text_put(&line, "  It was built in with a miss of ");
    put_length(&line, f->miss_a, s->units, ROUND_NEAREST);
    put_clock(&line, f->miss_a_clock);
    text_put(&line, " from A's socket (miss_a), of ");
    put_length(&line, f->miss_b, s->units, ROUND_NEAREST);
    put_clock(&line, f->miss_b_clock);
    text_put(&line, f->gap < 0 ? " from B's (miss_b), and too long by " : " from B's (miss_b), and too short by ");
    put_length(&line, fabs(f->gap), s->units, ROUND_NEAREST);
    text_put(&line, " (gap). A new tube in the same sockets meets them again.");
    put_lines(out, &line, 2, s);
}

void frame_cut_locked_text(text *out, const frame_cut_locked_row *r, const screen *s)
{
    say_locked(out, r, s);
    if (r->basis == BASIS_LEAST_ENERGY) {
        text line = {0};
        text_format(&line, "  %s", unread_angle);
        put_lines(out, &line, 2, s);
    }
    if (r->found.yield_use > 1)
        put_sentence(out, "  That is MORE THAN YIELD: this answer is elastic, so the tube took a set, or a reading is wrong.", 2, s);
    say_built_in(out, r, s);
    text_char(out, '\n');
    put_sentence(out, frame_cut_locked_basis, 0, s);
    put_end(out, s);
}
