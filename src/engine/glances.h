/* The tube at eight load factors at once: one vector instruction works on all of them. */
#ifndef RAILBOW_ENGINE_GLANCES_H
#define RAILBOW_ENGINE_GLANCES_H

#include "engine/frame.h"

typedef enum level { LEVEL_USE, LEVEL_INTERACTION, LEVELS } level;

enum { GLANCES = 8 };

typedef struct glances {
    double level[LEVELS][GLANCES]; /* as stress_of and interaction_of */
    bool serve[GLANCES];           /* nothing is seen where not: buckled, strong tension, a half-wave bow near resonance */
} glances;

/* Given:    f        with a half-wave bow, or any
 *           tension  locked-in tension to count, lbf
 *           factor   load factors
 * Returned: out      levels right to about ten digits; where a cell of the tube holds two tops of the moment, to two */
void glances_at(const frame *f, double tension, const double factor[GLANCES], glances *out);

#endif
