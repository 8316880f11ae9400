/* Stress along the tube, and how much of what it is held against that uses. */
#ifndef RAILBOW_ENGINE_STRESS_H
#define RAILBOW_ENGINE_STRESS_H

#include "engine/peak.h"

typedef struct stress_peak {
    double use;        /* largest share of yield used, either fibre       */
    double stress;     /* psi, equivalent, of the fibre that uses it      */
    double at;         /* xi, where                                       */
    int zone;
    double moment, moment_at; /* largest moment, m = M L/EI; xi           */
} stress_peak;

/* Given: a frame, its state, and the largest moments in it (peak_moments).
 * Returned: where the tube is nearest to yield. */
stress_peak stress_of(const frame *f, const state *s, const peak peaks[2]);

typedef struct interaction {
    double value; /* reaches 1 at the limit */
    double at;
    int zone;
} interaction;

/* Axial over column load plus bending and twist over compression yield, at its largest.
 * Source: aircraft handbooks' Rc + sqrt(Rb^2 + Rst^2) = 1 for round tube. */
interaction interaction_of(const frame *f, const state *s, const peak peaks[2]);

#endif
