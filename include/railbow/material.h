/* Materials: elastic and strength values that serve a range of walls. */
#ifndef RAILBOW_MATERIAL_H
#define RAILBOW_MATERIAL_H

#include <railbow/column.h>

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* A member's check uses the moduli, density, yields, intercept and curve; rbow_material_find alone the name and the
 * walls. */
typedef struct rbow_material {
    const char *name;             /* may be NULL where rbow_material_find is not asked            */
    double wall_over, wall_up_to; /* in: serves wall_over < wall <= wall_up_to                   */
    double elastic_modulus;       /* psi                                                         */
    double shear_modulus;         /* psi; no result uses it                                      */
    double density;               /* lb/in^3                                                     */
    double yield;                 /* psi, tension                                                */
    double compression_yield;     /* psi                                                         */
    double ultimate;              /* psi; NaN where not known; no result uses it                 */
    double weld_yield;            /* psi, both fibres, near a weld                               */
    double column_intercept;      /* psi, the three-halves curve at slenderness 0                */
    rbow_curve column_curve;      /* for members that name none                                  */
    const char *source;           /* where the numbers come from; may be NULL                    */
} rbow_material;

/* The row of a list that serves a wall.
 * Given:    list, count  materials
 *           name         as in the list; case matters
 *           wall         in; NaN is served by none
 * Returned: the row, a pointer into the list, or NULL; *known: 1 if the name stands in the list at all, else 0. A wall
 *           off its limits by 1e-12 of them is forgiven: another unit's last bit */
RBOW_API const rbow_material *rbow_material_find(const rbow_material *list, size_t count, const char *name,
                                                 double wall, int *known);

#ifdef __cplusplus
}
#endif

#endif
