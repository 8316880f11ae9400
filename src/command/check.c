#include "command/commands.h"

#include "cases/frame_results.h"
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
#include "study/member_details.h"
#include "working/working.h"

#include <stdlib.h>

static bool wants_details(const case_run *run)
{
    return run->options->of == OF_DETAILS;
}

static void add_case(const case_run *run, const check_row *r, rows *answers)
{
    const detail_answer none = {"", "", "", "", "", .detail = {.kind = 0}};
    const checked_row both = {*r, none, false};
    if (run->keeps) rows_add(answers, &both);
    else if (!wants_details(run)) rows_add(answers, r);
}

static void add_details(const case_run *run, const load_case *of, const rbow_detail_result *each, rows *answers)
{
    char remarks[DETAIL_REMARKS_ROOM];
    const check_row none = {.given = {"", "", "", "", .details = NULL}, .governs = "", .remarks = ""};
    for (size_t i = 0; (run->keeps || wants_details(run)) && i < of->details->count; i++) {
        const detail_answer d = case_detail_answer(of, i, each, remarks);
        const checked_row both = {none, d, true};
        rows_add(answers, run->keeps ? (const void *)&both : &d);
    }
}

static int answer_case(const case_run *run, const source_line *at, const void *record, rows *answers, text *complaints)
{
    checked answer;
    const load_case *c = record;
    const size_t count = c->details != NULL ? c->details->count : 0;
    rbow_detail_result *each = count > 0 ? malloc(count * sizeof *each) : NULL;
    complaints->failed = complaints->failed || (count > 0 && each == NULL);
    const int status = complaints->failed ? NO_VERDICT : check_case(&run->materials, c, at, &answer, each, complaints);
    if (status != NO_VERDICT) add_case(run, &answer.row, answers);
    if (status != NO_VERDICT && count > 0) add_details(run, c, each, answers);
    free(each);
    return status;
}

/* The cases and the details of kept rows, each in their order. Memory is that of `kept`. */
typedef struct check_answers {
    check_row *cases;
    detail_answer *details;
    size_t case_count, detail_count;
} check_answers;

/* Returned: false after a message. answers_close either way. */
static bool answers_open(check_answers *a, const rows *kept)
{
    const checked_row *from = (const void *)kept->kept;
    *a = (check_answers){.cases = malloc((kept->count + 1) * sizeof *a->cases), .details = malloc((kept->count + 1) * sizeof *a->details)};
    if (a->cases == NULL || a->details == NULL) {
        say("out of memory");
        return false;
    }
    for (size_t i = 0; i < kept->count; i++) {
        if (from[i].is_detail) a->details[a->detail_count++] = from[i].detail;
        else a->cases[a->case_count++] = from[i].row;
    }
    return true;
}

static void answers_close(check_answers *a)
{
    free(a->cases);
    free(a->details);
}

static void put_text(text *out, const case_run *run, const check_answers *a, const output *to, int status)
{
    text words = {0};
    const screen s = screen_of(to, status == NO_VERDICT, &run->refused, &words);
    check_text(out, a->cases, a->case_count, a->details, a->detail_count, wants_details(run), &s);
    text_free(&words);
}

static void put_rows(text *out, const case_run *run, const check_answers *a, const output *to)
{
    rows written = rows_for(to, run->results);
    if (wants_details(run))
        for (size_t i = 0; i < a->detail_count; i++) rows_add(&written, &a->details[i]);
    else
        for (size_t i = 0; i < a->case_count; i++) rows_add(&written, &a->cases[i]);
    *out = written.written;
}

static bool write_answers(const case_run *run, output *out, const rows *kept, int *status)
{
    text t = {0};
    check_answers a;
    bool fine = answers_open(&a, kept);
    if (fine) {
        if (out->format == FORMAT_TEXT) put_text(&t, run, &a, out, *status);
        else put_rows(&t, run, &a, out);
        fine = output_text(out, &t);
    }
    answers_close(&a);
    text_free(&t);
    return fine;
}

/* ---- the page --------------------------------------------------------------------------------------- */

static bool write_card(output *page, const page_head *head, const check_row *r, size_t number)
{
    text t = {0};
    working *w = calloc(1, sizeof *w);
    picture *p = calloc(1, sizeof *p);
    t.failed = w == NULL || p == NULL;
    if (!t.failed && working_of(w, &r->taken, r->material, &r->tube, head->units)) {
        picture_of(p, &r->taken, r->material, &r->tube);
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

static bool write_front(output *page, const page_head *head, const check_row *answers, size_t count)
{
    text t = {0};
    page_open(&t, head);
    page_front(&t, head, answers, count);
    const bool fine = output_text(page, &t);
    text_free(&t);
    return fine;
}

static bool write_cards(output *page, const page_head *head, const check_answers *a)
{
    bool fine = write_front(page, head, a->cases, a->case_count);
    for (size_t i = 0; fine && i < a->case_count; i++) fine = write_card(page, head, &a->cases[i], i + 1);
    text t = {0};
    page_close(&t, head);
    fine = fine && output_text(page, &t);
    text_free(&t);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    const page_head head = report_head(run, page, status);
    check_answers a;
    const bool fine = answers_open(&a, kept) && write_cards(page, &head, &a);
    answers_close(&a);
    return fine;
}

int command_check(const options *o)
{
    for (int i = 0; i < o->operand_count; i++)
        if (is_folder(o->operands[i])) return check_frame(o, o->operands[i]);
    if ((o->of_given && o->of != OF_DETAILS) || o->all || o->arch != NULL) {
        say("check: --%s is for a frame: name its folder", o->all ? "all" : o->arch != NULL ? "arch" : "of tubes, joints, runs or arch");
        return NO_VERDICT;
    }
    if (o->of == OF_DETAILS && o->details == NULL) {
        say("check: --of details needs --details FILE: the table of details");
        return NO_VERDICT;
    }
    case_run run = {
        .options = o,
        .name = "check",
        .results = o->of == OF_DETAILS ? &case_details_list : &check_list,
        .kept = &checked_list,
        .jobs = o->jobs,
        .answer = answer_case,
        .write = write_answers,
        .report = write_page,
    };
    return case_run_all(&run);
}
