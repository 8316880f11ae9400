#include <railbow/material.h>

#include <string.h>

const rbow_material *rbow_material_find(const rbow_material *list, size_t count, const char *name, double wall,
                                        int *known)
{
    *known = 0;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(list[i].name, name) != 0) continue;
        *known = 1;
        if (list[i].wall_over < wall && wall <= list[i].wall_up_to) return &list[i];
    }
    return NULL;
}
