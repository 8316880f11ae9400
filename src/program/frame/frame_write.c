#include "program/frame/frame_write.h"

#include "cases/detail/detail_results.h"
#include "cases/frame_advice_table.h"
#include "program/frame/answer_tables.h"

/* The records of one run stand together. */
static bool has_tube(const void *context, size_t row)
{
    const frame_answers *a = context;
    return a->runs[row / a->judged].solved;
}

static bool has_joint(const void *context, size_t row)
{
    const frame_answers *a = context;
    return a->runs[row / a->model->joint_count].solved;
}

static bool has_run(const void *context, size_t row)
{
    const frame_answers *a = context;
    return a->runs[row].solved;
}

static bool has_detail(const void *context, size_t row)
{
    const frame_answers *a = context;
    return a->runs[row / a->detail_count].solved;
}

bool frame_write(output *out, const frame_answers *a, int of, const run_facts *facts, size_t refused)
{
    enum { ADVICE = OF_ARCH + 1 }; /* behind those that CSV has */
    const size_t joints = a->model->joint_count;
    const frame_advice *advised = a->advice;
    const answer_table arch = {"arch", &frame_arch_list, a->arch, a->arch != NULL ? joints : 0, NULL, NULL};
    const answer_table advice_ = {"advice", &frame_advice_list, advised != NULL ? advised->rows : NULL, advised != NULL ? advised->count : 0, NULL, NULL};
    const answer_table tables[] = {
        [OF_TUBES] = {"tubes", &frame_tubes_list, a->tubes, a->run_count * a->judged, has_tube, a},
        [OF_JOINTS] = {"joints", &frame_joints_list, a->joints, a->run_count * joints, has_joint, a},
        [OF_RUNS] = {"runs", &frame_runs_list, a->runs, a->run_count, has_run, a},
        [OF_DETAILS] = {"details", &frame_details_list, a->details, a->run_count * a->detail_count, has_detail, a},
        [OF_ARCH] = a->arch != NULL ? arch : advice_, /* only where asked for */
        [ADVICE] = advice_,
    };
    const answer_flag cut_short = {"advice_cut_short", advised != NULL && advised->cut_short};
    return answer_tables_write(out, tables, a->arch != NULL ? ADVICE + 1 : ADVICE, (size_t)of, &cut_short, facts, refused);
}
