#include "shop/least_squares.h"

#include <math.h>
#include <string.h>

/* Each row is rotated into the triangle (Givens): the triangle stays that of a QR decomposition, and no square of a condition
 * number is lost as in normal equations. What remains of the row's right side is misfit. Golub & Van Loan, Matrix
 * Computations, 4th ed. 2013, sec. 5.2 (from memory). */
void rbow_least_add(rbow_least_squares *l, const double row[], double value)
{
    const int n = l->unknowns;
    double rest[LEAST_UNKNOWNS + 1];
    memcpy(rest, row, (size_t)n * sizeof *rest);
    rest[n] = value;
    for (int i = 0; i < n; i++) {
        if (!(fabs(rest[i]) > 0)) continue;
        const double size = hypot(l->r[i][i], rest[i]), c = l->r[i][i] / size, s = rest[i] / size;
        for (int k = i; k <= n; k++) {
            const double above = l->r[i][k];
            l->r[i][k] = c * above + s * rest[k];
            rest[k] = c * rest[k] - s * above;
        }
    }
    l->misfit += rest[n] * rest[n];
}

/* A column that the others make up leaves a diagonal of rounding alone. */
static int is_determined(const rbow_least_squares *l)
{
    for (int i = 0; i < l->unknowns; i++) {
        double column = 0;
        for (int k = 0; k <= i; k++) column = hypot(column, l->r[k][i]);
        if (!(fabs(l->r[i][i]) > 1e-9 * column)) return 0;
    }
    return 1;
}

int rbow_least_solve(const rbow_least_squares *l, double x[])
{
    const int n = l->unknowns;
    if (!is_determined(l)) return 0;
    for (int i = n - 1; i >= 0; i--) {
        x[i] = l->r[i][n];
        for (int k = i + 1; k < n; k++) x[i] -= l->r[i][k] * x[k];
        x[i] /= l->r[i][i];
    }
    return 1;
}

/* (R'R)^-1 = R^-1 R^-1' */
void rbow_least_covariance(const rbow_least_squares *l, double covariance[LEAST_UNKNOWNS][LEAST_UNKNOWNS])
{
    const int n = l->unknowns;
    double inverse[LEAST_UNKNOWNS][LEAST_UNKNOWNS] = {{0}};
    for (int k = 0; k < n; k++) {
        inverse[k][k] = 1 / l->r[k][k];
        for (int i = k - 1; i >= 0; i--) {
            for (int j = i + 1; j <= k; j++) inverse[i][k] -= l->r[i][j] * inverse[j][k];
            inverse[i][k] /= l->r[i][i];
        }
    }
    for (int i = 0; i < n; i++)
        for (int k = 0; k < n; k++) {
            covariance[i][k] = 0;
            for (int j = i > k ? i : k; j < n; j++) covariance[i][k] += inverse[i][j] * inverse[k][j];
        }
}
