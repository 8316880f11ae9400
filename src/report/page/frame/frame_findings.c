#include "report/page/frame/frame_findings.h"

#include "cases/case_words.h"
#include "cases/detail/detail_sentences.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

static void begin(text *out, const char *heading)
{
    text_format(out, "<li><strong>%s:</strong> ", heading);
}

static void end(text *out)
{
    text_put(out, ".</li>\n");
}

static void put_name(text *out, const char *name)
{
    text_put(out, "‘");
    html_text(out, name);
    text_put(out, "’");
}

static void put_governs(text *out, const frame_tube_answer *r, unit_system units)
{
    const double at = r->result.governs_at;
    if (r->result.governs == RBOW_FRAME_BY_NONE && !r->detail.governs) return;
    begin(out, "What governs");
    text_put(out, r->result.governs == RBOW_FRAME_BY_FRAME ? "the frame as a whole buckles" : r->governs);
    if (at <= 0 || at >= r->result.length) {
        text_put(out, ", at joint ");
        put_name(out, at <= 0 ? r->given.from : r->given.to);
    } else if (!isnan(at)) {
        text_put(out, ", ");
        page_quantity(out, at, DIM_LENGTH, units);
        text_put(out, " from joint ");
        put_name(out, r->given.from);
    }
    end(out);
}

static void put_cost(text *out, const frame_tube_answer *r)
{
    const double cost = frame_fit_cost(r);
    if (!isfinite(cost)) return;
    text_format(out, ". What was forced into the frame %s it %.1f points of margin: without it %s is ", cost < 0 ? "brings" : "costs",
                fabs(cost) + 0.0, unforced_margin_words(r->detail.governs));
    put_percent(out, r->result.margin_unforced);
}

static void put_fit(text *out, const frame_tube_answer *r, unit_system units)
{
    begin(out, "Forced fit");
    if (isnan(r->result.fit_stress)) {
        text_put(out, "without any run load the frame as built has no state in balance");
    } else {
        text_put(out, "before any load ");
        put_name(out, r->given.name);
        text_put(out, " already carries ");
        page_quantity(out, r->result.fit_stress, DIM_STRESS, units);
    }
    put_cost(out, r);
    end(out);
}

static void put_neighbour(text *out, const frame_answers *a, unit_system units)
{
    const frame_tube_answer *r = frame_neighbour(a);
    if (r == NULL) return;
    begin(out, "Neighbours");
    put_name(out, r->given.name);
    text_put(out, " is not forced itself, yet carries ");
    page_quantity(out, r->result.fit_stress, DIM_STRESS, units);
    text_put(out, " before any load");
    end(out);
}

static void put_moved(text *out, const frame_answers *a, unit_system units)
{
    double distance;
    const frame_joint_answer *most = frame_moved_by_fit(a, &distance);
    if (most == NULL) return;
    begin(out, "Joints");
    text_put(out, "forcing has moved ");
    put_name(out, most->name);
    text_put(out, " most, by ");
    page_quantity(out, distance, DIM_LENGTH, units);
    end(out);
}

static void put_stiffness(text *out, const frame_answers *a)
{
    double factor;
    const frame_tube_answer *r = frame_first_to_buckle(a, &factor);
    if (r == NULL) return;
    begin(out, "How stiff the joints are");
    text_put(out, "when the frame buckles in run ");
    put_name(out, r->run);
    text_put(out, ", ");
    put_name(out, r->given.name);
    text_put(out, " carries ");
    put_number(out, frame_fixity(r, factor), 2);
    text_put(out, " times its critical load with pinned ends (4: with fixed ends; below 1: its joints sway)");
    end(out);
}

static void put_weight(text *out, const frame_answers *a, unit_system units)
{
    size_t run = 0;
    while (!a->runs[run].solved) run++;
    const rbow_frame_run_result *r = &a->runs[run].result;
    begin(out, "Weight");
    text_put(out, "the tubes ");
    page_quantity(out, r->weight, DIM_MASS, units);
    if (r->mass > r->weight) {
        text_put(out, ", with the masses at the joints ");
        page_quantity(out, r->mass, DIM_MASS, units);
    }
    end(out);
}

static void put_remark(text *out, const frame_answers *a, unsigned bit, const char *remark, const char *meaning)
{
    size_t found = 0;
    text names = {0};
    for (size_t i = 0; i < a->judged; i++) {
        if (!frame_has_remark(a, i, bit)) continue;
        if (found++ > 0) text_put(&names, ", ");
        put_name(&names, frame_worst_run(a, i)->given.name);
    }
    if (found > 0) {
        begin(out, remark);
        html_text(out, meaning);
        text_format(out, " (%s)", found == a->judged && found > 1 ? "all tubes" : text_string(&names, &out->failed));
        end(out);
    }
    text_free_part(&names, out);
}

void frame_findings(text *out, const frame_answers *a, unit_system units)
{
    const frame_tube_answer *worst = frame_worst(a);
    const bool forced = frame_has_fit(a->model);
    text_put(out, "<ul>\n");
    put_governs(out, worst, units);
    if (forced) put_fit(out, worst, units);
    if (forced) put_neighbour(out, a, units);
    if (forced) put_moved(out, a, units);
    put_stiffness(out, a);
    put_weight(out, a, units);
    for (int i = 0; i < RBOW_REMARK_COUNT; i++)
        put_remark(out, a, remark_list[i].bit, rbow_remark_text(remark_list[i].bit), remark_list[i].meaning);
    put_remark(out, a, FRAME_NEAR_BUCKLING, NEAR_BUCKLING, near_buckling_meaning);
    text_put(out, "</ul>\n");
}
