/* The largest size of a quantity along the tube, both planes together. */
#ifndef RAILBOW_ENGINE_PEAK_H
#define RAILBOW_ENGINE_PEAK_H

#include "engine/frame.h"

typedef struct peak {
    double size; /* largest length of the vector; below 0 where there is no such place */
    double at;   /* xi, the smallest on a tie */
} peak;

/* Given:    f, s   a frame and its state
 * Returned: peaks  the largest moment m = M L/EI of each zone */
void peak_moments(const frame *f, const state *s, peak peaks[2]);

/* The largest movement w = v/L, over the whole tube.
 * Given:    moment    the largest, of both zones
 * Returned: movement  there */
peak peak_movement(const frame *f, const state *s, double moment, pair *movement);

#endif
