#include "program/frame/frame_names.h"

#include "table/names.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static int by_name(const void *a, const void *b)
{
    const frame_name *first = a, *second = b;
    const int order = strcmp(first->name, second->name);
    return order != 0 ? order : first->row < second->row ? -1 : first->row > second->row;
}

bool frame_names_open(frame_names *n, const void *records, size_t count, size_t stride)
{
    *n = (frame_names){.count = count};
    n->sorted = malloc((count > 0 ? count : 1) * sizeof *n->sorted);
    if (n->sorted == NULL) return false;
    for (size_t i = 0; i < count; i++) {
        const char *name;
        memcpy(&name, (const char *)records + i * stride, sizeof name);
        n->sorted[i] = (frame_name){name, i};
    }
    qsort(n->sorted, count, sizeof *n->sorted, by_name);
    return true;
}

void frame_names_close(frame_names *n)
{
    free(n->sorted);
    n->sorted = NULL;
}

size_t frame_names_find(const frame_names *n, const char *name)
{
    size_t low = 0, high = n->count;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (strcmp(n->sorted[middle].name, name) < 0) low = middle + 1;
        else high = middle;
    }
    return low < n->count && strcmp(n->sorted[low].name, name) == 0 ? n->sorted[low].row : SIZE_MAX;
}

const char *frame_names_nearest(frame_names *n, const char *name)
{
    enum { GUESSES_MOST = 40 }; /* more messages of one kind are not shown */
    if (n->guesses++ >= GUESSES_MOST) return NULL;
    nearest_name near = nearest_to(name);
    for (size_t i = 0; i < n->count; i++) nearest_try(&near, n->sorted[i].name);
    return near.best;
}
