#include "program/frame/frame_cut_write.h"

#include "program/frame/answer_tables.h"

bool frame_cut_write(output *out, const frame_cut_answer *a, int of, const run_facts *facts)
{
    const answer_table tables[] = {[OF_CUTS] = {"cuts", &frame_cuts_list, a->cuts, a->cut_count, NULL, NULL},
                                  [OF_CUT_JOINTS] = {"joints", &frame_cut_joints_list, a->joints, a->joint_count, NULL, NULL}};
    return answer_tables_write(out, tables, 2, (size_t)of, NULL, facts, 0);
}

bool frame_cut_locked_write(output *out, const frame_cut_locked_row *r, const run_facts *facts)
{
    const answer_table table = {.list = &frame_cut_locked_list, .records = r, .count = 1};
    return answer_table_write(out, &table, facts);
}
