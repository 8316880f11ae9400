/* The path of states over the load factor, from load factor 0 to where the frame folds or buckles. */
#ifndef RAILBOW_FRAME_PATH_H
#define RAILBOW_FRAME_PATH_H

#include "frame/solver.h"

enum { NODES = 9, KNOWN_MOST = 5, KNOWN_ROW = NODES, GUESS_ROW = NODES + KNOWN_MOST, EXPECTED_ROW }; /* rows of a solver's states */

static const double endless_from = 1e6; /* a load factor at which the search stops */

/* What vanishes where a path ends, or may: the inverse of the largest movement, at a pole of the movements; the determinants of the
 * stiffness and of the tangent, and their roots, where two modes end it at once; and what is left of the critical load of the tube,
 * between joints at rest, that is closest to it. */
enum { BY_MOVEMENT, BY_STIFFNESS, BY_TANGENT, BY_STIFFNESS_ROOT, BY_TANGENT_ROOT, BY_TUBE, MEASURES };

typedef struct frame_path { /* the latest states of a path; the newest stands first */
    rbow_frame_solver *solver;
    double factor[KNOWN_MOST];
    double measure[KNOWN_MOST][MEASURES]; /* logarithms */
    int row[KNOWN_MOST];
    int known;
    bool turned; /* two modes have become negative without a fold, by way of a complex pair: they are no longer looked for */
} frame_path;

/* The state at load factor 0. Returned: false without one; s->rest */
bool rbow_frame_path_begin(frame_path *p, rbow_frame_solver *s);

/* A path that goes on from a state that is known. */
void rbow_frame_path_from(frame_path *p, rbow_frame_solver *s, double factor, const double *unknowns);

/* The movements of the newest state. */
const double *rbow_frame_path_state(const frame_path *p);

/* Goes to a load factor, in steps as small as needed.
 * Returned: whether the path reaches it; if not, the newest state is the last before its end */
bool rbow_frame_path_go(frame_path *p, double factor);

/* Goes on to the end. Returned: path_end, to 1e-8 of it; INFINITY for none below 1e6 */
double rbow_frame_path_to_end(frame_path *p);

#endif
