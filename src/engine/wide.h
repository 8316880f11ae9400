/* The tube at eight load factors at once, or at many of its places: one vector instruction works on all of them. */
#ifndef RAILBOW_ENGINE_WIDE_H
#define RAILBOW_ENGINE_WIDE_H

#include "engine/waves.h"

typedef enum level { LEVEL_USE, LEVEL_INTERACTION, LEVEL_EITHER /* the larger */, LEVELS } level;

enum { GLANCES = 8 };

typedef struct glances {
    double level[LEVELS][GLANCES]; /* as stress_of and interaction_of; INFINITY where it has buckled */
    bool serve[GLANCES]; /* a closer look must tell where not: under strong tension, near buckling, near resonance of a
                            half-wave bow, and where two tops of the moment are about as high */
} glances;

/* Given:    f        a frame
 *           tension  locked-in tension to count, lbf
 *           factor   load factors
 * Returned: out      levels right to about nine digits; where a cell of the tube holds two tops of the moment, to two */
void glances_at(const frame *f, double tension, const double factor[GLANCES], glances *out);

typedef struct nodes { /* at a frame's spots: the square of a quantity's size, and the first two derivatives of its half */
    double square[SPOTS_MOST], rise[SPOTS_MOST], curve[SPOTS_MOST];
    unsigned turns; /* a bit for each cell that may hold a top, see peak.c */
} nodes;

/* Given:    load   z; waves serve, see field_serves
 *           count  of the places
 * Returned: out    the half waves from A to them; what is behind them is spoiled */
void half_waves_at(double load, const places *all, int count, half_waves *out);

/* Given:    f          waves
 *           all, h     a frame's places, and the half waves from A to them
 *           from, to   the spots that are asked, on pieces where the waves hold
 *           movement   whether w = v/L is asked, else the moment
 * Returned: out        those; what is behind them is spoiled */
void nodes_at(const wave_field *f, const places *all, const half_waves *h, int from, int to, bool movement, nodes *out);

#endif
