#include "cases/frame_results.h"
#include "report/text/frame/frame_table_text.h"

#include "cases/case_words.h"
#include "report/text/cells.h"

#include <math.h>
#include <stdlib.h>

/* ---- runs -------------------------------------------------------------------------------------------------- */

static void add_verdict(grid *g, int verdict)
{
    grid_cell(g, verdict == RBOW_HOLDS ? TONE_GOOD : TONE_BAD, verdict == RBOW_HOLDS ? "holds" : "SHORT");
}

static void add_factor(grid *g, double factor)
{
    text t = {0};
    put_factor(&t, factor);
    grid_text(g, TONE_PLAIN, &t);
}

static void add_run(grid *g, const frame_run_answer *r, unit_system units)
{
    add_name(g, r->name);
    add_verdict(g, r->result.verdict);
    add_margin(g, r->result.margin);
    add_name(g, r->worst_tube);
    add_name(g, r->governs);
    add_factor(g, r->result.critical_factor);
    add_factor(g, r->result.path_end);
    add_quantity(g, r->result.move, DIM_LENGTH, units, ROUND_NEAREST);
    add_name(g, r->move_joint);
}

static const frame_run_answer *first_solved(const frame_answers *a)
{
    for (size_t run = 0; run < a->run_count; run++)
        if (a->runs[run].solved) return &a->runs[run];
    return NULL;
}

static void say_weight(text *out, const frame_answers *a, const screen *s)
{
    const rbow_frame_run_result *r = &first_solved(a)->result;
    text line = {0};
    text_put(&line, "The tubes weigh ");
    put_quantity(&line, r->weight, DIM_MASS, s->units, ROUND_NEAREST);
    if (r->mass > r->weight) {
        text_put(&line, ", with the masses at the joints ");
        put_quantity(&line, r->mass, DIM_MASS, s->units, ROUND_NEAREST);
    }
    text_put(&line, "; centre of mass: x ");
    for (int i = 0; i < RBOW_AXES; i++) {
        static const char *const before[] = {"", ", y ", ", z "};
        text_put(&line, before[i]);
        put_decimals(&line, shown(r->centre[i], DIM_LENGTH, s->units), 1, ROUND_NEAREST);
    }
    text_format(&line, " %s.", unit_name(DIM_LENGTH, s->units));
    put_lines(out, &line, 0, s);
}

static void say_joints(text *out, const frame_answers *a, const screen *s)
{
    double factor;
    const frame_tube_answer *r = frame_first_to_buckle(a, &factor);
    if (r == NULL) return;
    text line = {0};
    text_put(&line, "How stiff the joints are: when the frame buckles in run ");
    put_name(&line, r->run);
    text_put(&line, ", ");
    put_name(&line, r->given.name);
    text_put(&line, " carries ");
    put_number(&line, frame_fixity(r, factor), 2);
    text_put(&line, " times its critical load with pinned ends (4: with fixed ends; below 1: its joints sway).");
    put_lines(out, &line, 0, s);
}

void frame_runs_text(text *out, const frame_answers *a, const screen *s)
{
    grid g = {0};
    if (first_solved(a) == NULL) return;
    grid_column(&g, GRID_NAME, "run");
    grid_column(&g, GRID_LEFT, "verdict");
    grid_column(&g, GRID_RIGHT, "margin");
    grid_column(&g, GRID_NAME, "worst tube");
    grid_column(&g, GRID_NAME, "governs");
    grid_column(&g, GRID_RIGHT, "critical factor");
    grid_column(&g, GRID_RIGHT, "path ends");
    grid_spare(&g, 1);
    grid_column(&g, GRID_RIGHT, "moves, %s", unit_name(DIM_LENGTH, s->units));
    grid_column(&g, GRID_NAME, "joint");
    for (size_t run = 0; run < a->run_count; run++)
        if (a->runs[run].solved) add_run(&g, &a->runs[run], s->units);
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
    put_sentence(out, "critical factor: the straight frame buckles at this many times the run load. path ends: the frame as built does. "
                      "moves: largest movement of a joint.", 0, s);
    say_joints(out, a, s);
    say_weight(out, a, s);
}

/* ---- tubes ------------------------------------------------------------------------------------------------- */

typedef struct tube_table {
    const frame_answers *answers;
    const screen *s;
    bool forced;
    double common; /* the factor asked for in every run and check; 0 where they differ */
} tube_table;

static void add_size(grid *g, const frame_tube_answer *r, unit_system units)
{
    grid_format(g, TONE_PLAIN, units == UNITS_SI ? "%.5g x %.3g" : "%.5g x %.4g", shown(r->given.tube.od, DIM_LENGTH, units),
                shown(r->given.tube.wall, DIM_LENGTH, units));
}

static void add_place(grid *g, const frame_tube_answer *r, unit_system units)
{
    if (isnan(r->result.governs_at)) grid_cell(g, TONE_PLAIN, "-");
    else grid_format(g, TONE_PLAIN, "%.1f", shown(r->result.governs_at, DIM_LENGTH, units) + 0.0);
}

