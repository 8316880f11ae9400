#include "command/frame/advise_frame.h"

#include "program/measure.h"
#include "program/options.h"
#include "study/advice.h"
#include "study/frame_advice.h"

enum { SIZES_MOST = 24 };

static void look(frame_advice *a, const frame_problem *p, const frame_answers *answers, const frame_tube_answer *worst, unit_system units, int jobs)
{
    const size_t at = (size_t)(worst - answers->tubes);
    double walls[SIZES_MOST], ods[SIZES_MOST];
    frame_problem begins = *p; /* its lists stay those of p */
    const frame_advice_question q = {
        .problem = &begins,
        .model = answers->model,
        .tube = answers->places[at % answers->judged],
        .walls = walls,
        .ods = ods,
        .wall_count = measures_values("walls", options_stock_walls, DIM_LENGTH, walls, SIZES_MOST),
        .od_count = measures_values("ods", options_stock_ods, DIM_LENGTH, ods, SIZES_MOST),
        .miss_step = advice_miss_step(units),
        .step = advice_step(units),
        .jobs = jobs,
    };
    begins.first_run = at / answers->judged;
    if (q.wall_count == 0 || q.od_count == 0) a->lost = true;
    else frame_advice_find(a, &q);
}

void advise_frame(frame_advice *a, const frame_build *b, const materials *m, const frame_solved *solved, unit_system units, int jobs)
{
    const frame_tube_answer *worst = frame_worst(&solved->answers);
    frame_problem p;
    *a = (frame_advice){.cut_short = solved->refused > 0};
    if (worst == NULL || solved->refused > 0 || worst->result.verdict == RBOW_HOLDS) return;
    if (frame_build_problem(b, m, &p)) look(a, &p, &solved->answers, worst, units, jobs);
    else a->lost = true;
    frame_problem_close(&p);
}
