#include <railbow/sight.h>

#include <railbow/clock.h>

#include "mechanics/no_result.h"
#include "shop/least_squares.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_math.h>
#include <math.h>

enum { SOCKET_STATIONS = 2, TUBE_STATIONS = 3, KINK_STATIONS = 5 };
static const double steepest = 0.17632698070846498; /* tan 10 deg: beyond it small slopes no longer serve */

RESULT_WITH_WHOLE(rbow_sight, bow_shape, 4);

/* ---- what is read ------------------------------------------------------------------------------------------------------ */

typedef struct sighted { /* readings, and which of up (0) and right (1) are among them */
    const rbow_sight_reading *readings;
    size_t count;
    double first, last;     /* stations */
    double second, before;  /* the stations next to them */
    int stations[2];        /* different ones of each plane, counted up to KINK_STATIONS */
    int planes, place[2];   /* how many planes are read; the place of each among them, -1 for none */
    int offsets;            /* readings of both planes together */
} sighted;

static double offset_of(const rbow_sight_reading *r, int plane)
{
    return plane == 0 ? r->up : r->right;
}

static int different_stations(const sighted *s, int plane)
{
    double seen[KINK_STATIONS];
    int count = 0;
    for (size_t i = 0; i < s->count && count < KINK_STATIONS; i++) {
        int k = 0;
        if (isnan(offset_of(&s->readings[i], plane))) continue;
        while (k < count && fabs(seen[k] - s->readings[i].station) > 1e-9 * (s->last - s->first)) k++;
        if (k == count) seen[count++] = s->readings[i].station;
    }
    return count;
}

static rbow_status take_readings(sighted *s, const rbow_sight_reading *readings, size_t count)
{
    *s = (sighted){.readings = readings, .count = count, .first = INFINITY, .last = -INFINITY, .place = {-1, -1}};
    for (size_t i = 0; i < count; i++) {
        const rbow_sight_reading *r = &readings[i];
        if (!isfinite(r->station) || isinf(r->up) || isinf(r->right)) return RBOW_NOT_FINITE;
        if (!(r->error > 0) || isinf(r->error)) return RBOW_BAD_READING_ERROR;
        s->offsets += !isnan(r->up) + !isnan(r->right);
        if (isnan(r->up) && isnan(r->right)) continue;
        s->first = fmin(s->first, r->station);
        s->last = fmax(s->last, r->station);
    }
    const double apart = 1e-9 * (s->last - s->first);
    s->second = s->last;
    s->before = s->first;
    for (size_t i = 0; i < count; i++) {
        const rbow_sight_reading *r = &readings[i];
        if (isnan(r->up) && isnan(r->right)) continue;
        if (r->station > s->first + apart) s->second = fmin(s->second, r->station);
        if (r->station < s->last - apart) s->before = fmax(s->before, r->station);
    }
    for (int plane = 0; plane < 2; plane++) {
        s->stations[plane] = different_stations(s, plane);
        if (s->stations[plane] > 0) s->place[plane] = s->planes++;
    }
    return s->planes > 0 ? RBOW_OK : RBOW_NOT_SIGHTED;
}

static rbow_status enough_stations(const sighted *s, int needed)
{
    if (s->place[0] >= 0 && s->stations[0] < needed) return RBOW_FEW_UP;
    if (s->place[1] >= 0 && s->stations[1] < needed) return RBOW_FEW_RIGHT;
    return RBOW_OK;
}

/* ---- the fit ----------------------------------------------------------------------------------------------------------- */

/* In each plane offset = level + tilt v + size y(x): v runs from -1 to 1 over the stations, and y is the shape of a bow of 1,
 * which a socket has not. With `moves` the place of a kink is one more unknown of both planes, to first order about it. */
typedef struct model {
    const sighted *s;
    const rbow_bow *shape; /* NULL for a straight line */
    int each;              /* unknowns of a plane: 2 or 3 */
    int moves;
    double sizes[2];       /* of the kink whose place moves */
} model;

static int unknowns_of(const model *m)
{
    return m->each * m->s->planes + m->moves;
}

static double shape_at(const rbow_bow *shape, double x)
{
    rbow_bow_place place;
    return rbow_bow_at(shape, fmin(fmax(x, 0), shape->length), &place) == RBOW_OK ? place.offset : (double)NAN;
}