static void add_required(grid *g, const frame_tube_answer *r)
{
    text t = {0};
    put_required(&t, frame_asked_factor(r));
    grid_text(g, TONE_PLAIN, &t);
}

static void add_cost(grid *g, const frame_tube_answer *r)
{
    add_points(g, frame_fit_cost(r));
}

static void add_tube(grid *g, const tube_table *t, const frame_tube_answer *r)
{
    const unit_system units = t->s->units;
    add_name(g, r->given.name);
    add_size(g, r, units);
    add_verdict(g, r->result.verdict);
    add_margin(g, r->result.margin);
    add_name(g, r->run);
    add_name(g, r->governs);
    add_place(g, r, units);
    add_factor(g, frame_deciding_factor(r));
    if (!(t->common > 0)) add_required(g, r);
    add_quantity(g, r->result.axial, DIM_FORCE, units, ROUND_NEAREST);
    if (!t->forced) return;
    add_quantity(g, r->result.fit_stress, DIM_STRESS, units, ROUND_NEAREST);
    add_cost(g, r);
}

static void put_heads(grid *g, const tube_table *t)
{
    const char *length = unit_name(DIM_LENGTH, t->s->units);
    grid_column(g, GRID_NAME, "tube");
    grid_column(g, GRID_LEFT, "size, %s", length);
    grid_spare(g, 5);
    grid_column(g, GRID_LEFT, "verdict");
    grid_column(g, GRID_RIGHT, "margin");
    grid_column(g, GRID_NAME, "in run");
    grid_column(g, GRID_NAME, "governs");
    grid_column(g, GRID_RIGHT, "at, %s", length);
    grid_spare(g, 3);
    grid_column(g, GRID_RIGHT, "load factor");
    grid_spare(g, 4);
    if (!(t->common > 0)) grid_column(g, GRID_RIGHT, "required");
    grid_column(g, GRID_RIGHT, "push, %s", unit_name(DIM_FORCE, t->s->units));
    grid_spare(g, 2);
    if (!t->forced) return;
    grid_column(g, GRID_RIGHT, "locked in, %s", unit_name(DIM_STRESS, t->s->units));
    grid_spare(g, 1);
    grid_column(g, GRID_RIGHT, "fit costs");
}

static double common_factor(const frame_model *m)
{
    const double common = m->runs[0].run.factor;
    for (size_t i = 0; i < m->run_count; i++) {
        const rbow_frame_run *run = &m->runs[i].run;
        if (fabs(run->factor - common) > 0 || (run->factor_yield > 0 && fabs(run->factor_yield - common) > 0)) return 0;
    }
    return common;
}

static void say_key(text *out, const tube_table *t)
{
    text line = {0};
    text_put(&line, "Each tube in its worst run. load factor: it yields or buckles at this many times the run load. margin: load factor / "
                    "required - 1; ");
    if (t->common > 0) {
        text_put(&line, "required in every run: ");
        put_required(&line, t->common);
        text_put(&line, ". ");
    }
    text_put(&line, "interaction: push and bending together. frame: the frame buckles as a whole first. at: where, from joint A. push: axial force under the run load, a pull "
                    "below 0.");
    if (t->forced)
        text_put(&line, " locked in: stress before any run load. fit costs: points of margin that all misses and gaps of the frame take.");
    put_lines(out, &line, 0, t->s);
}

static void say_more(text *out, const frame_answers *a, const frame_order *order, size_t listed, const screen *s)
{
    text line = {0};
    if (listed == order->count) return;
    const double margin = frame_worst_run(a, order->tubes[listed])->result.margin;
    text_format(&line, "%zu more tube%s, ", order->count - listed, order->count - listed == 1 ? " holds" : "s hold");
    if (isfinite(margin)) {
        text_put(&line, "with margins from ");
        put_percent(&line, margin);
        text_put(&line, " up");
    } else {
        text_put(&line, "without a limit");
    }
    text_put(&line, ": --all lists every tube.");
    put_lines(out, &line, 0, s);
}

void frame_tubes_text(text *out, const frame_answers *a, bool every, bool forced, const screen *s)
{
    const tube_table t = {a, s, forced, common_factor(a->model)};
    frame_order order;
    grid g = {0};
    if (first_solved(a) == NULL) return;
    if (!frame_order_of(&order, a)) out->failed = true;
    const size_t listed = every || order.count <= FRAME_LISTED_WHOLE ? order.count : frame_order_listed(&order, a);
    put_heads(&g, &t);
    for (size_t i = 0; i < listed; i++) {
        const size_t tube = listed == order.count ? i : order.tubes[i];
        add_tube(&g, &t, frame_worst_run(a, tube));
    }
    text_char(out, '\n');
    grid_write(out, &g, s);
    grid_free(&g);
    say_more(out, a, &order, listed, s);
    say_key(out, &t);
    frame_order_free(&order);
}
