/* The detail that sets the margin of a tube, in place of a check of the tube itself. */
#ifndef RAILBOW_CASES_GOVERNING_DETAIL_H
#define RAILBOW_CASES_GOVERNING_DETAIL_H

#include <stdbool.h>

typedef struct governing_detail {
    bool governs;    /* false: the tube itself does, and nothing else here counts */
    int kind, mode;  /* rbow_detail_kind, rbow_detail_mode */
    double factor;   /* load factor at which the mode reaches its limit; INFINITY: never */
    double required; /* the load factor asked for */
} governing_detail;

#endif
