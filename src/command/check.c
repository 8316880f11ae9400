#include "command/commands.h"

#include "command/case_run.h"
#include "command/checked.h"
#include "command/picture.h"
#include "command/report.h"
#include "command/say.h"
#include "command/working.h"
#include "report/check_text.h"

#include <stdlib.h>

/* An answer with what its card on the page needs: the columns of check_list, and the case behind them. */
typedef struct drawn_row {
    check_row row;
    rbow_member member;
    const rbow_material *material;
} drawn_row;

static int answer_case(const case_run *run, const place *at, const void *record, rows *answers, text *complaints)
{
    const load_case *c = record;
    checked answer;
    const int status = check_case(&run->materials, c, at, &answer, complaints);
    if (status == NO_VERDICT) return status;
    if (run->results == &check_list) {
        rows_add(answers, &answer.row);
    } else {
        const drawn_row drawn = {answer.row, c->member, answer.material};
        rows_add(answers, &drawn);
    }
    return status;
}

static const check_row *row_at(const rows *kept, size_t i)
{
    return (const void *)(kept->kept + i * kept->list->record_size);
}

static bool write_text(const case_run *run, output *out, const rows *kept, int *status)
{
    (void)run;
    text t = {0};
    check_row *plain = malloc((kept->count + 1) * sizeof *plain);
    for (size_t i = 0; plain != NULL && i < kept->count; i++) plain[i] = *row_at(kept, i);
    t.failed = plain == NULL;
    if (plain != NULL) check_text(&t, plain, kept->count, *status == NO_VERDICT, out->units, out->colour);
    const bool fine = output_text(out, &t);
    text_free(&t);
    free(plain);
    return fine;
}

/* ---- the page --------------------------------------------------------------------------------------- */

static bool write_card(output *page, const page_head *head, const drawn_row *d, size_t number)
{
    text t = {0};
    rbow_result r;
    working *w = calloc(1, sizeof *w);
    picture *p = calloc(1, sizeof *p);
    t.failed = w == NULL || p == NULL;
    if (!t.failed && rbow_member_check(&d->member, d->material, &r) == RBOW_OK
        && working_of(w, &d->member, d->material, &r, head->units)) {
        picture_of(p, &d->member, d->material, &r);
        page_card(&t, head, &d->row, number, p, w);
        t.failed = t.failed || working_failed(w);
    }
    const bool fine = output_text(page, &t);
    if (w != NULL) working_free(w);
    free(w);
    free(p);
    text_free(&t);
    return fine;
}

static bool write_front(output *page, const page_head *head, const rows *kept)
{
    text t = {0};
    const check_row **all = malloc((kept->count + 1) * sizeof *all);
    for (size_t i = 0; all != NULL && i < kept->count; i++) all[i] = row_at(kept, i);
    t.failed = all == NULL;
    if (all != NULL) {
        page_open(&t, head);
        page_verdict(&t, head, all, kept->count);
    }
    const bool fine = output_text(page, &t);
    free(all);
    text_free(&t);
    return fine;
}

static bool write_page(const case_run *run, output *page, const rows *kept, int status)
{
    const page_head head = report_head(run, page, status);
    bool fine = write_front(page, &head, kept);
    for (size_t i = 0; fine && i < kept->count; i++) fine = write_card(page, &head, (const void *)row_at(kept, i), i + 1);
    text t = {0};
    page_close(&t);
    fine = fine && output_text(page, &t);
    text_free(&t);
    return fine;
}

int command_check(const options *o)
{
    field_list drawn = check_list;
    drawn.record_size = sizeof(drawn_row);
    case_run run = {
        .options = o,
        .name = "check",
        .results = o->report != NULL ? &drawn : &check_list,
        .jobs = o->jobs,
        .answer = answer_case,
        .write = write_text,
        .report = write_page,
    };
    return case_run_all(&run);
}
