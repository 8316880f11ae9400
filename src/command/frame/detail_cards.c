#include "command/frame/detail_cards.h"

#include "command/frame/detail_work.h"
#include "report/page/detail/detail_card.h"

#include <stdlib.h>

enum { SHOWN_MOST = 12 };

/* Its answer in the run with its lowest margin. Returned: run */
static const detail_answer *weakest_run(const frame_solved *s, size_t detail, size_t *run)
{
    const detail_answer *worst = NULL;
    for (size_t i = 0; i < s->answers.run_count; i++) {
        const detail_answer *d = &s->details[i * s->answers.detail_count + detail];
        if (!s->answers.runs[i].solved || (worst != NULL && !(d->result.margin < worst->result.margin))) continue;
        worst = d;
        *run = i;
    }
    return worst;
}

typedef struct shown_detail {
    const detail_answer *answer;
    size_t run, tube;
} shown_detail;

static int weakest_first(const void *a, const void *b)
{
    const shown_detail *x = a, *y = b;
    const double left = x->answer->result.margin, right = y->answer->result.margin;
    if (left < right || left > right) return left < right ? -1 : 1;
    return x->answer < y->answer ? -1 : x->answer > y->answer;
}

static void put_card(text *out, const page_head *head, const frame_model *m, rbow_frame_solver *solver, const shown_detail *d)
{
    detail_work k;
    const bool worked = detail_work_in_frame(&k, d->answer, solver, m, d->run, d->tube, head->units);
    page_detail_card(out, head, &k.worked, k.states, worked ? &k.working : NULL);
    out->failed = out->failed || working_failed(&k.working);
    detail_work_free(&k);
}

static void put_all(text *out, const page_head *head, const frame_build *b, const shown_detail *list, size_t count)
{
    rbow_frame_solver *solver;
    const size_t most = head->all_sheets || count < SHOWN_MOST ? count : SHOWN_MOST;
    void *memory = frame_room(&b->model.frame);
    if (memory == NULL || rbow_frame_open(&b->model.frame, memory, &solver, NULL) != RBOW_OK) {
        out->failed = true;
    } else {
        text_put(out, "<h2>Details, each in its worst run, the weakest first</h2>\n");
        for (size_t i = 0; i < most; i++) put_card(out, head, &b->model, solver, &list[i]);
        if (most < count) text_format(out, "<p class=\"soft\">%zu more have larger margins.</p>\n", count - most);
    }
    free(memory);
}

void put_detail_cards(text *out, const page_head *head, const frame_build *b, const frame_solved *s)
{
    shown_detail *list = malloc((s->answers.detail_count + 1) * sizeof *list);
    size_t count = 0;
    out->failed = out->failed || list == NULL;
    for (size_t i = 0; i < s->answers.detail_count && list != NULL; i++) {
        shown_detail d = {.tube = b->details.at[s->detailed[i]].tube};
        d.answer = weakest_run(s, i, &d.run);
        if (d.answer != NULL) list[count++] = d;
    }
    if (list != NULL) qsort(list, count, sizeof *list, weakest_first);
    if (count > 0) put_all(out, head, b, list, count);
    free(list);
}
