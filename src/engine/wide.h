/* The tube at eight load factors at once, or at many of its places: one vector instruction works on all of them. */
#ifndef RAILBOW_ENGINE_WIDE_H
#define RAILBOW_ENGINE_WIDE_H

#include "engine/waves.h"

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

typedef struct nodes { /* of a piece: the square of a quantity's size, and the first two derivatives of its half */
    double square[NODES_MOST], rise[NODES_MOST], curve[NODES_MOST];
    unsigned turns; /* a bit for each cell that may hold a top, see peak.c */
} nodes;

/* Given:    f         the waves on the piece
 *           start     the half wave where it begins
 *           steps     from there to each of its spots
 *           movement  whether w = v/L is asked, else the moment
 * Returned: out */
void nodes_at(const wave_field *f, const piece *p, half_wave start, const half_waves *steps, bool movement, nodes *out);

#endif
