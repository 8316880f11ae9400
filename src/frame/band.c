/* Elimination by columns (Golub & Van Loan, Matrix Computations, 3rd ed. 1996, sec. 4.3, from memory). Entries that are 0
 * are passed over: a frame's band is rarely full. */
#include "frame/band.h"

#include <float.h>
#include <math.h>
#include <string.h>

static const double loose = 1e-12;

static size_t reach_of(const band *b, size_t i)
{
    const size_t below = b->size - 1 - i;
    return below < b->width ? below : b->width;
}

/* A pivot of 0 counts as one that has just changed its sign, and the smallest number that can be divided by replaces it. */
static double pivot_of(const band *b, double value, size_t at, pivots *p)
{
    const double diagonal = fabs(b->diagonal[at]);
    const double against = diagonal > 0 ? fabs(value / diagonal) : 0;
    if (!(against >= p->least)) p->least = against;
    if (!(value > loose * diagonal) && p->loose_at == b->size) p->loose_at = at;
    if (!(value > 0)) p->negative++;
    const double floor = DBL_EPSILON * DBL_EPSILON * diagonal + DBL_MIN;
    const double pivot = fabs(value) > floor ? value : -floor;
    p->log_size += log(fabs(pivot));
    return pivot;
}

pivots rbow_band_factor(band *b)
{
    pivots p = {.least = INFINITY, .loose_at = b->size};
    for (size_t i = 0; i < b->size; i++) b->diagonal[i] = band_column(b, i)[0];
    for (size_t i = 0; i < b->size; i++) {
        double *column = band_column(b, i);
        const size_t reach = reach_of(b, i);
        column[0] = pivot_of(b, column[0], i, &p);
        const double per = 1 / column[0];
        for (size_t k = 1; k <= reach; k++) {
            if (!(fabs(column[k]) > 0)) continue;
            const double share = column[k] * per;
            double *target = band_column(b, i + k);
            for (size_t m = 0; m <= reach - k; m++) target[m] -= share * column[k + m];
        }
        for (size_t k = 1; k <= reach; k++) column[k] *= per;
    }
    return p;
}

/* L^T x = right side, over the first `count` rows. */
static void solve_upward(const band *b, size_t count, double *x)
{
    for (size_t i = count; i-- > 0;) {
        const double *column = band_column(b, i);
        size_t reach = reach_of(b, i);
        if (reach > count - 1 - i) reach = count - 1 - i;
        double sum = x[i];
        for (size_t k = 1; k <= reach; k++) sum -= column[k] * x[i + k];
        x[i] = sum;
    }
}

void rbow_band_solve(const band *b, double *x)
{
    for (size_t i = 0; i < b->size; i++) {
        const double *column = band_column(b, i);
        const size_t reach = reach_of(b, i);
        const double known = x[i];
        for (size_t k = 1; k <= reach; k++) x[i + k] -= column[k] * known;
    }
    for (size_t i = 0; i < b->size; i++) x[i] /= band_column(b, i)[0];
    solve_upward(b, b->size, x);
}

void rbow_band_null(const band *b, size_t at, double *x)
{
    memset(x, 0, b->size * sizeof *x);
    x[at] = 1;
    solve_upward(b, at + 1, x);
}

pivots rbow_full_band_factor(band *b)
{
    pivots p = {.least = INFINITY, .loose_at = b->size};
    for (size_t i = 0; i < b->size; i++) b->diagonal[i] = band_row(b, i)[0];
    for (size_t i = 0; i < b->size; i++) {
        double *row = band_row(b, i);
        const size_t reach = reach_of(b, i);
        row[0] = pivot_of(b, row[0], i, &p);
        const double per = 1 / row[0];
        for (size_t k = 1; k <= reach; k++) {
            double *target = band_row(b, i + k) - k; /* its entry below the pivot */
            if (!(fabs(target[0]) > 0)) continue;
            const double share = target[0] *= per;
            for (size_t m = 1; m <= reach; m++) target[m] -= share * row[m];
        }
    }
    return p;
}

void rbow_full_band_solve(const band *b, double *x)
{
    for (size_t i = 0; i < b->size; i++) {
        const double *row = band_row(b, i);
        const size_t back = i < b->width ? i : b->width;
        double sum = x[i];
        for (size_t k = 1; k <= back; k++) sum -= *(row - k) * x[i - k];
        x[i] = sum;
    }
    for (size_t i = b->size; i-- > 0;) {
        const double *row = band_row(b, i);
        const size_t reach = reach_of(b, i);
        double sum = x[i];
        for (size_t k = 1; k <= reach; k++) sum -= row[k] * x[i + k];
        x[i] = sum / row[0];
    }
}
