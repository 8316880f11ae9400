#include "command/commands.h"

#include "cases/frame_results.h"
#include "command/advise.h"
#include "command/frame/check_frame.h"
#include "command/frame/detail_work.h"
#include "program/case_check.h"
#include "program/case_run.h"
#include "program/exit_status.h"
#include "program/frame/frame_read.h"
#include "program/report_file.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/page/card.h"
#include "report/page/detail/detail_card.h"
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

/* The cases and the details of kept rows, each in their order, and what to do about the worst of them: worked out when they are first
 * asked for, by text, rows or page. Memory of the rows is that of `kept`. */
typedef struct check_answers {
    check_row *cases;
    detail_answer *details;
    size_t *first_detail; /* of each case, and one behind the last */
    size_t case_count, detail_count;
    bool opened, advised;
    advice advice;
} check_answers;

static void answers_close(check_answers *a)
{
    free(a->cases);
    free(a->details);
    free(a->first_detail);
}

/* Returned: false after a message. */
static bool answers_open(check_answers *a, const rows *kept)
{
    const checked_row *from = (const void *)kept->kept;
    if (a->opened) return true;
    answers_close(a); /* of an attempt before, for which memory did not suffice */
    *a = (check_answers){.cases = malloc((kept->count + 1) * sizeof *a->cases), .details = malloc((kept->count + 1) * sizeof *a->details),
                         .first_detail = malloc((kept->count + 1) * sizeof *a->first_detail)};
    if (a->cases == NULL || a->details == NULL || a->first_detail == NULL) {
        say("out of memory");
        return false;
    }
    for (size_t i = 0; i < kept->count; i++) {
        if (!from[i].is_detail) {
            a->first_detail[a->case_count] = a->detail_count;
            a->cases[a->case_count++] = from[i].row;
        } else {
            a->details[a->detail_count++] = from[i].detail;
        }
    }
    a->first_detail[a->case_count] = a->detail_count;
    a->opened = true;
    return true;
}

/* Given: a  open */
static const advice *advice_of(check_answers *a, const case_run *run, unit_system units)
{
    if (!a->advised) advise(&a->advice, a->case_count > 0 ? check_worst(a->cases, a->case_count) : NULL, &run->materials, &run->details, units);
    a->advised = true;
    return &a->advice;
}

static void put_text(text *out, const case_run *run, check_answers *a, const output *to, int status)
{
    text words = {0};
    const screen s = screen_of(to, status == NO_VERDICT, &run->refused, &words);
    check_text(out, a->cases, a->case_count, a->details, a->detail_count, wants_details(run), advice_of(a, run, to->units), &s);
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
    check_answers *a = run->state;
    bool fine = answers_open(a, kept);
    if (fine) {
        if (out->format == FORMAT_TEXT) put_text(&t, run, a, out, *status);
        else put_rows(&t, run, a, out);
        fine = output_text(out, &t);
    }
    text_free(&t);
    return fine;
}

static bool is_worse(const void *record, const void *kept)
{
    const check_row *a = record, *b = kept;
    return a->result.margin < b->result.margin;
}

/* The table `advice` of a JSON answer. Given: kept  as checked_row where answers are kept, else the worst case alone */
static rows advice_rows(const case_run *run, unit_system units, const rows *kept)
{
    const output json = {.format = FORMAT_JSON, .units = units};
    rows listed = rows_for(&json, &advice_list);
    check_answers *all = run->state;
    advice alone;
    const advice *a = &alone;
    if (!run->keeps) {
        advise(&alone, kept->count > 0 ? (const void *)kept->kept : NULL, &run->materials, &run->details, units);
    } else if (answers_open(all, kept)) {
        a = advice_of(all, run, units);
    } else {
        alone = (advice){.searched = true, .lost = true};
    }
    listed.written.failed = a->lost;
    listed.cut_short = !a->searched;
    for (size_t i = 0; i < a->count; i++) rows_add(&listed, &a->rows[i]);
    return listed;
}

/* ---- the page --------------------------------------------------------------------------------------- */

/* Of the details of a case. Returned: false where memory ran out. */
static bool set_marks(picture *p, picture_mark **marks, const check_answers *a, size_t of)
{
    const detail_answer *of_case = a->details + a->first_detail[of];
    p->mark_count = a->first_detail[of + 1] - a->first_detail[of];
    p->marks = *marks = malloc((p->mark_count + 1) * sizeof **marks);
    for (size_t i = 0; i < p->mark_count && *marks != NULL; i++)
        (*marks)[i] = (picture_mark){of_case[i].detail.at, of_case[i].name, of_case[i].result.verdict == RBOW_HOLDS};
    return *marks != NULL;
}

