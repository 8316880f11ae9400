#include "engine/smooth.h"

#include <math.h>

/* Near zero the quotients cancel, so c_3 and c_4 come from their series and the others from
 * c_n = 1/n! - z c_(n+2). Eleven terms leave 2^11/26! < 1e-23 of the first at |z| = 2. Two chains of products
 * without a division cost less than one sine. */
static void by_series(double z, double *c3, double *c4)
{
    static const double odd[] = SMOOTH_C3, even[] = SMOOTH_C4;
    double a = odd[9], b = even[9];
    for (int k = 8; k >= 0; k--) {
        a = odd[k] + z * a;
        b = even[k] + z * b;
    }
    *c3 = a;
    *c4 = b;
}

smooth smooth_at(double z)
{
    smooth s;
    if (fabs(z) < 2) {
        by_series(z, &s.c3, &s.c4);
        s.c2 = 0.5 - z * s.c4;
        s.c1 = 1 - z * s.c3;
        s.c0 = 1 - z * s.c2;
        return s;
    }
    /* half angles: one sine and cosine for all, and no cancellation in 1 - cos u */
    const double u = sqrt(fabs(z));
    double sine, cosine;
    if (z > 0)
        sine = sin(u / 2), cosine = cos(u / 2);
    else
        sine = sinh(u / 2), cosine = cosh(u / 2);
    s.c2 = 2 * sine * sine / fabs(z);
    s.c1 = 2 * sine * cosine / u;
    s.c0 = 1 - z * s.c2;
    s.c3 = (1 - s.c1) / z;
    s.c4 = (0.5 - s.c2) / z;
    return s;
}
