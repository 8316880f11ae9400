/* Pulling a horn into line: how far to pull it so that the set asked for remains when it is let go. */
#ifndef RAILBOW_PULL_H
#define RAILBOW_PULL_H

#include <railbow/column.h>
#include <railbow/tube.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_pull {
    double od, wall;        /* in */
    double elastic_modulus; /* psi, > 0 */
    double yield;           /* psi, > 0 */
    double length;          /* in, > 0; distance from the root to the pull */
    double weld_zone;       /* in, >= 0, from the root, which is a weld; RBOW_UNSET = 1, at most the length */
    double weld_yield;      /* psi, > 0: of the metal in the weld zone */
    double set;             /* in, >= 0; movement at the pull that shall remain */
} rbow_pull;

/* A value that does not exist is NaN. */
typedef struct rbow_pulled {
    double yield_travel, yield_pull; /* in, lbf: the largest that spring back completely             */
    double pull, travel;             /* lbf, in: the pull that leaves the set, and its movement      */
    double springback;               /* in: travel less set                                          */
    double peak_strain;              /* of the outer fibre at the root, while pulled                 */
    double strain_over_yield;        /* peak_strain over the yield strain                            */
    double residual_stress;          /* psi, in the outer fibre at the root after it is let go       */
    double yielded_length;           /* in, length that has yielded, in both metals together         */
    double most_set;                 /* in: the largest set; a moment cannot exceed its limit Z Fy   */
    int beyond;                      /* 1 if set is above most_set: pull ... yielded_length are NaN  */
} rbow_pulled;

/* A cantilever of round tube, elastic and perfectly plastic, pulled at its end and let go elastically.
 * Given:    pull
 * Returned: pulled; relative error below 1e-8
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_BAD_OD | RBOW_BAD_WALL | RBOW_BAD_LENGTH | RBOW_NO_CONVERGENCE
 * Validity: small slopes; no strain hardening, no earlier set; the root itself does not rotate. */
RBOW_API rbow_status rbow_pull_straight(const rbow_pull *pull, rbow_pulled *pulled);

#ifdef __cplusplus
}
#endif

#endif
