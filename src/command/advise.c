#include "command/advise.h"

#include "program/measure.h"
#include "program/options.h"
#include "study/advice.h"

#include <stdlib.h>

enum { WALLS_MOST = 16 };

void advise(advice *a, const check_row *worst, const materials *m, const details *d, unit_system units)
{
    double walls[WALLS_MOST];
    const detail_row **picked = malloc((d->count + 1) * sizeof *picked);
    *a = (advice){.searched = true, .lost = picked == NULL};
    if (worst != NULL && worst->result.verdict != RBOW_HOLDS && picked != NULL) {
        const char *part = case_part(&worst->given);
        const member_details its = {picked, details_meet(d, worst->given.name, part), d->file};
        const problem p = {worst->given.member, worst->given.material, m->list, m->count, &its};
        const advice_question q = {.problem = &p, .name = worst->given.name, .walls = walls,
                                   .wall_count = measures_values("walls", options_stock_walls, DIM_LENGTH, walls, WALLS_MOST),
                                   .miss_step = advice_miss_step(units), .step = advice_step(units)};
        details_pick(d, worst->given.name, part, picked);
        advice_find(a, &q);
    }
    free(picked);
}
