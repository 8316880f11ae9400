#include <railbow/material.h>

#include <string.h>

/* Rounding of a conversion: a wall of 4.7752 mm differs from 0.188 in by the last bit. */
static const double rounding = 1e-12;

const rbow_material *rbow_material_find(const rbow_material *list, size_t count, const char *name, double wall,
                                        int *known)
{
    *known = 0;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(list[i].name, name) != 0) continue;
        *known = 1;
        if (list[i].wall_over * (1 + rounding) < wall && wall <= list[i].wall_up_to * (1 + rounding)) return &list[i];
    }
    return NULL;
}