/* What a kink of 1 gains at x where its corner moves toward B. */
static double kink_gain(const rbow_bow *shape, double x)
{
    const double c = shape->kink_at, rest = shape->length - c;
    return x < c ? -x / (c * c) : (shape->length - x) / (rest * rest);
}

static void model_row(const model *m, double station, int plane, double row[LEAST_UNKNOWNS])
{
    const sighted *s = m->s;
    double *own = row + m->each * s->place[plane];
    for (int i = 0; i < LEAST_UNKNOWNS; i++) row[i] = 0;
    own[0] = 1;
    own[1] = (2 * station - s->first - s->last) / (s->last - s->first);
    if (m->shape != NULL) own[2] = shape_at(m->shape, station - s->first);
    if (m->moves) row[m->each * s->planes] = m->sizes[plane] * kink_gain(m->shape, station - s->first);
}

/* Returned: 0 where the readings do not determine it. */
static int fit(const model *m, rbow_least_squares *l, double x[LEAST_UNKNOWNS])
{
    double row[LEAST_UNKNOWNS];
    *l = (rbow_least_squares){.unknowns = unknowns_of(m)};
    for (size_t i = 0; i < m->s->count; i++)
        for (int plane = 0; plane < 2; plane++) {
            const rbow_sight_reading *r = &m->s->readings[i];
            if (isnan(offset_of(r, plane))) continue;
            model_row(m, r->station, plane, row);
            for (int k = 0; k < l->unknowns; k++) row[k] /= r->error;
            rbow_least_add(l, row, offset_of(r, plane) / r->error);
        }
    return rbow_least_solve(l, x);
}

/* ---- what the fit says --------------------------------------------------------------------------------------------------- */

/* Variances of up and right, and their covariance. */
typedef struct spread {
    double up, right, both;
} spread;

static spread spread_of(const model *m, const rbow_least_squares *l, int unknown, double times)
{
    double c[LEAST_UNKNOWNS][LEAST_UNKNOWNS];
    const int *place = m->s->place, up = m->each * place[0] + unknown, right = m->each * place[1] + unknown;
    spread v = {0};
    rbow_least_covariance(l, c);
    if (place[0] >= 0) v.up = times * times * c[up][up];
    if (place[1] >= 0) v.right = times * times * c[right][right];
    if (m->s->planes == 2) v.both = times * times * c[up][right];
    return v;
}

/* 95 % of chi-square: of two degrees of freedom -2 ln 0.05, of one 1.96 squared. */
static double quantile(const sighted *s)
{
    return s->planes == 2 ? -2 * log(0.05) : gsl_pow_2(gsl_cdf_ugaussian_Pinv(0.975));
}

/* The ellipse n' V^-1 n = q of the covariances V, and its radius toward the clock of the size. */
static void tell_error(rbow_sight *r, const sighted *s, spread v)
{
    const double q = quantile(s), middle = (v.up + v.right) / 2, half = hypot((v.up - v.right) / 2, v.both);
    const double determinant = v.up * v.right - v.both * v.both;
    r->major = sqrt(q * (middle + half));
    r->major_clock = rbow_clock_of(cos(atan2(2 * v.both, v.up - v.right) / 2), sin(atan2(2 * v.both, v.up - v.right) / 2));
    if (!(half > 1e-9 * middle)) r->major_clock = 0; /* a circle */
    r->error = r->major;
    if (s->planes == 2) {
        double n[2];
        r->minor = sqrt(q * fmax(middle - half, 0));
        if (!isnan(r->clock)) {
            rbow_clock_components(1, r->clock, n);
            r->error = sqrt(q * determinant / (n[0] * n[0] * v.right - 2 * n[0] * n[1] * v.both + n[1] * n[1] * v.up));
        }
    }
    r->significant = r->size > r->error;
}

/* Of a straight tube a corner that may lie anywhere finds more than its share of noise: a kink is significant only where it
 * exceeds the error with the corner counted as a further direction, chi-square of one degree of freedom more. */
static void judge_kink(rbow_sight *r, const sighted *s)
{
    r->significant = r->size > r->error * sqrt(gsl_cdf_chisq_Pinv(0.95, s->planes + 1) / quantile(s));
}

static double in_plane(const model *m, const double x[], int plane, int unknown)
{
    return m->s->place[plane] >= 0 ? x[m->each * m->s->place[plane] + unknown] : 0;
}

