#include "cases/frame_order.h"

#include <stdlib.h>

typedef struct place {
    double margin;
    size_t tube;
} place;

static int by_margin(const void *a, const void *b)
{
    const place *first = a, *second = b;
    if (first->margin < second->margin) return -1;
    if (first->margin > second->margin) return 1;
    return first->tube < second->tube ? -1 : first->tube > second->tube;
}

bool frame_order_of(frame_order *order, const frame_answers *a)
{
    place *places = malloc((a->judged + 1) * sizeof *places);
    *order = (frame_order){malloc((a->judged + 1) * sizeof *order->tubes), 0};
    if (places != NULL && order->tubes != NULL) order->count = a->judged;
    for (size_t i = 0; i < order->count; i++) places[i] = (place){frame_worst_run(a, i)->result.margin, i};
    if (order->count > 0) qsort(places, order->count, sizeof *places, by_margin);
    for (size_t i = 0; i < order->count; i++) order->tubes[i] = places[i].tube;
    free(places);
    return order->count == a->judged;
}

void frame_order_free(frame_order *order)
{
    free(order->tubes);
    order->tubes = NULL;
}

size_t frame_order_listed(const frame_order *order, const frame_answers *a)
{
    size_t fallen = 0;
    while (fallen < order->count && !frame_tube_holds(a, order->tubes[fallen])) fallen++;
    const size_t rest = order->count - fallen;
    return fallen + (rest < FRAME_CLOSEST ? rest : FRAME_CLOSEST);
}
