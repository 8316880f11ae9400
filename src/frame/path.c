#include "frame/path.h"

#include "frame/state.h"

#include <math.h>
#include <string.h>

static const double narrow = 2e-8; /* of the load factor: an end is known to this */

const double *rbow_frame_path_state(const frame_path *p)
{
    return row_of(p->solver, p->row[0]);
}

void rbow_frame_path_from(frame_path *p, rbow_frame_solver *s, double factor, const double *unknowns)
{
    *p = (frame_path){.solver = s, .factor = {factor}, .row = {KNOWN_ROW, KNOWN_ROW + 1, KNOWN_ROW + 2, KNOWN_ROW + 3, KNOWN_ROW + 4}, .known = 1};
    memcpy(row_of(s, KNOWN_ROW), unknowns, s->count * sizeof *unknowns);
}

/* The forced fit is brought in by parts where it cannot be brought in at once. */
bool rbow_frame_path_begin(frame_path *p, rbow_frame_solver *s)
{
    enum { PARTS_MOST = 4096 };
    const double whole = s->fit;
    double *u = s->rest, *last = row_of(s, GUESS_ROW), done = 0, part = 1;
    memset(last, 0, s->count * sizeof *last);
    while (done < 1 && part * PARTS_MOST >= 1) {
        memcpy(u, last, s->count * sizeof *u);
        s->fit = whole * fmin(1, done + part);
        if (rbow_frame_solve(s, 0, u)) {
            done = fmin(1, done + part);
            memcpy(last, u, s->count * sizeof *u);
        } else part /= 4;
    }
    s->fit = whole;
    rbow_frame_path_from(p, s, 0, s->rest);
    return done >= 1;
}

static double size_of(const double *a, size_t n)
{
    double most = 0;
    for (size_t j = 0; j < n; j++) most = fmax(most, fabs(a[j]));
    return most;
}

/* Movements that grow toward buckling grow like a pole: the load factor as a polynomial in 1/size, through the latest states, at 0.
 * Returned: NaN where they do not grow, or the polynomial points back */
static double pole_through(const frame_path *p, int count)
{
    double inverse[KNOWN_MOST], pole = 0;
    for (int i = 0; i < count; i++) inverse[i] = 1 / size_of(row_of(p->solver, p->row[i]), p->solver->count);
    for (int i = 0; i + 1 < count; i++)
        if (!(inverse[i] < inverse[i + 1])) return NAN;
    for (int i = 0; i < count; i++) {
        double weight = 1;
        for (int k = 0; k < count; k++)
            if (k != i) weight *= inverse[k] / (inverse[k] - inverse[i]);
        pole += weight * p->factor[i];
    }
    return pole > p->factor[0] ? pole : (double)NAN;
}

static double likely_pole(const frame_path *p)
{
    return p->known < 3 ? (double)NAN : pole_through(p, p->known < 4 ? p->known : 4);
}

/* Through the known states, by the polynomial that has their number of terms; over the distance to the pole, where one is ahead. */
static void extrapolate(const frame_path *p, double factor, double *guess)
{
    const size_t n = p->solver->count;
    const double pole = likely_pole(p);
    memset(guess, 0, n * sizeof *guess);
    for (int i = 0; i < p->known; i++) {
        double weight = pole > factor ? (pole - p->factor[i]) / (pole - factor) : 1;
        for (int k = 0; k < p->known; k++)
            if (k != i) weight *= (factor - p->factor[k]) / (p->factor[i] - p->factor[k]);
        const double *u = row_of(p->solver, p->row[i]);
        for (size_t j = 0; j < n; j++) guess[j] += weight * u[j];
    }
}

static double distance(const double *a, const double *b, size_t n)
{
    double most = 0;
    for (size_t j = 0; j < n; j++) most = fmax(most, fabs(a[j] - b[j]));
    return most;
}

static void remember(frame_path *p, double factor)
{
    rbow_frame_solver *s = p->solver;
    const int row = p->row[KNOWN_MOST - 1];
    for (int i = KNOWN_MOST - 1; i > 0; i--) {
        p->factor[i] = p->factor[i - 1];
        p->row[i] = p->row[i - 1];
    }
    p->factor[0] = factor;
    p->row[0] = row;
    memcpy(row_of(s, row), row_of(s, GUESS_ROW), s->count * sizeof(double));
    if (p->known < KNOWN_MOST) p->known++;
}

/* A state that is far from the last one, and not where the path points, belongs to another branch, or the step is too long. */
static bool try_at(frame_path *p, double factor)
{
    rbow_frame_solver *s = p->solver;
    double *solved = row_of(s, GUESS_ROW);
    const double *last = rbow_frame_path_state(p);
    extrapolate(p, factor, solved);
    const double expected = distance(solved, last, s->count);
    if (!rbow_frame_solve(s, factor, solved)) return false;
    const double moved = distance(solved, last, s->count);
    const double near = 0.01 * (size_of(solved, s->count) + size_of(s->rest, s->count));
    if (p->known >= 2 && moved > near && fabs(moved - expected) > 0.5 * moved) return false;
    remember(p, factor);
    return true;
}

bool rbow_frame_path_go(frame_path *p, double factor)
{
    double step = factor - p->factor[0];
    while (p->factor[0] < factor) {
        const double next = fmin(factor, p->factor[0] + step);
        if (try_at(p, next)) step *= 2;
        else step /= 4;
        if (step < narrow * fmax(p->factor[0], narrow)) return false;
    }
    return true;
}

/* Close to a pole the movements are too large to be solved before its load factor is known to 1e-8, but the states before it give it.
 * Returned: NaN where it is not yet known */
static double sure_pole(const frame_path *p)
{
    if (p->known < KNOWN_MOST) return NAN;
    const double pole = pole_through(p, KNOWN_MOST), other = pole_through(p, KNOWN_MOST - 1);
    const bool near = pole - p->factor[0] < 0.01 * pole, agrees = fabs(pole - other) < 0.1 * narrow * pole;
    return near && agrees ? pole : (double)NAN;
}

/* Steps grow until one fails; then the bracket between the last state and the first failure, or a pole before it, is halved. A
 * failure that was only a step too long is found out at the end, from near. */
double rbow_frame_path_to_end(frame_path *p)
{
    double step = 0.25, fails = INFINITY;
    for (;;) {
        const double now = p->factor[0], pole = likely_pole(p), sure = sure_pole(p);
        const double ahead = pole < fails ? pole : fails, next = isinf(fails) ? now + step : now + (ahead - now) / 2;
        if (now >= endless_from) return INFINITY;
        if (sure < fails * (1 + narrow)) return sure;
        if (isfinite(fails) && fails - now <= narrow * fmax(now, narrow)) {
            if (!try_at(p, fails)) return now;
            step = 64 * (fails - now);
            fails = INFINITY;
            continue;
        }
        if (try_at(p, next)) step *= 2;
        else fails = next;
    }
}