/* The straight part of the fit at both ends: v is -1 and 1 there. */
static void tell_line(rbow_sight *r, const model *m, const double x[])
{
    double *const ends[2] = {r->up, r->right};
    for (int plane = 0; plane < 2; plane++) {
        if (m->s->place[plane] < 0) continue;
        ends[plane][0] = in_plane(m, x, plane, 0) - in_plane(m, x, plane, 1);
        ends[plane][1] = in_plane(m, x, plane, 0) + in_plane(m, x, plane, 1);
    }
}

static void tell_size(rbow_sight *r, double up, double right)
{
    r->size = hypot(up, right);
    r->clock = rbow_clock_of(up, right);
}

/* What the fit leaves of each reading, over its error. */
static void tell_misfit(rbow_sight *r, const model *m, const double x[], double misfit, int unknowns)
{
    double most = -1;
    r->first = m->s->first;
    r->last = m->s->last;
    r->freedom = m->s->offsets - unknowns;
    r->holds = 1;
    if (r->freedom <= 0) return;
    r->misfit = misfit;
    r->misfit_most = gsl_cdf_chisq_Pinv(0.95, r->freedom);
    r->holds = r->misfit <= r->misfit_most;
    for (size_t i = 0; i < m->s->count; i++)
        for (int plane = 0; plane < 2; plane++) {
            const rbow_sight_reading *read = &m->s->readings[i];
            double row[LEAST_UNKNOWNS], left = offset_of(read, plane);
            if (isnan(left)) continue;
            model_row(m, read->station, plane, row);
            for (int k = 0; k < unknowns_of(m); k++) left -= row[k] * x[k];
            if (!(fabs(left) / read->error > most)) continue;
            most = fabs(left) / read->error;
            r->worst = read->station;
        }
}

/* ---- a socket ------------------------------------------------------------------------------------------------------------ */

rbow_status rbow_sight_socket(const rbow_sight_reading *readings, size_t count, double landing, rbow_sight *sight)
{
    sighted s;
    rbow_least_squares l;
    double x[LEAST_UNKNOWNS];
    NO_RESULT_BEFORE(rbow_sight, sight, bow_shape);
    const rbow_status read = take_readings(&s, readings, count);
    if (read != RBOW_OK) return read;
    if (!(landing > 0) || isinf(landing)) return RBOW_BAD_LANDING;
    const rbow_status enough = enough_stations(&s, SOCKET_STATIONS);
    if (enough != RBOW_OK) return enough;
    const model m = {.s = &s, .each = 2};
    if (!fit(&m, &l, x)) return s.place[0] >= 0 ? RBOW_FEW_UP : RBOW_FEW_RIGHT;
    const double per_inch = 2 / (s.last - s.first), at_a = -(s.first + s.last) / (s.last - s.first); /* of v; v at A */
    const double slope[2] = {in_plane(&m, x, 0, 1) * per_inch, in_plane(&m, x, 1, 1) * per_inch};
    if (!(hypot(slope[0], slope[1]) <= steepest)) return RBOW_SIGHT_STEEP;
    tell_size(sight, slope[0] * landing, slope[1] * landing);
    const double up = in_plane(&m, x, 0, 0) + at_a * in_plane(&m, x, 0, 1);
    const double right = in_plane(&m, x, 1, 0) + at_a * in_plane(&m, x, 1, 1);
    sight->offset = hypot(up, right);
    sight->offset_clock = rbow_clock_of(up, right);
    tell_error(sight, &s, spread_of(&m, &l, 1, per_inch * landing));
    tell_line(sight, &m, x);
    tell_misfit(sight, &m, x, l.misfit, l.unknowns);
    return RBOW_OK;
}

/* ---- a tube -------------------------------------------------------------------------------------------------------------- */

static double misfit_at(const model *m, double place, rbow_bow *shape)
{
    rbow_least_squares l;
    double x[LEAST_UNKNOWNS];
    shape->kink_at = place;
    return fit(m, &l, x) ? l.misfit : (double)INFINITY;
}

/* The corner of least misfit: even places, then golden sections about the best of them. It is looked for between the second
 * station and the last but one. Beyond them, or at one of them, a single reading would make it: that is no kink.
 * Returned: 1 where there is a corner, in shape->kink_at */