static bool write_card(output *page, const page_head *head, const check_answers *a, size_t of)
{
    const check_row *r = &a->cases[of];
    picture_mark *marks = NULL;
    text t = {0};
    working *w = calloc(1, sizeof *w);
    picture *p = calloc(1, sizeof *p);
    t.failed = w == NULL || p == NULL;
    if (!t.failed) {
        const bool worked = working_of(w, &r->taken, r->material, &r->tube, head->units);
        picture_of(p, &r->taken, r->material, &r->tube);
        p->governs = r->result.governs == RBOW_BY_NONE && !r->detail.governs ? NULL : r->governs;
        p->governs_at = r->result.governs_at;
        t.failed = !set_marks(p, &marks, a, of) || working_failed(w);
        if (!t.failed) page_card(&t, head, r, of + 1, p, worked ? w : NULL);
    }
    const bool fine = output_text(page, &t);
    if (w != NULL) working_free(w);
    free(w);
    free(p);
    free(marks);
    text_free(&t);
    return fine;
}

static bool write_detail(output *page, const page_head *head, const check_row *of, const detail_answer *d)
{
    text t = {0};
    detail_work k;
    const bool worked = detail_work_of(&k, d, &of->given.member, of->material, head->units);
    page_detail_card(&t, head, &k.worked, k.states, worked ? &k.working : NULL);
    t.failed = t.failed || working_failed(&k.working);
    const bool fine = output_text(page, &t);
    detail_work_free(&k);
    text_free(&t);
    return fine;
}

static bool write_details(output *page, const page_head *head, const check_answers *a, size_t of)
{
    bool fine = true;
    for (size_t i = a->first_detail[of]; fine && i < a->first_detail[of + 1]; i++) fine = write_detail(page, head, &a->cases[of], &a->details[i]);
    return fine;
}

static bool write_front(const case_run *run, output *page, const page_head *head, check_answers *a, const sheets *s)
{
    text t = {0};
    page_open(&t, head);
    page_front(&t, head, a->cases, s, advice_of(a, run, page->units));
    const bool fine = output_text(page, &t);
    text_free(&t);
    return fine;
}

static bool write_sheets(const case_run *run, output *page, const page_head *head, check_answers *a)
{
    sheets s;
    bool fine = sheets_plan(&s, a->cases, a->case_count, head->all_sheets);
    if (!fine) say("out of memory");
    fine = fine && write_front(run, page, head, a, &s);
    for (size_t i = 0; fine && i < s.count; i++)
        fine = write_card(page, head, a, s.order[i]) && write_details(page, head, a, s.order[i]);
    sheets_free(&s);
    text t = {0};
    page_close(&t, head);
    fine = fine && output_text(page, &t);
    text_free(&t);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    page_head head = report_head(run, page, status);
    check_answers *a = run->state;
    if (!answers_open(a, kept)) return false;
    head.alone = a->case_count == 1;
    return write_sheets(run, page, &head, a);
}

int command_check(const options *o)
{
    for (int i = 0; i < o->operand_count; i++)
        if (is_folder(o->operands[i])) return check_frame(o, o->operands[i]);
    if ((o->of_given && o->of != OF_DETAILS) || o->all || o->view_given || o->arch != NULL || o->tube_count > 0) {
        say("check: --%s is for a frame: name its folder", o->all ? "all" : o->view_given ? "view" : o->arch != NULL ? "arch"
            : o->tube_count > 0 ? "tube" : "of tubes, joints, runs or arch");
        return NO_VERDICT;
    }
    if (o->of == OF_DETAILS && o->details == NULL) {
        say("check: --of details needs --details FILE: the table of details");
        return NO_VERDICT;
    }
    check_answers answers_of_run = {.cases = NULL};
    case_run run = {
        .options = o,
        .name = "check",
        .state = &answers_of_run,
        .results = o->of == OF_DETAILS ? &case_details_list : &check_list,
        .kept = &checked_list,
        .jobs = o->jobs,
        .answer = answer_case,
        .prefers = o->of == OF_DETAILS ? NULL : is_worse,
        .beside = o->of == OF_DETAILS ? NULL : advice_rows,
        .beside_name = "advice",
        .write = write_answers,
        .report = write_page,
    };
    const int status = case_run_all(&run);
    answers_close(&answers_of_run);
    return status;
}
