#include "report/text/frame/frame_text.h"

#include "cases/detail/detail_results.h"
#include "cases/detail/detail_sentences.h"
#include "report/advice_words.h"
#include "report/caution.h"
#include "report/text/cells.h"
#include "report/text/detail_text.h"
#include "report/text/frame/frame_arch_text.h"
#include "report/text/frame/frame_joint_text.h"
#include "report/text/frame/frame_table_text.h"
#include "report/text/measures.h"

#include <math.h>
#include <stdlib.h>

/* ---- the verdict in words ---------------------------------------------------------------------------------- */

static size_t solved_runs(const frame_answers *a)
{
    size_t solved = 0;
    for (size_t run = 0; run < a->run_count; run++) solved += a->runs[run].solved;
    return solved;
}

static void put_runs(text *out, const frame_answers *a, bool faults)
{
    const size_t runs = solved_runs(a);
    if (runs == 1) text_format(out, " in the %srun", faults ? "other " : "");
    else text_format(out, " in %s%zu %sruns", faults ? "the " : "all ", runs, faults ? "other " : "");
}

static void say_count(text *out, const frame_answers *a, const screen *s)
{
    const char *picked = a->judged < a->model->tube_count ? " picked" : "";
    size_t holds = 0;
    text line = {0};
    for (size_t i = 0; i < a->judged; i++) holds += frame_tube_holds(a, i);
    if (a->judged == 1) {
        text_format(&line, "The tube%s %s", picked, holds == 1 ? "holds" : "is SHORT");
        if (holds == 1) put_runs(&line, a, s->faults);
    } else if (holds == a->judged) {
        text_format(&line, "All %zu tubes%s hold", a->judged, picked);
        put_runs(&line, a, s->faults);
    } else {
        text_format(&line, "%zu of %zu tubes%s hold", holds, a->judged, picked);
        put_runs(&line, a, s->faults);
        text_format(&line, ", %zu %s SHORT", a->judged - holds, a->judged - holds == 1 ? "is" : "are");
    }
    text_char(&line, '.');
    put_paragraph(out, &line, 2, holds == a->judged ? TONE_GOOD : TONE_BAD, s);
    text_free(&line);
}

static void put_factors(text *out, const frame_tube_answer *r)
{
    const double factor = frame_deciding_factor(r);
    if (r->detail.governs) {
        put_detail_factors(out, r->governs, &r->detail, r->result.margin);
        return;
    }
    if (isinf(factor)) {
        text_put(out, "no run load could make it yield or buckle.");
        return;
    }
    if (factor > 0) {
        text_put(out, "it yields or buckles at ");
        put_factor(out, factor);
        text_put(out, " times the run load; ");
    } else {
        text_put(out, "it yields or buckles with no run load at all; a load factor of ");
    }
    put_required(out, frame_asked_factor(r));
    text_put(out, factor > 0 ? " is required: margin " : " is required.");
    if (!(factor > 0)) return;
    put_percent(out, r->result.margin);
    text_char(out, '.');
}

static void say_worst(text *out, const frame_tube_answer *r, const screen *s)
{
    text line = {0};
    text_put(&line, "Worst: tube ");
    put_name(&line, r->given.name);
    text_put(&line, " in run ");
    put_name(&line, r->run);
    text_put(&line, ": ");
    put_factors(&line, r);
    put_lines(out, &line, 2, s);
}

static void say_advice(text *out, const frame_advice *a, const screen *s)
{
    text line = {0};
    if (a == NULL || (a->tube == NULL && !a->lost)) return;
    text_put(&line, "  ");
    put_frame_advice(&line, a, s->units);
    put_lines(out, &line, 4, s);
}

/* ", at joint 'N1'", ", 27.4 in from joint 'N1' (length 60.0 in)" */
static void put_place(text *out, const frame_tube_answer *r, unit_system units)
{
    const double at = r->result.governs_at, length = r->result.length;
    if (isnan(at)) return;
    if (at <= 0 || at >= length) {
        text_put(out, ", at joint ");
        put_name(out, at <= 0 ? r->given.from : r->given.to);
        return;
    }
    const char *u = unit_name(DIM_LENGTH, units);
    text_format(out, ", %.1f %s from joint ", shown(at, DIM_LENGTH, units), u);
    put_name(out, r->given.from);
    text_format(out, " (length %.1f %s)", shown(length, DIM_LENGTH, units), u);
}

