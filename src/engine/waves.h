/* The moment on one piece of the tube as a sum of three waves and the half-wave bow's, loads before the piece taken in.
 * Where it serves, a place costs a tenth of what shapes_at does, and no place needs a sine. Everything is inline: a check
 * asks some hundred places. */
#ifndef RAILBOW_ENGINE_WAVES_H
#define RAILBOW_ENGINE_WAVES_H

#include "engine/frame.h"
#include "engine/smooth.h"

#include <gsl/gsl_math.h>
#include <math.h>

typedef struct half_wave { /* sin(u x/2)/u and cos(u x/2) with u^2 = z; hyperbolic below 0, smooth through it */
    double sine, cosine;
} half_wave;

/* The coefficients of both in powers of z x^2/4, which is 0.125 at most over a cell of the frame (cells_of in frame.c):
 * eight leave 0.125^8/16! = 3e-21. */
#define HALF_WAVE_SINE                                                                                            \
    {1, -1.0 / 6, 1.0 / 120, -1.0 / 5040, 1.0 / 362880, -1.0 / 39916800, 1.0 / 6227020800.0, -1.0 / 1307674368e3}
#define HALF_WAVE_COSINE                                                                                            \
    {1, -1.0 / 2, 1.0 / 24, -1.0 / 720, 1.0 / 40320, -1.0 / 3628800, 1.0 / 479001600, -1.0 / 87178291200.0}

/* Over a cell at most. */
static inline half_wave half_wave_over(double z, double x)
{
    static const double odd[] = HALF_WAVE_SINE, even[] = HALF_WAVE_COSINE;
    const double w = z * x * x / 4;
    return (half_wave){x / 2 * eight_terms(odd, w), eight_terms(even, w)};
}

/* The half wave of x + y from those of x and y. */
static inline half_wave half_wave_on(double z, half_wave x, half_wave y)
{
    return (half_wave){x.sine * y.cosine + x.cosine * y.sine, x.cosine * y.cosine - z * (x.sine * y.sine)};
}

typedef struct half_waves { /* at the spots of a frame */
    double sine[SPOTS_MOST], cosine[SPOTS_MOST];
} half_waves;

/* A place beside another, on the same piece and not further than a cell. */
static inline spot spot_beside(const spot *from, double xi)
{
    const half_wave turn = half_wave_over(M_PI * M_PI, xi - from->xi);
    const double sine = M_PI * turn.sine;
    const double half_sine = from->sine * turn.cosine + from->cosine * sine;
    const double half_cosine = from->cosine * turn.cosine - from->sine * sine;
    return (spot){xi, from->side, half_sine, half_cosine, 2 * half_sine * half_cosine, 1 - 2 * half_sine * half_sine};
}

/* m = c + S C k - S^2 j + bow sin(pi xi), S and C the half wave's, where k = 2 s and j = 2 (z c + q): the cosine, sine
 * and 1 - cosine of the whole angle written out. In half angles nothing cancels, however slight the axial load. */
typedef struct wave_field {
    double load;           /* z */
    pair constant, second; /* c, s: of cos(u xi), sin(u xi)/u */
    pair spread;           /* q: of -(1 - cos(u xi))/z */
    pair j, k;
    pair bow, source;      /* of sin(pi xi) in the moment, and in what bends it */
    pair start, line;      /* what the moment would be without the axial load: start + line xi - spread xi^2/2 */
} wave_field;

static inline void set_sums(wave_field *f)
{
    f->j = 2 * (f->constant * f->load + f->spread);
    f->k = 2 * f->second;
}

/* Under strong tension, and where a half-wave bow is near resonance, shapes.c has other forms. */
static inline bool field_serves(const rbow_prepared *p)
{
    return !p->tension && !(p->beam.bow_shape == RBOW_BOW_SINE && isnan(p->sine_amplitude));
}

/* On the piece from A on. */
static inline wave_field field_from_a(const rbow_prepared *p, const shares *s)
{
    const bool sine = p->beam.bow_shape == RBOW_BOW_SINE;
    wave_field f = {
        .load = p->load,
        .constant = s->of[SHAPE_MOMENT_A],
        .second = s->of[SHAPE_SECOND],
        .spread = s->of[SHAPE_SPREAD],
        .bow = s->of[SHAPE_SINE] * (sine ? p->sine_amplitude : 0),
        .source = s->of[SHAPE_SINE] * (sine ? p->load * (M_PI * M_PI) : 0),
        .start = s->of[SHAPE_MOMENT_A],
        .line = s->of[SHAPE_SECOND] - s->of[SHAPE_TURN] * p->load,
    };
    set_sums(&f);
    return f;
}

/* A load F at a adds -F sin(u (xi - a))/u behind it: by the sine of a difference, a share of either wave.
 * Given: there  the half wave at a */
static inline void take_in(wave_field *f, half_wave there, double a, pair force)
{
    f->start += force * a;
    f->line -= force;
    f->constant += force * (2 * there.sine * there.cosine);
    f->second -= force * (1 - 2 * f->load * (there.sine * there.sine));
    set_sums(f);
}

static inline jet jet_of_field(const wave_field *f, half_wave h, const spot *at)
{
    const double square = h.sine * h.sine, product = h.sine * h.cosine;
    const pair m = f->constant + f->k * product - f->j * square + f->bow * at->whole_sine;
    const pair slope = f->second - f->k * (f->load * square) - f->j * product + f->bow * (M_PI * at->whole_cosine);
    const pair bend = -(m * f->load + f->spread + f->source * at->whole_sine);
    return (jet){m, slope, bend, -(slope * f->load + f->source * (M_PI * at->whole_cosine)),
                 -(bend * f->load - f->source * (M_PI * M_PI * at->whole_sine))};
}

/* The axial load acts on the bow and the movement: m = start + line xi - spread xi^2/2 + z (w + y0). */
static inline jet jet_of_field_movement(const wave_field *f, half_wave h, const spot *at)
{
    const jet m = jet_of_field(f, h, at);
    const double xi = at->xi, per_load = 1 / f->load;
    const pair bow = f->source * (per_load / (M_PI * M_PI));
    return (jet){
        (m.f - (f->start + f->line * xi - f->spread * (xi * xi / 2))) * per_load - bow * at->whole_sine,
        (m.d1 - (f->line - f->spread * xi)) * per_load - bow * (M_PI * at->whole_cosine),
        -m.f, -m.d1, -m.d2,
    };
}

#endif
