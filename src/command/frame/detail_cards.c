#include "command/frame/detail_cards.h"

#include "command/frame/detail_work.h"
#include "report/page/detail/detail_card.h"

#include <stdlib.h>

enum { SHOWN_MOST = 12 };

typedef struct shown_detail {
    const detail_answer *answer;
    size_t run, tube;
} shown_detail;

static int weakest_first(const void *a, const void *b)
{
    return detail_by_margin(((const shown_detail *)a)->answer, ((const shown_detail *)b)->answer);
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
        const detail_answer *d = frame_weakest_detail(&s->answers, i);
        if (d == NULL) continue;
        list[count++] = (shown_detail){d, (size_t)(d - s->details) / s->answers.detail_count, b->details.at[s->detailed[i]].tube};
    }
    if (list != NULL) qsort(list, count, sizeof *list, weakest_first);
    if (count > 0) put_all(out, head, b, list, count);
    free(list);
}
