/* Materials: elastic constants and strengths for a range of walls. */
#ifndef RAILBOW_MATERIAL_H
#define RAILBOW_MATERIAL_H

#include <railbow/column.h>

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The check of a member uses the moduli, density, yields, intercept and curve. Only rbow_material_find uses the name and
 * the walls. */
typedef struct rbow_material {
    const char *name;             /* may be NULL if rbow_material_find is not called              */
    double wall_over, wall_up_to; /* in: serves wall_over < wall <= wall_up_to                   */
    double elastic_modulus;       /* psi                                                         */
    double shear_modulus;         /* psi; no result uses it                                      */
    double density;               /* lb/in^3                                                     */
    double yield;                 /* psi, tension                                                */
    double compression_yield;     /* psi                                                         */
    double ultimate;              /* psi; NaN if not known; no result uses it                    */
    double weld_yield;            /* psi, both fibres, near a weld                               */
    double column_intercept;      /* psi, the three-halves curve at slenderness 0                */
    rbow_curve column_curve;      /* of members that name no curve                               */
    const char *source;           /* source of the numbers; may be NULL                          */
} rbow_material;

/* The row of a list that serves a wall.
 * Given:    list, count  materials
 *           name         as in the list; case matters
 *           wall         in; no row serves NaN
 * Returned: a pointer to the row in the list, or NULL; *known: 1 if the list contains the name, else 0. A wall may lie
 *           outside its limits by 1e-12 of them, the rounding of a conversion from another unit */
RBOW_API const rbow_material *rbow_material_find(const rbow_material *list, size_t count, const char *name,
                                                 double wall, int *known);

#ifdef __cplusplus
}
#endif

#endif
