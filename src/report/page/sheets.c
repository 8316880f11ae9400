#include "report/page/sheets.h"

#include <stdlib.h>

typedef struct ranked {
    double margin;
    size_t row;
} ranked;

static int by_margin(const void *a, const void *b)
{
    const ranked *x = a, *y = b;
    if (x->margin < y->margin || x->margin > y->margin) return x->margin < y->margin ? -1 : 1;
    return (x->row > y->row) - (x->row < y->row);
}

bool sheets_plan(sheets *s, const check_row *rows, size_t count, bool all)
{
    size_t fallen = 0;
    ranked *list = malloc((count > 0 ? count : 1) * sizeof *list);
    *s = (sheets){.order = malloc((count > 0 ? count : 1) * sizeof *s->order), .cases = count};
    const bool fine = list != NULL && s->order != NULL;
    for (size_t i = 0; fine && i < count; i++) {
        list[i] = (ranked){rows[i].result.margin, i};
        fallen += rows[i].result.verdict == RBOW_SHORT;
    }
    if (fine) qsort(list, count, sizeof *list, by_margin);
    for (size_t i = 0; fine && i < count; i++) s->order[i] = list[i].row;
    const size_t wanted = fallen < SHEETS_LEAST ? SHEETS_LEAST : fallen < SHEETS_MOST ? fallen : SHEETS_MOST;
    s->count = all || wanted > count ? count : wanted;
    free(list);
    return fine;
}

void sheets_free(sheets *s)
{
    free(s->order);
    s->order = NULL;
}
