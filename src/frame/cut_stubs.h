/* The two stubs of a cut tube: what they put on their joints, and where their faces are. */
#ifndef RAILBOW_FRAME_CUT_STUBS_H
#define RAILBOW_FRAME_CUT_STUBS_H

#include "frame/solver.h"

#include <railbow/frame_cut.h>

typedef struct cut_stubs {
    size_t joint[ENDS];
    double axis[RBOW_AXES], side[PLANES][RBOW_AXES], turn_axis[PLANES][RBOW_AXES]; /* as in frame_tube */
    double at, length;            /* in */
    double bending, stretching;   /* EI, EA */
    double root[ENDS];            /* in-lbf/rad, INFINITY for rigid */
    double slope[ENDS][PLANES];   /* of the misses */
    double gap;
    double spread[RBOW_AXES], point[RBOW_AXES], point_at; /* of the run: lbf/in, lbf, in from A; a load on the cut is A's */
} cut_stubs;

/* Given: t  of the whole frame's solver; from  the same tube as given; cut; run  NULL for none */
void rbow_cut_stubs(cut_stubs *s, const frame_tube *t, const rbow_frame_tube *from, const rbow_frame_cut_place *cut,
                    const rbow_frame_run *run);

/* Adds forces and moments of both stubs on their joints. applied: six for each joint */
void rbow_cut_stub_loads(const cut_stubs *s, double *applied);

/* Given: motions  of every joint. Returned: B's face from A's */
void rbow_cut_faces(const cut_stubs *s, const rbow_frame_motion *motions, rbow_frame_faces *faces);

/* The misses, as slopes, and the gap with which the faces would part so.
 * Given:    motions  of the joints after the cut, without a run
 * Returned: slope, gap */
void rbow_cut_built_in(const cut_stubs *s, const rbow_frame_motion *motions, const rbow_frame_faces *faces,
                       double slope[ENDS][PLANES], double *gap);

#endif
