/* A frame with tubes cut through: how the faces of a cut part, how the joints move, and what was locked in before.
 *
 * What is left of a cut tube is two stubs, each on its joint, that carry nothing but their own run loads. The rest of the frame
 * is solved again to second order, with what is built into its tubes; the faces of the cuts follow the joints. Several cuts are
 * made together. Left out: second-order bending of the stubs, and the twist of one face against the other. A bow of unknown
 * clock counts upward.
 *
 * A piece that comes off and that nothing holds lies free: it is placed as a rigid body so that the sum of squares of its joints'
 * movements from before the cut is least (of a piece with all joints on one line, or of one joint, its turn stays as well as it
 * can). */
#ifndef RAILBOW_FRAME_CUT_H
#define RAILBOW_FRAME_CUT_H

#include <railbow/frame.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_frame_cut_place {
    size_t tube;
    double at; /* in from A, 0 < at < length */
} rbow_frame_cut_place;

typedef struct rbow_frame_faces { /* B's face seen from A's, from A toward B; before the cut both coincide */
    double moved, moved_clock;   /* in >= 0, rad: across the tube */
    double turned, turned_clock; /* rad >= 0, rad: angle of the stub at B to the line of the stub at A, and the side to which it
                                    points */
    double opened;               /* in; > 0 where the faces part */
} rbow_frame_faces;              /* the clock of a movement below 1e-10 in or a turn below 1e-12 is NaN, and the size 0 */

typedef struct rbow_frame_cut_note {
    size_t free_joints;     /* RBOW_OK: how many joints stand in pieces that lie free */
    size_t cut;             /* of other statuses: the cut at fault */
    rbow_frame_loose loose; /* RBOW_FRAME_NOT_HELD: how the rest of the frame moves; RBOW_PIECE_NOT_HELD: its joint is one of the
                               piece; RBOW_STUB_NOT_HELD: the joint of the stub */
} rbow_frame_cut_note;

/* Bytes that the functions below need; 0 where there is no memory. Given: frame, without faults; run, NULL for none */
RBOW_API size_t rbow_frame_cut_memory(const rbow_frame *frame, const rbow_frame_run *run, size_t cut_count);

/* The frame after its cuts.
 * Given:    frame   without faults, held
 *           run     acts at load factor 1; NULL: nothing but what is locked in
 *           cuts    one or more, each of another tube
 *           memory  rbow_frame_cut_memory bytes, aligned as malloc does
 * Returned: faces   of each cut
 *           joints  of each joint, its movement from before the cut to after it; NaN where no tube is left at a joint that
 *                   nothing holds (may be NULL)
 *           note    (may be NULL)
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_BAD_FRAME_CUT | RBOW_CUT_TWICE | RBOW_STUB_NOT_HELD (a ball at the root of a stub,
 *           or no tube left that keeps its joint from turning) | RBOW_PIECE_NOT_HELD | RBOW_FRAME_NOT_HELD | RBOW_UNSTABLE |
 *           RBOW_NO_CONVERGENCE */
RBOW_API rbow_status rbow_frame_cut(const rbow_frame *frame, const rbow_frame_run *run, const rbow_frame_cut_place *cuts, size_t cut_count,
                                    void *memory, rbow_frame_faces *faces, rbow_frame_motion *joints, rbow_frame_cut_note *note);

typedef struct rbow_frame_released { /* before the cut, without run loads */
    double fit_axial;                   /* lbf, compression positive */
    double shear, shear_clock;          /* lbf, rad: of the B side on A's face */
    double moment_at_cut, moment_clock; /* in-lbf, rad: the same; it bends the A stub toward its clock */
    double moment_a, moment_b;          /* in-lbf, magnitudes at the joints */
    double fit_stress, yield_use;       /* psi, equivalent, where utilisation is largest; that utilisation of yield */
    double miss_a, miss_a_clock, miss_b, miss_b_clock, gap; /* of the cut tube as it was built in: in, rad */
} rbow_frame_released;

/* What was locked in at the place of one cut, from the readings of its faces. In the frame without the tube the joints stand where
 * the cut left them; so the readings are those misses and that gap which the tube was built in with, and the whole frame with them,
 * solved to second order, has the forces. Misses and gap of this tube in the frame do not count; those of the others do.
 * If the angle was not read, the moment at the cut is taken as 0: this explains the movement with the least energy.
 * Given:    faces   moved and opened read; turned NaN = not read; a clock counts where its size is above 0
 *           others  as above
 * Returned: released; note (may be NULL)
 * Status:   as above; a status of the tube's misses where the readings are too large */
RBOW_API rbow_status rbow_frame_release(const rbow_frame *frame, const rbow_frame_cut_place *cut, const rbow_frame_faces *faces,
                                        void *memory, rbow_frame_released *released, rbow_frame_cut_note *note);

#ifdef __cplusplus
}
#endif

#endif
