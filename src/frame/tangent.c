#include "frame/tangent.h"

#include "frame/element.h"
#include "frame/stiffness.h"

#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

static void add_to_tangent(rbow_frame_solver *s, int row, int column, double value)
{
    s->tangent.data[(size_t)column * s->tangent.tda + 2 * s->band + (size_t)row - (size_t)column] += value;
}

static void assemble(rbow_frame_solver *s, double factor, const double *unknowns)
{
    memset(s->tangent.data, 0, s->tangent.size1 * s->tangent.tda * sizeof(double));
    for (size_t n = 0; n < s->frame.tube_count; n++) {
        frame_tube *t = &s->tubes[n];
        int place[ELEMENT];
        double k[ELEMENT][ELEMENT], by_axial[ELEMENT], rate[ELEMENT];
        rbow_element_stiffness(t, s->axial[n], k);
        rbow_element_by_axial(s, t, s->axial[n], factor, unknowns, by_axial);
        rbow_element_axial_rate(t, rate);
        rbow_frame_places(s, t, place);
        for (int i = 0; i < ELEMENT; i++)
            for (int j = 0; j < ELEMENT; j++)
                if (place[i] >= 0 && place[j] >= 0) add_to_tangent(s, place[i], place[j], k[i][j] + by_axial[i] * rate[j]);
    }
}

int rbow_frame_decompose_tangent(rbow_frame_solver *s, double factor, const double *unknowns)
{
    int sign = 1;
    double sum = 0;
    s->log_tangent = 0;
    if (s->count == 0) return sign;
    assemble(s, factor, unknowns);
    if (gsl_linalg_LU_band_decomp(s->count, s->band, s->band, &s->tangent, &s->pivots) != 0) return 0;
    for (size_t j = 0; j < s->count; j++) {
        const double pivot = s->tangent.data[j * s->tangent.tda + 2 * s->band];
        if (!(fabs(pivot) > 0)) return 0;
        if ((pivot < 0) != (s->pivots.data[j] != j)) sign = -sign;
        sum += log(fabs(pivot));
    }
    s->log_tangent = sum;
    return sign;
}

void rbow_frame_solve_tangent(rbow_frame_solver *s)
{
    gsl_linalg_LU_band_svx(s->band, s->band, &s->tangent, &s->pivots, &s->step);
}
