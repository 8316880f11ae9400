/* Band matrices: factors without an exchange of rows, and what their pivots say.
 *
 * They are as in gsl_linalg_ldlt_band_decomp, which cannot be used here: where a pivot is 0 it calls GSL's error handler, and
 * that ends the program. */
#ifndef RAILBOW_FRAME_BAND_H
#define RAILBOW_FRAME_BAND_H

#include <stddef.h>

typedef struct band { /* `size` rows; entries further than `width` from the diagonal are 0 */
    size_t size, width;
    double *at;
    double *diagonal; /* `size` numbers: the diagonal before the elimination */
} band;

/* A symmetric band has `width` + 1 entries in a row: the diagonal, then what lies below it in its column.
 * A full band has 2 `width` + 1 entries in a row, the diagonal in the middle. */
static inline double *band_column(const band *b, size_t i)
{
    return &b->at[i * (b->width + 1)];
}

static inline double *band_row(const band *b, size_t i)
{
    return &b->at[i * (2 * b->width + 1) + b->width];
}

typedef struct pivots {
    size_t negative;     /* how many are not above 0 */
    double log_size;     /* of the determinant */
    double least;        /* the smallest against its diagonal before the elimination, in size */
    size_t loose_at;     /* the first that is not above 1e-12 of its diagonal; it is rounding. `size` for none */
} pivots;

/* Factors of a symmetric band, L D L^T, in its place.
 * Returned: the pivots; as many of them are negative as the matrix has negative eigenvalues (Sylvester) */
pivots rbow_band_factor(band *symmetric);

/* Given: factors by rbow_band_factor; x  right side. Returned: x  solution */
void rbow_band_solve(const band *factors, double *x);

/* Factors of a full band, L U, in its place. Returned: the pivots */
pivots rbow_full_band_factor(band *full);
void rbow_full_band_solve(const band *factors, double *x);

/* The vector that a symmetric matrix, whose pivot `at` is all but 0, takes to all but 0.
 * Given: factors, up to `at` correct. Returned: x */
void rbow_band_null(const band *factors, size_t at, double *x);

#endif
