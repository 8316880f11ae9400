#include "check/scenario.h"
#include "detail/damage.h"
#include "mechanics/no_result.h"

#include <gsl/gsl_math.h>

RESULT_WITH_WHOLE(rbow_life_result, remarks, 4);

/* The worst joint corner and directions for all rows together: even directions of every unknown clock first, then a search that
 * halves its step. A row is prepared once for all directions of a pass. */
enum { DIRECTIONS_MOST = 1296, NEIGHBOURS = 2 * CLOCKS };

typedef struct part { /* a tube under the loads of a run */
    const rbow_detail *detail;
    const rbow_life_row *rows;
    size_t count;
    const rbow_material *material;
    const rbow_sn_curve *curve;
    bool forced;                   /* whether misses and gap are kept */
    int open[CLOCKS], open_count;  /* clocks that are unknown in some row */
} part;

typedef struct directions {
    double clock[CLOCKS];
} directions;

/* ---- one row ------------------------------------------------------------------------------------------------ */

/* Given: fibres  as rbow_cycle_between. Status: RBOW_OK | RBOW_STRESS_OVERFLOW */
static rbow_status cycle_beside(const part *t, const rbow_life_row *row, const detail_model *m, const prepared *p, place_side side,
                                bool fibres, rbow_life_cycle *out)
{
    rbow_section_forces low, high;
    const rbow_status a = rbow_forces_beside(p, row->low, m->detail.at, side, &low);
    const rbow_status b = rbow_forces_beside(p, row->high, m->detail.at, side, &high);
    *out = no_cycle(RBOW_LIFE_NO_STATE);
    if (a == RBOW_UNSTABLE || b == RBOW_UNSTABLE) return RBOW_OK;
    if (a != RBOW_OK || b != RBOW_OK) return RBOW_STRESS_OVERFLOW;
    *out = rbow_cycle_between(m, t->curve, &low, &high, fibres);
    return isfinite(out->range) ? RBOW_OK : RBOW_STRESS_OVERFLOW;
}

/* Of the side on which the row does more damage. */
static rbow_status cycle_of_row(const part *t, size_t row, const detail_model *m, const prepared *p, bool fibres, rbow_life_cycle *out)
{
    rbow_life_cycle other;
    rbow_status status = cycle_beside(t, &t->rows[row], m, p, SIDE_OF_B, fibres, out);
    if (status != RBOW_OK || !rbow_shear_jumps_at(p, m->detail.at)) return status;
    status = cycle_beside(t, &t->rows[row], m, p, SIDE_OF_A, fibres, &other);
    *out = rbow_worse_cycle(&other, out);
    return status;
}

static prepared concrete(const part *t, const scenarios *s, int corner, const directions *d)
{
    const rbow_member *m = &s->corners[corner].member;
    scenario one = {.corner = corner, .kept = t->forced ? s->fit : 0,
                    .clock = {m->bow_clock, m->miss_a_clock, m->miss_b_clock, m->eccentricity_clock}};
    for (int k = 0; k < CLOCKS; k++)
        if (s->unknown[k]) one.clock[k] = d->clock[k];
    return rbow_concrete(s, &one);
}

static rbow_status ready(const part *t, size_t row, scenarios *s, detail_model *m)
{
    const rbow_status status = rbow_scenarios_of(t->rows[row].member, t->material, s);
    return status == RBOW_OK ? rbow_detail_model_of(t->detail, &s->corners[0], t->material, m) : status;
}

/* ---- all rows ----------------------------------------------------------------------------------------------- */

/* Of each of `count` directions at one corner. */
static rbow_status damages(const part *t, int corner, const directions *d, int count, damage *out)
{
    for (int k = 0; k < count; k++) out[k] = (damage){0, 0, 0};
    for (size_t row = 0; row < t->count; row++) {
        scenarios s;
        detail_model m;
        rbow_status status = ready(t, row, &s, &m);
        for (int k = 0; k < count && status == RBOW_OK; k++) {
            const prepared p = concrete(t, &s, corner < s.corner_count ? corner : 0, &d[k]);
            rbow_life_cycle c;
            status = cycle_of_row(t, row, &m, &p, false, &c);
            add_damage(&out[k], t->rows[row].cycles, &c);
        }
        if (status != RBOW_OK) return status;
    }
    return RBOW_OK;
}

static int worst_of(const damage *all, int count)
{
    int worst = 0;
    for (int k = 1; k < count; k++)
        if (is_worse(&all[k], &all[worst])) worst = k;
    return worst;
}

/* Even steps of each unknown clock: with more clocks, wider ones. */
static int steps_of(const part *t)
{
    static const int steps[CLOCKS + 1] = {1, 36, 24, 10, 6};
    return steps[t->open_count];
}

static int even_directions(const part *t, directions d[DIRECTIONS_MOST])
{
    const int steps = steps_of(t);
    int count = 1;
    for (int k = 0; k < t->open_count; k++) count *= steps;
    for (int i = 0; i < count; i++) {
        d[i] = (directions){{0, 0, 0, 0}};
        for (int k = 0, rest = i; k < t->open_count; k++, rest /= steps) d[i].clock[t->open[k]] = 2 * M_PI * (rest % steps) / steps;
    }
    return count;
}

