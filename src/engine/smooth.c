#include "engine/smooth.h"

#include <math.h>

/* Near zero the quotients cancel, so c_3 and c_4 come from their series and the others from
 * c_n = 1/n! - z c_(n+2). Ten terms leave 2^10/24! < 1e-20 of the first at |z| = 2. */
static smooth by_series(double z)
{
    double c3 = 0, c4 = 0;
    for (int k = 10; k >= 1; k--) {
        const double n = 2 * k;
        c3 = (1 - z * c3) / ((n + 3) * (n + 2));
        c4 = (1 - z * c4) / ((n + 4) * (n + 3));
    }
    c3 = (1 - z * c3) / 6;
    c4 = (1 - z * c4) / 24;
    const double c2 = 0.5 - z * c4, c1 = 1 - z * c3;
    return (smooth){.c0 = 1 - z * c2, .c1 = c1, .c2 = c2, .c3 = c3, .c4 = c4};
}

smooth smooth_at(double z)
{
    if (fabs(z) < 2) return by_series(z);

    /* half angles: one sine and cosine for all, and no cancellation in 1 - cos u */
    const double u = sqrt(fabs(z));
    const double sine = z > 0 ? sin(u / 2) : sinh(u / 2);
    const double cosine = z > 0 ? cos(u / 2) : cosh(u / 2);
    const double c2 = 2 * sine * sine / fabs(z), c1 = 2 * sine * cosine / u;
    return (smooth){.c0 = 1 - z * c2, .c1 = c1, .c2 = c2, .c3 = (1 - c1) / z, .c4 = (0.5 - c2) / z};
}
