#include "program/frame/frame_write.h"

#include "cases/detail/detail_results.h"
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
    const size_t joints = a->model->joint_count;
    const answer_table tables[] = {
        [OF_TUBES] = {"tubes", &frame_tubes_list, a->tubes, a->run_count * a->judged, has_tube, a},
        [OF_JOINTS] = {"joints", &frame_joints_list, a->joints, a->run_count * joints, has_joint, a},
        [OF_RUNS] = {"runs", &frame_runs_list, a->runs, a->run_count, has_run, a},
        [OF_DETAILS] = {"details", &frame_details_list, a->details, a->run_count * a->detail_count, has_detail, a},
        [OF_ARCH] = {"arch", &frame_arch_list, a->arch, a->arch != NULL ? joints : 0, NULL, NULL}, /* the last: only where asked for */
    };
    return answer_tables_write(out, tables, a->arch != NULL ? OF_ARCH + 1 : OF_ARCH, (size_t)of, facts, refused);
}
