/* The moment on one piece of the tube as a sum of three waves and the half-wave bow's, loads before the piece taken in.
 * Where it serves, a place costs a tenth of what shapes_at does, and evenly spaced ones need no sine at all.
 * Everything is inline: a check asks some three hundred places. */
#ifndef RAILBOW_ENGINE_WAVES_H
#define RAILBOW_ENGINE_WAVES_H

#include "engine/shapes.h"

#include <gsl/gsl_math.h>
#include <math.h>

typedef struct wave_field {
    const rbow_prepared *p;
    double wave;                        /* u */
    double twice, over_wave, over_load; /* +-2 with the sign of z; 2/u; 2/|z| */
    pair constant, second, spread;      /* of cos(u xi), sin(u xi)/u, -(1 - cos(u xi))/z */
    pair bow, source;                   /* of sin(pi xi) in the moment, and in what bends it */
} wave_field;

typedef struct half_wave { /* of u x/2; hyperbolic under tension */
    double sine, cosine;
} half_wave;

/* Under strong tension, and where a half-wave bow is near resonance, shapes.c has other forms. */
static inline bool field_serves(const rbow_prepared *p)
{
    return !p->tension && !(p->beam.bow_shape == RBOW_BOW_SINE && isnan(sine_amplitude(p)));
}

static inline half_wave half_wave_at(const wave_field *f, double x)
{
    const double angle = f->wave * x / 2;
    if (angle <= 0) return (half_wave){0, 1};
    return f->twice > 0 ? (half_wave){sin(angle), cos(angle)} : (half_wave){sinh(angle), cosh(angle)};
}

/* The half wave of x + y from those of x and y. */
static inline half_wave half_wave_on(const wave_field *f, half_wave x, half_wave y)
{
    return (half_wave){
        .sine = x.sine * y.cosine + x.cosine * y.sine,
        .cosine = x.cosine * y.cosine - f->twice / 2 * (x.sine * y.sine),
    };
}

/* On the piece from A on. In half angles nothing cancels, however slight the axial load: without any, a wave so long
 * that it is straight to the last digit gives the polynomials 1, x and x^2/2. */
static inline wave_field field_from_a(const rbow_prepared *p, const shares *s)
{
    const double wave = p->wave > 1e-100 ? p->wave : 1e-100;
    const bool sine = p->beam.bow_shape == RBOW_BOW_SINE;
    return (wave_field){
        .p = p,
        .wave = wave,
        .twice = p->load > 0 ? 2 : -2,
        .over_wave = 2 / wave,
        .over_load = 2 / (wave * wave),
        .constant = s->of[SHAPE_MOMENT_A],
        .second = s->of[SHAPE_SECOND],
        .spread = s->of[SHAPE_SPREAD],
        .bow = s->of[SHAPE_SINE] * (sine ? sine_amplitude(p) : 0),
        .source = s->of[SHAPE_SINE] * (sine ? p->load * (M_PI * M_PI) : 0),
    };
}

/* A load F at a adds -F sin(u (xi - a))/u behind it: by the sine of a difference, a share of either wave.
 * Given: there  the half wave at a */
static inline void take_in(wave_field *f, half_wave there, pair force)
{
    f->constant += force * (f->over_wave * there.sine * there.cosine);
    f->second -= force * (1 - f->twice * there.sine * there.sine);
}

/* Given: side  a place inside the piece */
static inline wave_field field_of(const rbow_prepared *p, const shares *s, double side)
{
    wave_field f = field_from_a(p, s);
    if (side > p->point_at) take_in(&f, half_wave_at(&f, p->point_at), s->of[SHAPE_POINT]);
    if (p->beam.bow_shape == RBOW_BOW_KINK && side > p->bow_at)
        take_in(&f, half_wave_at(&f, p->bow_at), s->of[SHAPE_KINK]);
    return f;
}

typedef struct waves { /* the factors of a field's parts at one place */
    double c0, x1, x2, sine, cosine;
} waves;

static inline waves waves_at(const wave_field *f, half_wave h, const spot *at)
{
    const double square = h.sine * h.sine;
    return (waves){
        .c0 = 1 - f->twice * square,
        .x1 = f->over_wave * h.sine * h.cosine,
        .x2 = f->over_load * square,
        .sine = 2 * at->sine * at->cosine,
        .cosine = 1 - 2 * at->sine * at->sine,
    };
}

static inline pair value_of_field(const wave_field *f, const waves *w)
{
    return f->constant * w->c0 + f->second * w->x1 - f->spread * w->x2 + f->bow * w->sine;
}

static inline pair slope_of_field(const wave_field *f, const waves *w)
{
    return f->second * w->c0 - (f->constant * f->p->load + f->spread) * w->x1 + f->bow * (M_PI * w->cosine);
}

static inline jet jet_of_field(const wave_field *f, half_wave h, const spot *at)
{
    const waves w = waves_at(f, h, at);
    const pair m = value_of_field(f, &w);
    return (jet){m, slope_of_field(f, &w), -(m * f->p->load + f->spread + f->source * w.sine)};
}

#endif
