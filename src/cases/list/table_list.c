#include "cases/list/table_list.h"

#include "cases/case_table.h"
#include "cases/check_table.h"
#include "cases/compare_table.h"
#include "cases/detail/curve_table.h"
#include "cases/detail/detail_results.h"
#include "cases/detail/life_table.h"
#include "cases/frame_advice_table.h"
#include "cases/frame_cut_table.h"
#include "cases/frame_results.h"
#include "cases/frame_spread_table.h"
#include "cases/inspect_table.h"
#include "cases/material_table.h"
#include "cases/orientation_table.h"
#include "cases/pull_table.h"
#include "cases/release_table.h"
#include "cases/scatter_table.h"
#include "cases/section_table.h"
#include "cases/shop/sight_table.h"
#include "cases/shop/sticks_table.h"
#include "cases/step_table.h"
#include "cases/tolerance_table.h"

#include <string.h>

void tables_fill(tables *t)
{
    static const field any = {.name = "", .dimension = DIM_NONE};
    sweep_columns_fill(&t->sweep, NULL, 0);
    listed_columns_fill(&t->listed);
    listed_tube_columns_fill(&t->listed_tubes);
    limit_columns_fill(&t->limit, &any);
    frame_sweep_columns_fill(&t->frame_sweep, NULL, 0);
    frame_limit_columns_fill(&t->frame_limit, &any, "tube");
    const table every[] = {
        {"Load cases", NULL, &case_list, true, false},
        {"Materials", NULL, &material_list, true, false},
        {"Joints of a frame (joints.csv)", "check", &joint_list, true, false},
        {"Tubes of a frame (tubes.csv)", "check", &frame_tube_list, true, false},
        {"Loads of a frame (loads.csv)", "check", &frame_load_list, true, false},
        {"S-N curves of life", "life", &curve_list, true, false},
        {"Tolerances of scatter", "scatter", &tolerance_list, true, false},
        {"Specification of inspect", "inspect", &spec_list, true, false},
        {"Readings of inspect", "inspect", &reading_list, true, false},
        {"Cuts of release", "release", &cut_list, true, false},
        {"Pulls of pull", "pull", &pull_list, true, false},
        {"Readings of sight", "sight", &sight_reading_list, true, false},
        {"Parts of sticks", "sticks", &part_list, true, false},
        {"Stock of sticks", "sticks", &stock_list, true, false},
        {"Details (--details; of a frame details.csv, whose first column is tube)", "check", &case_detail_list, true, false},
        {"Results of check", "check", &check_list, false, false},
        {"Results of check: details (--of details)", "check", &case_details_list, false, true},
        {"What to do about the worst case (advice, in JSON)", "check", &advice_list, false, true},
        {"Results of check on a frame: tubes", "check", &frame_tubes_list, false, true},
        {"Results of check on a frame: joints (--of joints)", "check", &frame_joints_list, false, true},
        {"Results of check on a frame: runs (--of runs)", "check", &frame_runs_list, false, true},
        {"Results of check on a frame: details (--of details)", "check", &frame_details_list, false, true},
        {"Results of check on a frame: where to weld (--arch RUN --of arch)", "check", &frame_arch_list, false, true},
        {"What to do about the worst tube of a frame (advice, in JSON)", "check", &frame_advice_list, false, true},
        {"Results of cases (CSV has no line: it is a file of load cases again)", "cases", &t->listed.list, false, false},
        {"Results of cases on a frame (CSV has no line)", "cases", &t->listed_tubes.list, false, true},
        {"Steps of explain (as CSV or JSON)", "explain", &step_list, false, false},
        {"Results of section", "section", &section_list, false, false},
        {"Results of compare", "compare", &compare_list, false, false},
        {"Results of compare on a frame", "compare", &frame_compare_list, false, true},
        {"Results of sweep (the varied columns follow case)", "sweep", &t->sweep.list, false, false},
        {"Results of sweep on a frame (after the varied columns)", "sweep", &t->frame_sweep.list, false, true},
        {"Results of limit (limit, now and room in the unit of the column)", "limit", &t->limit.list, false, false},
        {"Results of limit on a frame (numbers in the unit of the column)", "limit", &t->frame_limit.list, false, true},
        {"Results of index", "index", &orientation_list, false, false},
        {"Results of index on a frame", "index", &frame_index_list, false, true},
        {"Results of scatter", "scatter", &scatter_list, false, false},
        {"Results of scatter on a frame", "scatter", &frame_scatter_list, false, true},
        {"Results of scatter on a frame: tubes (--of tubes)", "scatter", &frame_worst_list, false, true},
        {"Results of scatter on a frame: samples (--of samples)", "scatter", &frame_samples_list, false, true},
        {"Results of cut", "cut", &frame_cuts_list, false, true},
        {"Results of cut: joints (--of joints)", "cut", &frame_cut_joints_list, false, true},
        {"Results of cut with readings", "cut", &frame_cut_locked_list, false, false},
        {"Results of life", "life", &life_list, false, false},
        {"Results of life on a frame", "life", &frame_life_list, false, true},
        {"Results of inspect", "inspect", &inspect_cases_list, false, false},
        {"Results of release", "release", &release_list, false, false},
        {"Results of pull", "pull", &pulled_list, false, false},
        {"Results of sight", "sight", &sight_list, false, false},
        {"Results of sticks", "sticks", &stick_list, false, false},
    };
    _Static_assert(sizeof every == sizeof t->at, "TABLES is their number");
    memcpy(t->at, every, sizeof every);
    t->count = TABLES;
}

const char *table_unit(const field *f)
{
    const unit *u = unit_shown(f->dimension, UNITS_US);
    return u != NULL ? u->name : f->kind == FIELD_NUMBER ? "-" : "text";
}

const char *table_default(const field *f)
{
    return (f->rule & FIELD_REQUIRED) != 0 ? "required" : f->fallback_text;
}
