#include "frame/path.h"

#include "frame/modes.h"
#include "frame/state.h"

#include <math.h>
#include <string.h>

static const double narrow = 2e-8; /* of the load factor: an end is known to this */

static double size_of(const double *a, size_t n)
{
    double most = 0;
    for (size_t j = 0; j < n; j++) most = fmax(most, fabs(a[j]));
    return most;
}

const double *rbow_frame_path_state(const frame_path *p)
{
    return row_of(p->solver, p->row[0]);
}

void rbow_frame_path_from(frame_path *p, rbow_frame_solver *s, double factor, const double *unknowns)
{
    *p = (frame_path){.solver = s, .factor = {factor}, .row = {KNOWN_ROW, KNOWN_ROW + 1, KNOWN_ROW + 2, KNOWN_ROW + 3, KNOWN_ROW + 4}, .known = 1};
    memcpy(row_of(s, KNOWN_ROW), unknowns, s->count * sizeof *unknowns);
    for (int i = 0; i < MEASURES; i++) p->measure[0][i] = NAN;
}

/* The forced fit is brought in by parts where it cannot be brought in at once. */
bool rbow_frame_path_begin(frame_path *p, rbow_frame_solver *s)
{
    enum { PARTS_MOST = 4096 };
    const double whole = s->fit;
    double *u = s->rest, *last = row_of(s, GUESS_ROW), done = 0, part = 1;
    memset(last, 0, s->count * sizeof *last);
    s->decomposed = false;
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

/* ---- where the path ends -------------------------------------------------------------------------------- */

static void measure(const rbow_frame_solver *s, const double *unknowns, double log_of[MEASURES])
{
    double left = 1;
    for (size_t i = 0; i < s->frame.tube_count; i++) left = fmin(left, 1 - s->axial[i] / s->tubes[i].member.critical_load);
    log_of[BY_MOVEMENT] = -log(size_of(unknowns, s->count));
    log_of[BY_STIFFNESS] = s->measured ? s->log_stiffness : (double)NAN;
    log_of[BY_TANGENT] = s->measured ? s->log_tangent : (double)NAN;
    log_of[BY_STIFFNESS_ROOT] = log_of[BY_STIFFNESS] / 2;
    log_of[BY_TANGENT_ROOT] = log_of[BY_TANGENT] / 2;
    log_of[BY_TUBE] = log(left);
}

/* The load factor as a polynomial in a measure through `count` states from the first, where the measure is 0: the load factor is a smooth function
 * of it at a pole, where the measure falls with the distance, and at a fold, where it falls with the root of the distance.
 * Returned: NaN where the measure does not fall, or the polynomial points back */
static double end_through(const frame_path *p, int which, int first, int count)
{
    double m[KNOWN_MOST], end = 0;
    for (int i = 0; i < count; i++) m[i] = exp(p->measure[first + i][which] - p->measure[first][which]);
    for (int i = 0; i + 1 < count; i++)
        if (!(m[i] < m[i + 1])) return NAN;
    for (int i = 0; i < count; i++) {
        double weight = 1;
        for (int k = 0; k < count; k++)
            if (k != i) weight *= m[k] / (m[k] - m[i]);
        end += weight * p->factor[first + i];
    }
    return end > p->factor[0] ? end : (double)NAN;
}

/* Returned: NaN where the states do not yet agree on it; off  by how much they do not, as a share of the distance */
static double likely_end(const frame_path *p, int which, double *off)
{
    *off = NAN;
    if (p->known < 3) return NAN;
    const int count = p->known < 4 ? p->known : 4;
    const double end = end_through(p, which, 0, count);
    *off = fabs(end - end_through(p, which, 0, count - 1)) / (end - p->factor[0]);
    return *off < 0.2 ? end : (double)NAN;
}

/* That on which the states agree best, as a share of its distance; INFINITY for none */
static double seen_end(const frame_path *p)
{
    double end = INFINITY, best = 1;
    for (int i = 0; i < MEASURES; i++) {
        double off;
        const double e = likely_end(p, i, &off);
        if (isnan(e) || !(off < best)) continue;
        best = off;
        end = e;
    }
    return end;
}

/* Close to an end a state may be too hard to solve before the load factor is known to 1e-8, but the states before it give it.
 * Returned: NaN where it is not yet known */
static double sure_end(const frame_path *p)
{
    double sure = NAN;
    if (p->known < KNOWN_MOST) return NAN;
    for (int i = 0; i < MEASURES; i++) {
        const double end = end_through(p, i, 0, KNOWN_MOST), without_newest = end_through(p, i, 1, KNOWN_MOST - 1);
        const bool near = end - p->factor[0] < 1e-3 * end, agrees = fabs(end - without_newest) < 0.5 * narrow * end;
        if (near && agrees) sure = fmin(sure, end);
    }
    return sure;
}

/* ---- steps ---------------------------------------------------------------------------------------------- */

/* Through the known states, by the polynomial that has their number of terms: over the distance to a pole, where one is ahead; in
 * the root of the distance to a fold; or in the load factor. */
static void extrapolate(const frame_path *p, double factor, int known, double *guess)
{
    const size_t n = p->solver->count;
    double off;
    const double pole = likely_end(p, BY_MOVEMENT, &off), fold = likely_end(p, BY_TANGENT, &off);
    const bool turns = !(pole > factor) && fold > factor;
    double x[KNOWN_MOST];
    const double at = turns ? sqrt(fold - factor) : factor;
    for (int i = 0; i < known; i++) x[i] = turns ? sqrt(fold - p->factor[i]) : p->factor[i];
    memset(guess, 0, n * sizeof *guess);
    for (int i = 0; i < known; i++) {
        double weight = pole > factor ? (pole - p->factor[i]) / (pole - factor) : 1;
        for (int k = 0; k < known; k++)
            if (k != i) weight *= (at - x[k]) / (x[i] - x[k]);
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
        memcpy(p->measure[i], p->measure[i - 1], sizeof p->measure[i]);
    }
    p->factor[0] = factor;
    p->row[0] = row;
    measure(s, row_of(s, GUESS_ROW), p->measure[0]);
    memcpy(row_of(s, row), row_of(s, GUESS_ROW), s->count * sizeof(double));
    if (p->known < KNOWN_MOST) p->known++;
}

/* Whether two modes have passed 0 together since the newest state: a fold that the sign of the determinant does not show. A pair that
 * becomes complex can become negative too, but not at 0: close to where it does, its modes are not small. */
static bool two_have_folded(frame_path *p, double factor)
{
    const double unseen = 1e-4, small = 0.02;
    if (!p->solver->measured || p->turned) return false;
    const double mode = rbow_frame_negative_mode(p->solver);
    if (isnan(mode)) return false;
    p->turned = factor - p->factor[0] < unseen * factor && -mode > small;
    return !p->turned;
}

/* A state that is far from where the path points belongs to another branch, or the step is too long. */
static bool try_from(frame_path *p, double factor, int known)
{
    rbow_frame_solver *s = p->solver;
    double *solved = row_of(s, GUESS_ROW), *expected = row_of(s, EXPECTED_ROW);
    const double *last = rbow_frame_path_state(p);
    extrapolate(p, factor, known, expected);
    memcpy(solved, expected, s->count * sizeof *solved);
    if (!rbow_frame_solve(s, factor, solved)) return false;
    const double moved = distance(solved, last, s->count), off = distance(solved, expected, s->count);
    const double near = 0.01 * (size_of(solved, s->count) + size_of(s->rest, s->count));
    const bool stray = known >= 2 ? off > 0.5 * moved : p->known >= 2;
    if (moved > near && stray) return false;
    if (two_have_folded(p, factor)) return false;
    remember(p, factor);
    return true;
}

/* Where states lie close to one another their rounding spoils a polynomial through many of them, and where movements begin like a root
 * even a line points too far. */
static bool try_at(frame_path *p, double factor)
{
    return try_from(p, factor, p->known) || (p->known > 2 && try_from(p, factor, 2)) || (p->known > 1 && try_from(p, factor, 1));
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

/* Steps grow until one fails, and again after it: a failure may only have been a step too long, which is found out from near. */
static double go_to_end(frame_path *p)
{
    double step = 0.25, fails = INFINITY;
    for (;;) {
        const double now = p->factor[0], seen = seen_end(p), sure = sure_end(p);
        const double least = narrow * fmax(now, narrow), toward = 0.8 * (seen - now);
        const double next = fmin(fmin(now + step, fails), now + (toward > 4 * least ? toward : step));
        if (now >= endless_from) return INFINITY;
        if (sure < fails * (1 + narrow)) return sure;
        if (try_at(p, next)) {
            step = 2 * fmax(step, next - now);
            if (next >= fails) fails = INFINITY;
            continue;
        }
        if (next - now <= least) return now;
        fails = next;
        step = (next - now) / 4;
    }
}

double rbow_frame_path_to_end(frame_path *p)
{
    p->solver->measured = true;
    const double end = go_to_end(p);
    p->solver->measured = false;
    return end;
}
