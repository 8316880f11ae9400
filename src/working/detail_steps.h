/* The steps of a detail: its sizes and sections, and the utilisation of its modes under given forces. */
#ifndef RAILBOW_WORKING_DETAIL_STEPS_H
#define RAILBOW_WORKING_DETAIL_STEPS_H

#include "working/calculation.h"

#include <railbow/detail.h>

typedef struct detail_forces { /* at the place, in the units shown; moments, torque and shear beside their sizes */
    rbow_section_forces of;
    double moment, torque, shear;
} detail_forces;

typedef struct detail_calculation { /* all in the units shown */
    calculation c;         /* of the concrete member */
    rbow_detail d;         /* defaults put in */
    const rbow_detail *own_detail;
    const rbow_detail_result *own_result;
    rbow_strength metal;   /* of the tube there, with its zone's yield */
    rbow_strength welded;  /* the same size with the weld yield */
    rbow_strength other;   /* of the sleeve or stub, with the weld yield */
    rbow_net_section net;  /* of a hole */
    double ring_od, rupture; /* of a ring weld; 0.6 F_EXX */
} detail_calculation;

extern const char detail_table[]; /* where the sizes stand */

static inline bool is_unset(double value)
{
    return value <= RBOW_UNSET && value >= RBOW_UNSET;
}

/* Whether a ring weld carries, whether rosettes do, and whether there is a mode that is held against yield. */
bool detail_has_ring(const detail_calculation *d);
bool detail_has_rosettes(const detail_calculation *d);
bool detail_yields(const detail_calculation *d);

/* Given: after tube_steps. Sizes, sections and strengths; fills all but d and the pointers. */
void detail_size_steps(detail_calculation *d);

/* The section that a hole leaves: fills d->net. */
void hole_section_steps(detail_calculation *d);

/* What the modes are used under given forces; the largest use of the weld's modes. */
double detail_yield_steps(const detail_calculation *d, const detail_forces *f);
double detail_weld_steps(const detail_calculation *d, const detail_forces *f);
double hole_yield_steps(const detail_calculation *d, const detail_forces *f);

/* Clearance, play and the contact couple of a sleeve or socket. */
void detail_fit_steps(const detail_calculation *d);

#endif
