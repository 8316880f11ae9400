#include "command/advise.h"

#include "program/measure.h"
#include "program/options.h"
#include "study/advice.h"

#include <stdlib.h>

enum { WALLS_MOST = 16 };

/* The stock walls are ascending. */
static size_t stock_walls(double walls[WALLS_MOST])
{
    measures listed;
    size_t count = 0;
    if (measures_read(&listed, "walls", options_stock_walls, DIM_LENGTH))
        for (; count < listed.count && count < WALLS_MOST; count++) walls[count] = listed.at[count].value;
    measures_free(&listed);
    return count;
}

void advise(advice *a, const check_row *worst, const materials *m, const details *d, unit_system units)
{
    double walls[WALLS_MOST];
    const detail_row **picked = malloc((d->count + 1) * sizeof *picked);
    *a = (advice){.searched = true, .lost = picked == NULL};
    if (worst != NULL && worst->result.verdict != RBOW_HOLDS && picked != NULL) {
        const char *part = case_part(&worst->given);
        const member_details its = {picked, details_meet(d, worst->given.name, part), d->file};
        const problem p = {worst->given.member, worst->given.material, m->list, m->count, &its};
        const double mm = 1 / 25.4;
        const advice_question q = {.problem = &p, .name = worst->given.name, .walls = walls, .wall_count = stock_walls(walls),
                                   .miss_step = units == UNITS_SI ? 0.5 * mm : 1.0 / 64, .step = units == UNITS_SI ? 0.05 * mm : 0.001};
        details_pick(d, worst->given.name, part, picked);
        advice_find(a, &q);
    }
    free(picked);
}