static void say_where(text *out, const frame_tube_answer *r, const screen *s)
{
    static const char *const reasons[] = {
        [RBOW_FRAME_BY_COLUMN] = "column: the tube as a whole bows out",
        [RBOW_FRAME_BY_YIELD] = "yield of the outer fibre",
        [RBOW_FRAME_BY_INTERACTION] = "interaction: push and bending together",
        [RBOW_FRAME_BY_NONE] = NULL,
        [RBOW_FRAME_BY_FRAME] = "the frame as a whole buckles before the tube reaches a limit of its own",
    };
    if (reasons[r->result.governs] == NULL && !r->detail.governs) return;
    text line = {0};
    if (r->detail.governs) put_detail_governs(&line, r->governs, &r->detail);
    else text_format(&line, "  What governs: %s", reasons[r->result.governs]);
    put_place(&line, r, s->units);
    text_char(&line, '.');
    put_lines(out, &line, 4, s);
}

static void say_taken(text *out, const frame_tube_answer *r, const screen *s)
{
    const bool bow = r->given.tube.bow > 0 && r->given.tube.bow_clock <= RBOW_ANY_CLOCK && !isnan(r->result.bow_clock_taken);
    const bool relaxed = r->result.fit_taken == RBOW_FRAME_UNFORCED && r->result.margin_unforced < r->result.margin_as_built;
    text line = {0};
    if (!bow && !relaxed) return;
    text_put(&line, "  Taken at its worst:");
    if (bow) {
        text_put(&line, " bow toward ");
        put_degrees(&line, r->result.bow_clock_taken, 0);
        text_put(&line, "\u00b0");
    }
    if (relaxed) text_format(&line, "%s all that is locked in gone", bow ? "," : "");
    text_char(&line, '.');
    put_lines(out, &line, 4, s);
}

/* ---- what is locked in ------------------------------------------------------------------------------------- */

static void put_cost(text *out, const frame_tube_answer *r)
{
    const double cost = frame_fit_cost(r);
    if (isfinite(cost)) {
        text_format(out, " What was forced into the frame %s it %.1f points of margin: without it %s is ", cost < 0 ? "brings" : "costs",
                    fabs(cost) + 0.0, unforced_margin_words(r->detail.governs));
        put_percent(out, r->result.margin_unforced);
        text_char(out, '.');
    } else if (isinf(r->result.margin_unforced)) {
        text_put(out, " Without what was forced into the frame no run load could make it yield or buckle.");
    }
}

static void say_fit(text *out, const frame_tube_answer *r, const screen *s)
{
    const rbow_material *m = r->given.tube.material;
    text line = {0};
    text_put(&line, "  Forced fit:");
    if (isnan(r->result.fit_stress)) {
        text_put(&line, " without any run load the frame as built has no state in balance.");
    } else {
        const bool softer = !(fabs(r->given.tube.weld_zone) <= 0) && m->weld_yield < m->yield;
        text_put(&line, " before any load this tube already carries ");
        put_quantity(&line, r->result.fit_stress, DIM_STRESS, s->units, ROUND_NEAREST);
        text_format(&line, ", %s%.0f %% of its yield.", softer ? "up to " : "",
                    100 * r->result.fit_stress / (softer ? m->weld_yield : m->yield));
    }
    put_cost(&line, r);
    put_lines(out, &line, 4, s);
}

static void say_neighbour(text *out, const frame_answers *a, const screen *s)
{
    const frame_tube_answer *most = frame_neighbour(a);
    if (most == NULL) return;
    text line = {0};
    text_put(&line, "  Neighbours: ");
    put_name(&line, most->given.name);
    text_put(&line, " is not forced itself, yet carries ");
    put_quantity(&line, most->result.fit_stress, DIM_STRESS, s->units, ROUND_NEAREST);
    text_put(&line, " before any load.");
    put_lines(out, &line, 4, s);
}

static void say_out_of_place(text *out, const frame_answers *a, const screen *s)
{
    double distance;
    const frame_joint_answer *most = frame_moved_by_fit(a, &distance);
    if (most == NULL) return;
    text line = {0};
    text_put(&line, "  Joints: forcing has moved ");
    put_name(&line, most->name);
    text_put(&line, " most, by ");
    put_quantity(&line, distance, DIM_LENGTH, s->units, ROUND_NEAREST);
    text_char(&line, '.');
    put_lines(out, &line, 4, s);
}

