#include "cases/part_groups.h"

#include <stdlib.h>
#include <string.h>

typedef struct named_row {
    const char *name;
    size_t row;
} named_row;

static int by_name(const void *a, const void *b)
{
    const named_row *x = a, *y = b;
    const int order = strcmp(x->name, y->name);
    return order != 0 ? order : (x->row > y->row) - (x->row < y->row);
}

bool part_groups(const char *const names[], size_t count, size_t of[], size_t *parts)
{
    named_row *order = malloc((count + 1) * sizeof *order);
    *parts = 0;
    if (order == NULL) return false;
    for (size_t i = 0; i < count; i++) order[i] = (named_row){names[i], i};
    qsort(order, count, sizeof *order, by_name);
    /* the first row of its part stands for it, then gets its number */
    for (size_t i = 0; i < count; i++)
        of[order[i].row] = i > 0 && strcmp(order[i].name, order[i - 1].name) == 0 ? of[order[i - 1].row] : order[i].row;
    for (size_t i = 0; i < count; i++) of[i] = of[i] == i ? (*parts)++ : of[of[i]];
    free(order);
    return true;
}
