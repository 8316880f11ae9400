#include "command/commands.h"

#include "cases/case_table.h"
#include "command/frame/cases_frame.h"
#include "program/case_check.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/frame/frame_read.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/page/rail_drawing.h"
#include "report/text/cells.h"
#include "report/text/working_text.h"
#include "table/text.h"

#include <math.h>
#include <stdlib.h>

/* What no command could take is refused here too, so that the rows are those of check. A rigid surrounding is the default, and
 * no number. */
static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    listed_case answer = {.given = *(const load_case *)record, .line = (double)at->line};
    rbow_member *m = &answer.given.member;
    const rbow_material *material = case_material(&run->materials, &answer.given, at, complaints);
    if (material == NULL) return NO_VERDICT;
    *m = rbow_member_resolved(m, material);
    if (isinf(m->gap_stiffness)) m->gap_stiffness = NAN;
    rows_add(answers, &answer);
    return ALL_HOLD;
}

/* Every column differs from a record without values: all are printed. */
static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    for (size_t i = 0; i < kept->count; i++) {
        const load_case *c = (const void *)(kept->kept + i * kept->list->record_size);
        if (i > 0) text_char(&t, '\n');
        record_text(&t, &case_list, c, &s);
    }
    put_end(&t, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

/* ---- the page ----------------------------------------------------------------------------------------------- */

/* The drawing shows the concrete case that the check would take, where directions are not known. */
static bool fill_picture(picture *p, const case_run *run, const load_case *c)
{
    int known;
    rbow_result result;
    rbow_member m = c->member;
    const rbow_material *material = rbow_material_find(run->materials.list, run->materials.count, c->material, m.wall, &known);
    if (isnan(m.gap_stiffness)) m.gap_stiffness = INFINITY; /* see answer_case */
    if (material == NULL || rbow_member_check(&m, material, &result) != RBOW_OK) return false;
    m = rbow_member_taken(&m, &result);
    picture_of(p, &m, material, &result);
    return true;
}

static void put_case(text *out, const case_run *run, const load_case *c, picture *p, unit_system units)
{
    text_put(out, "<section>\n");
    html_element(out, "h2", NULL, c->name);
    if (fill_picture(p, run, c)) page_rail_drawing(out, p, c->member.od, units);
    else text_put(out, "<p>This case cannot be drawn: check says why.</p>\n");
    text_put(out, "</section>\n");
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    page_head head = report_head(run, page, status);
    picture *p = malloc(sizeof *p);
    text body = {0};
    head.tolerance = "";
    head.record = "What was read";
    if (head.title == NULL) head.title = "Load cases as read";
    body.failed = p == NULL;
    page_refused(&body, &head);
    text_put(&body, "<p>Nothing is judged on this page. A direction that is not known is drawn as the check takes it, at its worst.</p>\n");
    text_put(&body, "<div class=\"figures\">\n");
    for (size_t i = 0; i < kept->count && p != NULL; i++)
        put_case(&body, run, (const void *)(kept->kept + i * kept->list->record_size), p, head.units);
    text_put(&body, "</div>\n");
    free(p);
    return report_write(page, &head, &body);
}

int command_cases(const options *o)
{
    for (int i = 0; i < o->operand_count; i++)
        if (is_folder(o->operands[i])) return cases_frame(o, o->operands[i]);
    if (o->view_given) {
        say("cases: --view is for a frame: name its folder");
        return NO_VERDICT;
    }
    listed_columns listed;
    listed_columns_fill(&listed);
    case_run run = {
        .options = o,
        .name = "cases",
        .results = o->format == FORMAT_JSON ? &listed.list : &case_list,
        .jobs = o->jobs,
        .answer = answer_case,
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}
