/* Weighted least squares for a few unknowns, row by row. */
#ifndef RAILBOW_SHOP_LEAST_SQUARES_H
#define RAILBOW_SHOP_LEAST_SQUARES_H

enum { LEAST_UNKNOWNS = 7 }; /* at most */

/* The rows so far, turned into an upper triangle; the last column is the right side. Begin with zeros and `unknowns`. */
typedef struct rbow_least_squares {
    int unknowns;
    double r[LEAST_UNKNOWNS][LEAST_UNKNOWNS + 1];
    double misfit; /* sum of the squares that no choice of the unknowns removes */
} rbow_least_squares;

/* One equation, sum of row[i] x[i] = value, already divided by its standard deviation. */
void rbow_least_add(rbow_least_squares *l, const double row[], double value);

/* Returned: 1; 0 where the rows do not determine the unknowns. */
int rbow_least_solve(const rbow_least_squares *l, double x[]);

/* The covariances of the solution, once rbow_least_solve has returned 1. */
void rbow_least_covariance(const rbow_least_squares *l, double covariance[LEAST_UNKNOWNS][LEAST_UNKNOWNS]);

#endif