static int find_corner(const model *m, rbow_bow *shape)
{
    enum { PLACES = 400, SECTIONS = 60 };
    const double from = m->s->second - m->s->first, to = m->s->before - m->s->first, step = (to - from) / PLACES;
    const double golden = (sqrt(5) - 1) / 2;
    double best = from, least = INFINITY;
    for (int i = 0; i <= PLACES; i++) {
        const double misfit = misfit_at(m, from + i * step, shape);
        if (!(misfit < least)) continue;
        least = misfit;
        best = from + i * step;
    }
    double low = fmax(best - step, from), high = fmin(best + step, to);
    for (int i = 0; i < SECTIONS; i++) {
        const double left = high - golden * (high - low), right = low + golden * (high - low);
        if (misfit_at(m, left, shape) <= misfit_at(m, right, shape)) high = right;
        else low = left;
    }
    shape->kink_at = (low + high) / 2;
    return shape->kink_at > from + 1e-3 * step && shape->kink_at < to - 1e-3 * step;
}

static int may_be_kink(const sighted *s)
{
    return (s->place[0] < 0 || s->stations[0] >= KINK_STATIONS) && (s->place[1] < 0 || s->stations[1] >= KINK_STATIONS);
}

/* The shape with the least misfit + 2 unknowns; a difference of rounding alone leaves the first. */
static void best_shape(const sighted *s, rbow_bow *shape)
{
    double least = INFINITY;
    const double length = s->last - s->first;
    for (int i = 0; i < RBOW_BOW_SHAPE_COUNT; i++) {
        rbow_least_squares l;
        double x[LEAST_UNKNOWNS];
        const int is_kink = i == RBOW_BOW_KINK;
        rbow_bow tried = {(rbow_bow_shape)i, 1, length, length / 2};
        const model m = {.s = s, .shape = &tried, .each = 3};
        if (is_kink && !(may_be_kink(s) && find_corner(&m, &tried))) continue;
        if (!fit(&m, &l, x)) continue;
        const double measure = l.misfit + 2 * (l.unknowns + is_kink);
        if (!(measure < least - 1e-9)) continue;
        least = measure;
        *shape = tried;
    }
}

/* Slope of the tube at the end where it is steepest. */
static double steepness(const rbow_bow *shape, double size)
{
    rbow_bow_place a, b;
    rbow_bow_at(shape, 0, &a);
    rbow_bow_at(shape, shape->length, &b);
    return size * fmax(fabs(a.slope), fabs(b.slope));
}

rbow_status rbow_sight_tube(const rbow_sight_reading *readings, size_t count, rbow_sight *sight)
{
    sighted s;
    rbow_least_squares l;
    double x[LEAST_UNKNOWNS], moved[LEAST_UNKNOWNS];
    NO_RESULT_BEFORE(rbow_sight, sight, bow_shape);
    const rbow_status read = take_readings(&s, readings, count);
    if (read != RBOW_OK) return read;
    const rbow_status enough = enough_stations(&s, TUBE_STATIONS);
    if (enough != RBOW_OK) return enough;
    rbow_bow shape = {RBOW_BOW_SINE, 1, s.last - s.first, (s.last - s.first) / 2};
    best_shape(&s, &shape);
    model m = {.s = &s, .shape = &shape, .each = 3};
    if (!fit(&m, &l, x)) return s.place[0] >= 0 ? RBOW_FEW_UP : RBOW_FEW_RIGHT;
    const int is_kink = shape.shape == RBOW_BOW_KINK;
    const double up = in_plane(&m, x, 0, 2), right = in_plane(&m, x, 1, 2);
    if (!(steepness(&shape, hypot(up, right)) <= steepest)) return RBOW_SIGHT_STEEP;
    tell_size(sight, up, right);
    tell_line(sight, &m, x);
    tell_misfit(sight, &m, x, l.misfit, l.unknowns + is_kink);
    sight->bow_shape = (int)shape.shape;
    sight->bow_at = s.first + shape.kink_at;
    m.sizes[0] = up;
    m.sizes[1] = right;
    m.moves = is_kink;
    rbow_least_squares moving;
    if (is_kink && fit(&m, &moving, moved)) l = moving; /* its triangle knows the place too */
    else m.moves = 0;
    tell_error(sight, &s, spread_of(&m, &l, 2, 1));
    if (is_kink) judge_kink(sight, &s);
    return RBOW_OK;
}
