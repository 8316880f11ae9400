/* A prepared member: all values that do not depend on the load factor. */
#ifndef RAILBOW_CHECK_PREPARE_H
#define RAILBOW_CHECK_PREPARE_H

#include "mechanics/beam.h"
#include "mechanics/fibre_factors.h"

#include <railbow/member.h>

#include <stdbool.h>

enum { ZONE_TUBE, ZONE_WELD, ZONES }; /* the two kinds of metal along the tube */

typedef struct zone {
    rbow_strength strength;
    fibre_factors factors; /* for moments m = M L/EI */
} zone;

enum {
    SEGMENTS_MOST = 5, /* divided at two zone borders, a point load and a kink */
    CELLS_MOST = 9,    /* of a tube in one segment; see prepare.c */
    STATIONS_MOST = CELLS_MOST + 2 * SEGMENTS_MOST,
    STATIONS_BEHIND = 8 /* copies of the last, which fill the widest vector */
};

typedef struct segment { /* a part of one zone without a load inside it */
    int zone;
    int first, count; /* its stations: both ends, and even steps of `cell` between them */
    double cell;
} segment;

typedef struct stations { /* of all segments, as arrays; see station in beam.h */
    double t[STATIONS_MOST + STATIONS_BEHIND], cosine[STATIONS_MOST + STATIONS_BEHIND], sine[STATIONS_MOST + STATIONS_BEHIND];
    double point_side[STATIONS_MOST + STATIONS_BEHIND], kink_side[STATIONS_MOST + STATIONS_BEHIND];
    double cell[STATIONS_MOST + STATIONS_BEHIND]; /* width of the cell that follows; 0 at the end of a segment */
} stations;

typedef struct member_loads { /* in two planes, relative as in beamcolumn_body.h */
    double moment_a[PLANES], moment_b[PLANES], slope_a[PLANES], slope_b[PLANES];
    double spread[PLANES], point[PLANES], bow[PLANES];
} member_loads;

typedef struct tube_loads { /* what acts on a tube at one load factor */
    double axial, torque; /* lbf, compression positive; in-lbf */
    member_loads planes;
} tube_loads;

typedef struct prepared {
    rbow_member member; /* defaults resolved */
    zone zones[ZONES];
    double unit;           /* EI/L */
    double wall_reduction; /* of the tube, on the material's compression yield */
    double weld_reduction; /* of the dressed tube; 1 without a weld zone */
    double stiffness_a, stiffness_b;
    double critical_load;                         /* with the ends as they are taken */
    double column_critical_load, effective_length, column_stress, column_load; /* of the column: welded ends are soft */
    double axial_stiffness; /* EA, lbf */
    double weight;
    double tension; /* T0, locked in, lbf */
    beam beam;
    member_loads run, built; /* the loads that grow with the load factor, and those that do not */
    segment segments[SEGMENTS_MOST];
    int segment_count, station_count;
    stations stations;
} prepared;

static inline bool member_is_free(const rbow_member *m)
{
    return end_is(m->end_b, RBOW_FREE);
}

static inline double or_middle(double at, double length)
{
    return end_is(at, RBOW_UNSET) ? length / 2 : at;
}

/* Common practice, no source: in this trade joints are welded. */
static inline double weld_zone_taken(const rbow_member *m)
{
    return end_is(m->weld_zone, RBOW_UNSET) ? fmin(1, m->length / 2) : m->weld_zone;
}

/* The faults of a member, as rbow_member_faults. */
size_t rbow_faults_of(const rbow_member *member, const rbow_material *material, rbow_status *faults, size_t most);

/* Given: a member without faults. Status: RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_OUT_OF_RANGE | RBOW_STRESS_OVERFLOW */
rbow_status rbow_prepare(const rbow_member *member, const rbow_material *material, prepared *p);

/* What belongs to the column alone, from its critical load.
 * Given: p, its column_critical_load set. Status: RBOW_OK | RBOW_OUT_OF_RANGE */
rbow_status rbow_prepare_column(prepared *p, const rbow_material *material);

/* The same for a tube whose column load is that of a known fixity, whatever its ends are: L' = L/sqrt(fixity).
 * Given: fixity  > 0 */
rbow_status rbow_prepare_with_fixity(const rbow_member *member, const rbow_material *material, double fixity, prepared *p);

/* The loads and the locked-in tension again, after the member's clocks, misses or gap have changed. */
void rbow_prepare_loads(prepared *p);

/* The remarks on the tube itself, RBOW_REMARK_... bits. Given: m  as given; p  prepared of it */
unsigned rbow_tube_remarks(const rbow_member *m, const prepared *p);

/* Whether the member has a load that grows with the load factor. */
bool rbow_has_run_load(const prepared *p);

/* Axial load at a load factor, compression positive. */
static inline double axial_at(const prepared *p, double factor)
{
    return factor * p->member.compression - p->tension;
}

/* The load factor at which a straight tube buckles; INFINITY for none. */
static inline double critical_factor(const prepared *p)
{
    const double push = p->member.compression;
    return push > 0 ? (p->critical_load + p->tension) / push : (double)INFINITY;
}

#endif
