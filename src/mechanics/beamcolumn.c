#include "mechanics/beam.h"
#include "mechanics/beamcolumn_body.h"
#include "mechanics/no_result.h"

#include <gsl/gsl_math.h>

RESULT_OF_DOUBLES(rbow_solution);
RESULT_OF_DOUBLES(rbow_station);

static bool is_sound(const rbow_beam *b)
{
    const bool free_b = end_is(b->stiffness_b, RBOW_FREE);
    return b->bending_stiffness > 0 && b->length > 0 && b->stiffness_a >= 0
        && (free_b ? b->stiffness_a > 0 : b->stiffness_b >= 0) && b->point_at >= 0 && b->point_at <= b->length
        && b->bow_at > 0 && b->bow_at < b->length;
}

rbow_status rbow_beam_constants(const rbow_beam *from, beam *b)
{
    if (!is_sound(from)) return RBOW_OUT_OF_RANGE;
    const double unit = from->bending_stiffness / from->length;
    const double point_at = from->point_at / from->length, kink_at = from->bow_at / from->length;
    const bool free_b = end_is(from->stiffness_b, RBOW_FREE);
    *b = (beam){
        .bending_stiffness = from->bending_stiffness,
        .length = from->length,
        .spring_a = spring_of(from->stiffness_a / unit),
        .spring_b = spring_of(free_b ? 0 : from->stiffness_b / unit),
        .free_b = free_b,
        .has_point = point_at < 1,
        .has_kink = from->bow_shape == RBOW_BOW_KINK,
        .has_arc = from->bow_shape == RBOW_BOW_ARC,
        .has_half_wave = from->bow_shape == RBOW_BOW_SINE,
        .point_at = point_at - 0.5,
        .kink_at = kink_at - 0.5,
    };
    const rbow_bow bow = {.shape = from->bow_shape, .amplitude = 1, .length = 1, .kink_at = kink_at};
    return rbow_bow_equivalent(&bow, 1, &b->bow);
}

rbow_status rbow_beam_prepare(const rbow_beam *beam_, rbow_prepared *prepared)
{
    beam b;
    rbow_status status = rbow_beam_constants(beam_, &b);
    if (!(isfinite(beam_->compression) && beam_->critical_load > 0)) status = RBOW_OUT_OF_RANGE;
    if (status == RBOW_OK && !(beam_->compression < beam_->critical_load)) status = RBOW_UNSTABLE;
    *prepared = (rbow_prepared){*beam_};
    if (status != RBOW_OK) prepared->beam.bending_stiffness = prepared->beam.length = NAN;
    return status;
}

static double load_of(const rbow_beam *b)
{
    return b->compression * b->length * b->length / b->bending_stiffness;
}

void rbow_beam_solve(const rbow_prepared *prepared, const rbow_loading *l, rbow_solution *out)
{
    const rbow_beam *from = &prepared->beam;
    const double length = from->length, per_unit = length / from->bending_stiffness;
    const plane_loads loads = {
        .moment_a = {l->moment_a * per_unit}, .moment_b = {l->moment_b * per_unit}, .slope_a = {l->slope_a},
        .slope_b = {l->slope_b}, .spread = {l->spread_load * (length * length * per_unit)},
        .point = {l->point_load * (length * per_unit)}, .bow = {l->bow / length},
    };
    beam b;
    equilibrium e;
    NO_RESULT(out);
    if (rbow_beam_constants(from, &b) != RBOW_OK) return;
    equilibrium_of(&b, load_of(from), &loads, &e);
    for (int i = 0; i < SHAPES; i++) out->share[i] = e.share[i][UP];
    out->share[SHAPES] = e.offset[UP];
    out->share[SHAPES + 1] = e.turn[UP];
}

void rbow_beam_at(const rbow_prepared *prepared, const rbow_solution *solved, double x, rbow_station *out)
{
    const rbow_beam *from = &prepared->beam;
    const double length = from->length, unit = from->bending_stiffness / length;
    beam b;
    NO_RESULT(out);
    if (rbow_beam_constants(from, &b) != RBOW_OK) return;
    equilibrium e = {.beam = &b, .z = load_of(from), .per_off = 1 / (load_of(from) - M_PI * M_PI), .offset = {solved->share[SHAPES]}, .turn = {solved->share[SHAPES + 1]}};
    for (int i = 0; i < SHAPES; i++) e.share[i][UP] = solved->share[i];
    const station there = station_at(&b, x / length - 0.5, x / length - 0.5);
    const location at = location_of(&there);
    moments m;
    double w[PLANES], dw[PLANES];
    moments_at(&e, &at, &m);
    movements_at(&e, &at, w, dw);
    *out = (rbow_station){m.m[UP] * unit, m.dm[UP] * unit / length, w[UP] * length, dw[UP]};
}
