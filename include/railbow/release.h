/* The locked-in force and moments of a rail, from its movement when it was cut. */
#ifndef RAILBOW_RELEASE_H
#define RAILBOW_RELEASE_H

#include <railbow/column.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_cut {
    double od, wall;        /* in */
    double elastic_modulus; /* psi */
    double length, cut_at;  /* in; 0 < cut_at < length, from A */
    double end_a, end_b;    /* in-lbf/rad, > 0, RBOW_WELDED or RBOW_FIXED */
    double moved, moved_clock;   /* in, rad: lateral movement of B's face relative to A's */
    double turned, turned_clock; /* rad: angle of the B stub to the line of the A stub; turned NaN = not read */
    double opened;               /* in; > 0 a gap opened */
    double gap_stiffness;        /* lbf/in of the surrounding frame, INFINITY = rigid */
} rbow_cut;

typedef struct rbow_released {
    double fit_axial;                 /* lbf, compression positive */
    double shear, shear_clock;        /* lbf, rad: of the B side on A's face */
    double moment_at_cut, moment_clock; /* in-lbf, rad: the same; it bends the A stub toward its clock */
    double moment_a, moment_b;        /* in-lbf, magnitudes at the joints */
    double fit_stress;                /* psi */
    /* misses of a straight new rail, if the joints keep their directions */
    double miss_a, miss_a_clock, miss_b, miss_b_clock; /* in, rad */
    double fit_stress_low; /* psi, for the best stiffness of welded joints */
    int joints_taken;      /* rbow_joints: the stiffness that the result assumes */
} rbow_released;

/* The stiffness of a joint of RBOW_WELDED is unknown: the result is that of the stiffness with the highest fit_stress.
 * The clock of a zero vector is NaN. If the angle was not read, the moment at the cut is taken as 0: this explains the
 * lateral movement with the least energy.
 * Given:    cut
 * Returned: released; relative error below 1e-12
 * Status:   RBOW_OK | RBOW_BAD_OD | RBOW_BAD_WALL | RBOW_BAD_LENGTH | RBOW_BAD_CUT | RBOW_LOOSE_END_A |
 *           RBOW_LOOSE_END_B | RBOW_BAD_GAP_STIFFNESS | RBOW_NOT_FINITE | RBOW_OUT_OF_RANGE |
 *           RBOW_STRESS_OVERFLOW */
RBOW_API rbow_status rbow_release(const rbow_cut *cut, rbow_released *released);

#ifdef __cplusplus
}
#endif

#endif
