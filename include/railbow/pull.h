/* Pulling a horn straight: how far to pull a stub so that, let go, it stays where it is wanted. */
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
    double length;          /* in, > 0; from the root to where the pull acts */
    double weld_zone;       /* in, >= 0, from the root, which is a weld; RBOW_UNSET = 1, at most the length */
    double weld_yield;      /* psi, > 0: of the metal there */
    double set;             /* in, >= 0; by how much it shall stay moved there */
} rbow_pull;

/* What does not exist is NaN. */
typedef struct rbow_pulled {
    double yield_travel, yield_pull; /* in, lbf: up to here it springs back whole                    */
    double pull, travel;             /* lbf, in: what it takes                                       */
    double springback;               /* in: travel less set                                          */
    double peak_strain;              /* of the outer fibre at the root, while pulled                 */
    double strain_over_yield;        /* the same in yield strains                                    */
    double residual_stress;          /* psi, at the outer fibre of the root, let go                  */
    double yielded_length;           /* in, all that has yielded, in both metals                     */
    double most_set;                 /* in: no pull gives more, a moment has its limit Z Fy          */
    int beyond;                      /* set is above most_set: pull ... yielded_length are NaN       */
} rbow_pulled;

/* A cantilever of elastic, perfectly plastic round tube, pulled at its end and let go elastically.
 * Given:    pull
 * Returned: pulled; relative error below 1e-8
 * Status:   RBOW_OK | RBOW_OUT_OF_RANGE | RBOW_BAD_OD | RBOW_BAD_WALL | RBOW_BAD_LENGTH | RBOW_NO_CONVERGENCE
 * Validity: small slopes; no strain hardening, no earlier set; the root itself does not turn. */
RBOW_API rbow_status rbow_pull_straight(const rbow_pull *pull, rbow_pulled *pulled);

#ifdef __cplusplus
}
#endif

#endif
