/* What the movement at a cut says about what was locked in. */
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
    double moved, moved_clock;   /* in, rad: B's face relative to A's, sideways */
    double turned, turned_clock; /* rad: the B stub relative to the A stub's line; turned NaN = not read */
    double opened;               /* in; > 0 a gap opened */
    double gap_stiffness;        /* lbf/in of the surroundings, INFINITY = rigid */
} rbow_cut;

typedef struct rbow_released {
    double fit_axial;                 /* lbf, compression positive */
    double shear, shear_clock;        /* lbf, rad: what the B side put on A's face */
    double moment_at_cut, moment_clock; /* in-lbf, rad: the same; it curls the A stub toward its clock */
    double moment_a, moment_b;        /* in-lbf, sizes at the joints */
    double fit_stress;                /* psi */
    /* what a straight new rail would meet if the joints still point where they did */
    double miss_a, miss_a_clock, miss_b, miss_b_clock; /* in, rad */
    double fit_stress_low; /* psi, the lowest over what welded joints may be */
    int joints_taken;      /* rbow_joints: what they are taken as */
} rbow_released;

/* A joint of RBOW_WELDED is soft or stiff, nobody knows: the result is that with the highest fit_stress.
 * Clocks of nothing are NaN. Without the angle, the moment at the cut is taken as 0: the least energy that
 * explains the sideways movement.
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
