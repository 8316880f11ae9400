#include "frame/mixer.h"

static double *moved_row(const mixer *m, int i)
{
    return row_of(m->s, STATES + i);
}

static double *change_row(const mixer *m, int i)
{
    return row_of(m->s, STATES + MIX + i);
}

/* The shares that make the mixed step least: normal equations, by elimination. Shares of steps that add nothing are 0. */
static void shares_of(const mixer *m, const double *step, double share[MIX])
{
    const size_t n = m->s->count;
    double a[MIX][MIX + 1];
    for (int i = 0; i < m->count; i++) {
        for (int j = 0; j < m->count; j++) a[i][j] = product(change_row(m, i), change_row(m, j), n);
        a[i][m->count] = product(change_row(m, i), step, n);
        a[i][i] *= 1 + 1e-12;
    }
    for (int i = 0; i < m->count; i++)
        for (int k = i + 1; k < m->count; k++) {
            const double by = a[i][i] > 0 ? a[k][i] / a[i][i] : 0;
            for (int j = i; j <= m->count; j++) a[k][j] -= by * a[i][j];
        }
    for (int i = m->count - 1; i >= 0; i--) {
        double sum = a[i][m->count];
        for (int j = i + 1; j < m->count; j++) sum -= a[i][j] * share[j];
        share[i] = a[i][i] > 0 ? sum / a[i][i] : 0;
    }
}

/* The oldest of the rows waits for the next change. */
void rbow_frame_mix(mixer *m)
{
    double *step = m->s->step.data, share[MIX] = {0};
    const size_t n = m->s->count;
    const int last = (m->next + MIX - 1) % MIX;
    if (m->count > 0)
        for (size_t j = 0; j < n; j++) change_row(m, last)[j] = step[j] - change_row(m, last)[j];
    shares_of(m, step, share);
    double *plain = change_row(m, m->next), *moved = moved_row(m, m->next);
    const int used = m->count;
    for (size_t j = 0; j < n; j++) {
        double mixed = step[j];
        for (int i = 0; i < used; i++) mixed -= share[i] * (moved_row(m, i)[j] + change_row(m, i)[j]);
        plain[j] = step[j];
        moved[j] = step[j] = mixed;
    }
    m->next = (m->next + 1) % MIX;
    if (m->count < MIX) m->count++;
}
