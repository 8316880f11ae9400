/* The faults of an input, as many as the caller has room for, and how many there are. */
#ifndef RAILBOW_CHECK_FAULT_LIST_H
#define RAILBOW_CHECK_FAULT_LIST_H

#include <railbow/status.h>

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

typedef struct fault_list {
    rbow_status *at;
    size_t count, most;
} fault_list;

static inline void need(fault_list *list, bool fine, rbow_status fault)
{
    if (fine) return;
    if (list->count < list->most) list->at[list->count] = fault;
    list->count++;
}

static inline bool positive(double v)
{
    return v > 0 && isfinite(v);
}

#endif