static rbow_status refine(const part *t, int corner, directions *at, damage *best)
{
    for (double step = M_PI / steps_of(t); step > 0.25 * M_PI / 180 && t->open_count > 0;) {
        directions near[NEIGHBOURS];
        damage found[NEIGHBOURS];
        for (int k = 0; k < 2 * t->open_count; k++) {
            near[k] = *at;
            near[k].clock[t->open[k / 2]] += k % 2 ? step : -step;
        }
        const rbow_status status = damages(t, corner, near, 2 * t->open_count, found);
        if (status != RBOW_OK) return status;
        const int worst = worst_of(found, 2 * t->open_count);
        if (is_worse(&found[worst], best)) {
            *best = found[worst];
            *at = near[worst];
        } else {
            step /= 2;
        }
    }
    return RBOW_OK;
}

typedef struct worst_part {
    int corner;
    directions at;
    damage damage;
} worst_part;

static rbow_status search(const part *t, int corners, worst_part *worst)
{
    directions d[DIRECTIONS_MOST];
    damage found[DIRECTIONS_MOST];
    const int count = even_directions(t, d);
    for (int corner = 0; corner < corners; corner++) {
        rbow_status status = damages(t, corner, d, count, found);
        if (status != RBOW_OK) return status;
        const int k = worst_of(found, count);
        worst_part one = {corner, d[k], found[k]};
        status = refine(t, corner, &one.at, &one.damage);
        if (status != RBOW_OK) return status;
        if (corner == 0 || is_worse(&one.damage, &worst->damage)) *worst = one;
    }
    return RBOW_OK;
}

/* ---- the result --------------------------------------------------------------------------------------------- */

/* The row that does most damage. */
static rbow_status tell_row(const part *t, const worst_part *w, rbow_life_result *r)
{
    damage most = {-1, -1, 0};
    for (size_t row = 0; row < t->count; row++) {
        scenarios s;
        detail_model m;
        rbow_life_cycle c;
        rbow_status status = ready(t, row, &s, &m);
        if (status != RBOW_OK) return status;
        const int corner = w->corner < s.corner_count ? w->corner : 0;
        const prepared p = concrete(t, &s, corner, &w->at);
        status = cycle_of_row(t, row, &m, &p, true, &c);
        if (status != RBOW_OK) return status;
        const damage one = {damage_of(t->rows[row].cycles, &c), c.equivalent, 0};
        if (!is_worse(&one, &most)) continue;
        most = one;
        tell_cycle(row, &c, r);
        r->joints_taken = s.joints[corner];
        r->bow_clock_taken = p.member.bow > 0 ? p.member.bow_clock - 2 * M_PI * floor(p.member.bow_clock / (2 * M_PI)) : (double)NAN;
    }
    return RBOW_OK;
}

static rbow_status life_of(part *t, int corners, rbow_life_result *r)
{
    worst_part built, unforced;
    t->forced = false;
    rbow_status status = search(t, corners, &unforced);
    t->forced = true;
    if (status == RBOW_OK) status = search(t, corners, &built);
    if (status != RBOW_OK) return status;
    tell_runs(&built.damage, &unforced.damage, r);
    return tell_row(t, &built, r);
}

/* Returned: corners  the most that a row has; the unknown clocks of all rows in the part */
static rbow_status look_at_row(part *t, size_t row, bool unknown[CLOCKS], int *corners)
{
    scenarios s;
    detail_model m;
    rbow_status status;
    if (rbow_faults_of(t->rows[row].member, t->material, &status, 1) > 0) return status;
    status = rbow_scenarios_of(t->rows[row].member, t->material, &s);
    if (status != RBOW_OK) return status;
    if (rbow_detail_faults_of(t->detail, &s.corners[0], t->material, &status, 1) > 0) return status;
    status = rbow_detail_model_of(t->detail, &s.corners[0], t->material, &m);
    if (status == RBOW_OK) status = swing_fault(t->rows[row].cycles, t->rows[row].low, t->rows[row].high);
    if (status == RBOW_OK) status = rbow_sn_fault(t->curve, &m);
    for (int k = 0; k < CLOCKS; k++) unknown[k] = unknown[k] || s.unknown[k];
    if (s.corner_count > *corners) *corners = s.corner_count;
    return status;
}

rbow_status rbow_life_of(const rbow_detail *detail, const rbow_life_row *rows, size_t count, const rbow_material *material,
                         const rbow_sn_curve *curve, rbow_life_result *result)
{
    part t = {.detail = detail, .rows = rows, .count = count, .material = material, .curve = curve};
    bool unknown[CLOCKS] = {false};
    int corners = 1;
    rbow_life_result r;
    NO_RESULT_BEFORE(rbow_life_result, result, remarks);
    r = *result;
    if (count < 1) return RBOW_OUT_OF_RANGE;
    for (size_t row = 0; row < count; row++) {
        const rbow_status status = look_at_row(&t, row, unknown, &corners);
        result->row = (int)row;
        if (status != RBOW_OK) return status;
    }
    result->row = 0;
    for (int k = 0; k < CLOCKS; k++)
        if (unknown[k]) t.open[t.open_count++] = k;
    const rbow_status status = life_of(&t, corners, &r);
    if (status == RBOW_OK) *result = r;
    return status;
}
