#include "cases/detail/life_table.h"

#include "cases/field_lines.h"
#include "cases/remark_list.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define FOUND(at, dimension_, meaning_) NUMBER(life_row, #at, result.at, dimension_, meaning_)

#define LIFE_FIELDS(first, most_column)                                                                        \
    first,                                                                                                     \
    TEXT(life_row, "detail", detail, "name of the detail"),                                                    \
    TEXT(life_row, "curve", curve, "S-N curve that was used"),                                                 \
    most_column,                                                                                               \
    FOUND(range, DIM_STRESS, "range of stress in its cycle; of a metal curve that of the fibre that counts"),  \
    FOUND(stress_max, DIM_STRESS, "largest stress of that fibre, tension positive"),                           \
    FOUND(ratio, DIM_NONE, "its least stress over its largest, R; empty where the largest is not above 0"),    \
    FOUND(cycles_to_crack, DIM_NONE, "of this load alone; no limit: it does no damage"),                       \
    FOUND(runs, DIM_NONE, "runs of the car to a crack, all loads together (Miner); empty: there is no number"), \
    FOUND(runs_unforced, DIM_NONE, "the same without misses and gap"),                                         \
    FOUND(forced_costs, DIM_NONE, "runs_unforced/runs; empty where both have no limit"),                       \
    TEXT(life_row, "remarks", remarks, "beyond yield; beyond yield: low-cycle (no number); no equilibrium; mean curve; no curve given; loads may be missing")

static const field case_life_fields[] = {
    LIFE_FIELDS(TEXT(life_row, "part", of, "tube that the detail sits on"),
                TEXT(life_row, "case", most, "load case that does most damage; the next four columns are of it")),
};
static const field frame_life_fields[] = {
    LIFE_FIELDS(TEXT(life_row, "tube", of, "tube that the detail sits on"),
                TEXT(life_row, "run", most, "run of loads.csv that does most damage; the next four columns are of it")),
};
const field_list life_list = FIELD_LIST("life", case_life_fields, life_row);
const field_list frame_life_list = FIELD_LIST("life", frame_life_fields, life_row);

void life_remarks_write(char out[LIFE_REMARKS_ROOM], const life_row *r)
{
    unsigned bits = r->result.remarks;
    *out = '\0';
    if ((bits & RBOW_LIFE_LOW_CYCLE) != 0) bits &= ~(unsigned)RBOW_LIFE_BEYOND_YIELD; /* which it says, too */
    for (int i = 0; i < RBOW_LIFE_REMARK_COUNT; i++)
        if ((bits & 1U << i) != 0) remark_add(out, rbow_life_remark_text(1U << i));
    if (r->usual) remark_add(out, LIFE_NO_CURVE);
    if (r->lacking) remark_add(out, LIFE_LACKING);
}

static int by_runs(const void *a, const void *b)
{
    const life_place *x = a, *y = b;
    if (x->runs < y->runs || x->runs > y->runs) return x->runs < y->runs ? -1 : 1;
    return (x->row > y->row) - (x->row < y->row);
}

void life_rank(const life_row *rows, size_t count, life_place order[])
{
    for (size_t i = 0; i < count; i++) order[i] = (life_place){isnan(rows[i].result.runs) ? -1 : rows[i].result.runs, i};
    qsort(order, count, sizeof *order, by_runs);
}

const life_row *life_most_forced(const life_row *rows, size_t count)
{
    const life_row *most = NULL;
    for (size_t i = 0; i < count; i++)
        if (rows[i].forced && rows[i].result.forced_costs > (most != NULL ? most->result.forced_costs : 1.05)) most = &rows[i];
    return most;
}

bool life_loads_are_single(const life_row *rows, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (rows[i].loads != 1) return false;
    return count > 0;
}

size_t life_unknown(const life_row *rows, size_t count)
{
    size_t unknown = 0;
    for (size_t i = 0; i < count; i++) unknown += isnan(rows[i].result.runs) ? 1 : 0;
    return unknown;
}