/* What would hold only because of what is locked in is short: that can relax. */
static void say_propped(text *out, const frame_answers *a, const screen *s)
{
    for (size_t i = 0; i < a->judged; i++) {
        const frame_tube_answer *r = frame_worst_run(a, i);
        if (!frame_holds_by_fit(r)) continue;
        text line = {0};
        text_put(&line, "Careful: ");
        put_name(&line, r->given.name);
        text_put(&line, " would hold only by what is locked in (margin as built ");
        put_percent(&line, r->result.margin_as_built);
        text_put(&line, "). That can relax, so it does not count as help.");
        put_lines(out, &line, 2, s);
    }
}

/* ---- remarks ------------------------------------------------------------------------------------------------ */

static void say_remark(text *out, const frame_answers *a, unsigned bit, const char *remark, const char *meaning, const screen *s)
{
    enum { NAMED = 4 };
    size_t found = 0;
    text line = {0}, names = {0};
    for (size_t i = 0; i < a->judged; i++) {
        if (!frame_has_remark(a, i, bit) || found++ >= NAMED) continue;
        if (found > 1) text_put(&names, ", ");
        put_name(&names, frame_worst_run(a, i)->given.name);
    }
    if (found > NAMED) text_format(&names, " and %zu more", found - NAMED);
    text_format(&line, "  %s: %s (%s)", remark, meaning, found == a->judged && a->judged > 1 ? "all" : text_string(&names, &out->failed));
    if (found > 0) put_paragraph(out, &line, 4, TONE_PLAIN, s);
    text_free(&line);
    text_free(&names);
}

static void say_remarks(text *out, const frame_answers *a, const screen *s)
{
    bool any = false;
    for (size_t i = 0; i < a->judged && !any; i++)
        any = frame_has_remark(a, i, FRAME_NEAR_BUCKLING - 1) || frame_has_remark(a, i, FRAME_NEAR_BUCKLING);
    if (!any) return;
    text_put(out, "\nRemarks:\n");
    for (int i = 0; i < RBOW_REMARK_COUNT; i++)
        say_remark(out, a, remark_list[i].bit, rbow_remark_text(remark_list[i].bit), remark_list[i].meaning, s);
    say_remark(out, a, FRAME_NEAR_BUCKLING, NEAR_BUCKLING, near_buckling_meaning, s);
}

void frame_verdict_text(text *out, const frame_answers *a, const screen *s)
{
    const frame_tube_answer *worst = frame_worst(a);
    say_count(out, a, s);
    say_worst(out, worst, s);
    say_advice(out, a->advice, s);
    say_where(out, worst, s);
    say_taken(out, worst, s);
    if (frame_has_fit(a->model)) say_fit(out, worst, s);
}

/* Each detail in its worst run, or in every run. */
static void say_details(text *out, const frame_answers *a, bool every, const screen *s)
{
    const size_t all = a->run_count * a->detail_count;
    detail_answer *shown_ones = malloc((all + 1) * sizeof *shown_ones);
    size_t count = 0;
    out->failed = out->failed || shown_ones == NULL;
    for (size_t i = 0; i < all && shown_ones != NULL && every; i++)
        if (a->runs[i / a->detail_count].solved) shown_ones[count++] = a->details[i];
    for (size_t i = 0; i < a->detail_count && shown_ones != NULL && !every; i++) shown_ones[count++] = *frame_weakest_detail(a, i);
    if (shown_ones != NULL) details_text(out, shown_ones, count, every, s);
    free(shown_ones);
}

void frame_text(text *out, const frame_answers *a, int of, bool every, const screen *s)
{
    const frame_tube_answer *worst = frame_worst(a);
    const bool forced = frame_has_fit(a->model);
    put_refused(out, s);
    if (worst != NULL) {
        frame_verdict_text(out, a, s);
        if (forced) say_neighbour(out, a, s);
        if (forced) say_out_of_place(out, a, s);
        say_propped(out, a, s);
        if (of == OF_JOINTS) frame_joints_text(out, a, s);
        else if (of != OF_ARCH && of != OF_DETAILS) frame_runs_text(out, a, s);
        if (a->arch != NULL) frame_arch_text(out, a, s);
        if (of == OF_TUBES) frame_tubes_text(out, a, every, forced, s);
        if (of == OF_TUBES || of == OF_DETAILS) say_details(out, a, of == OF_DETAILS, s);
        if (of == OF_TUBES) say_remarks(out, a, s);
    }
    text_char(out, '\n');
    put_sentence(out, frame_assumptions, 0, s);
    put_end(out, s);
}
