#include "command/commands.h"

#include "command/advise.h"
#include "command/frame/check_frame.h"
#include "program/case_check.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/frame/frame_read.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/card.h"
#include "report/page/front.h"
#include "report/text/check_text.h"
#include "working/working.h"

#include <stdlib.h>

static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    checked answer;
    const int status = check_case(&run->materials, record, at, &answer, complaints);
    if (status != NO_VERDICT) rows_add(answers, &answer.row);
    return status;
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    text t = {0}, words = {0};
    const screen s = screen_of(out, *status == NO_VERDICT, &run->refused, &words);
    const check_row *answers = (const void *)kept->kept;
    advice a;
    advise(&a, kept->count > 0 ? check_worst(answers, kept->count) : NULL, &run->materials, out->units);
    check_text(&t, answers, kept->count, &a, &s);
    const bool fine = output_text(out, &t);
    text_free(&t);
    text_free(&words);
    return fine;
}

static bool is_worse(const void *record, const void *kept)
{
    const check_row *a = record, *b = kept;
    return a->result.margin < b->result.margin;
}

/* The table `advice` of a JSON answer. */
static rows advice_rows(const case_run *run, unit_system units, const rows *kept)
{
    const output json = {.format = FORMAT_JSON, .units = units};
    const check_row *answers = (const void *)kept->kept;
    rows changes = rows_for(&json, &advice_list);
    advice a;
    advise(&a, kept->count > 0 ? check_worst(answers, kept->count) : NULL, &run->materials, units);
    for (size_t i = 0; i < a.count; i++) rows_add(&changes, &a.rows[i]);
    return changes;
}

/* ---- the page --------------------------------------------------------------------------------------- */

static bool write_card(output *page, const page_head *head, const check_row *r, size_t number)
{
    text t = {0};
    working *w = calloc(1, sizeof *w);
    picture *p = calloc(1, sizeof *p);
    t.failed = w == NULL || p == NULL;
    if (!t.failed && working_of(w, &r->taken, r->material, &r->result, head->units)) {
        picture_of(p, &r->taken, r->material, &r->result);
        page_card(&t, head, r, number, p, w);
        t.failed = t.failed || working_failed(w);
    }
    const bool fine = output_text(page, &t);
    if (w != NULL) working_free(w);
    free(w);
    free(p);
    text_free(&t);
    return fine;
}

static bool write_front(const case_run *run, output *page, const page_head *head, const check_row *answers, const sheets *s)
{
    text t = {0};
    advice a;
    advise(&a, check_worst(answers, s->cases), &run->materials, page->units);
    page_open(&t, head);
    page_front(&t, head, answers, s, &a);
    const bool fine = output_text(page, &t);
    text_free(&t);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    const page_head head = report_head(run, page, status);
    const check_row *answers = (const void *)kept->kept;
    sheets s;
    bool fine = sheets_plan(&s, answers, kept->count, head.all_sheets);
    if (!fine) say("out of memory");
    fine = fine && write_front(run, page, &head, answers, &s);
    for (size_t i = 0; fine && i < s.count; i++) fine = write_card(page, &head, &answers[s.order[i]], s.order[i] + 1);
    sheets_free(&s);
    text t = {0};
    page_close(&t, &head);
    fine = fine && output_text(page, &t);
    text_free(&t);
    return fine;
}

int command_check(const options *o)
{
    for (int i = 0; i < o->operand_count; i++)
        if (is_folder(o->operands[i])) return check_frame(o, o->operands[i]);
    if (o->of_given || o->all || o->arch != NULL) {
        say("check: --%s is for a frame: name its folder", o->of_given ? "of" : o->all ? "all" : "arch");
        return NO_VERDICT;
    }
    case_run run = {
        .options = o,
        .name = "check",
        .results = &check_list,
        .jobs = o->jobs,
        .answer = answer_case,
        .prefers = is_worse,
        .beside = advice_rows,
        .beside_name = "advice",
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}
