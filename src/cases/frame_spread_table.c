#include "cases/frame_spread_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#define OF_ALL(name_, at, meaning_) NUMBER(frame_scatter_row, name_, all.at, DIM_NONE, meaning_)

static const field scatter_fields[] = {
    OF_ALL("samples", margins.samples, "number of samples"),
    OF_ALL("refused", margins.refused, "samples that the model refuses"),
    OF_ALL("short_share", margins.short_share, "share of the other samples in which some tube is short in some run"),
    OF_ALL("short_low", margins.short_low, "lower end of its 95 % interval (Wilson)"),
    OF_ALL("short_high", margins.short_high, "upper end of that interval"),
    OF_ALL("margin_as_given", nominal, "lowest margin of the frame without tolerances"),
    OF_ALL("margin_mean", margins.mean, "mean of the frame's finite lowest margins"),
    OF_ALL("margin_sd", margins.sd, "their standard deviation"),
    OF_ALL("margin_p01", margins.p01, "1 % of them lie below"),
    OF_ALL("margin_p05", margins.p05, "5 % lie below"),
    OF_ALL("margin_p50", margins.p50, "half of them lie below"),
    OF_ALL("margin_p95", margins.p95, "95 % lie below"),
    TEXT(frame_scatter_row, "worst_tube", worst_tube, "the tube that most often has the lowest margin"),
    NUMBER(frame_scatter_row, "worst_share", worst_share, DIM_NONE, "in which share of the samples"),
    TEXT(frame_scatter_row, "driver_of", driver_of, "the tube or joint whose column contributes most to the spread of the margin"),
    TEXT(frame_scatter_row, "driver", all.driver, "that column"),
    OF_ALL("driver_share", driver_share, "its first-order share of the margin's variance"),
};
const field_list frame_scatter_list = FIELD_LIST("scatter of a frame", scatter_fields, frame_scatter_row);

enum { SCATTER_COLUMNS = sizeof scatter_fields / sizeof *scatter_fields, OF_DRIVER = 3, OF_WORST = 2 /* columns */ };
const field_list frame_scatter_summary = {
    .what = "summary of a frame",
    .fields = scatter_fields,
    .count = SCATTER_COLUMNS - OF_DRIVER - OF_WORST,
    .record_size = sizeof(frame_scatter_row),
};
const field_list frame_scatter_drivers = {
    .what = "driver of a frame",
    .fields = scatter_fields + SCATTER_COLUMNS - OF_DRIVER,
    .count = OF_DRIVER,
    .record_size = sizeof(frame_scatter_row),
};

static const field worst_fields[] = {
    TEXT(frame_worst_row, "tube", tube, "name of the tube"),
    TEXT(frame_worst_row, "part", part, "its group; its own name where none is given"),
    NUMBER(frame_worst_row, "worst", samples, DIM_NONE, "number of samples in which its margin is the lowest"),
    NUMBER(frame_worst_row, "worst_share", share, DIM_NONE, "their share of the samples that are judged"),
};
const field_list frame_worst_list = FIELD_LIST("tube of a scattered frame", worst_fields, frame_worst_row);

static const field sample_fields[] = {
    NUMBER(frame_sample_row, "sample", sample, DIM_NONE, "its number, from 1; a sample is the same in every part of the samples"),
    NUMBER(frame_sample_row, "margin", margin, DIM_NONE, "lowest margin of the frame; empty where the model refuses the sample"),
    TEXT(frame_sample_row, "worst_tube", worst_tube, "the tube that has it"),
    TEXT(frame_sample_row, "run", run, "in which run"),
    TEXT(frame_sample_row, "governs", governs, "what sets that margin"),
    TEXT(frame_sample_row, "refused_column", refused_column, "the column that the model refuses"),
    TEXT(frame_sample_row, "refused_why", refused_why, "what it must be"),
};
const field_list frame_samples_list = FIELD_LIST("sample of a frame", sample_fields, frame_sample_row);

#define CLOCK(at, meaning_)                                                                                    \
    {.name = #at, .kind = FIELD_EITHER, .dimension = DIM_ANGLE, .offset = offsetof(frame_index_row, at), .words = clock_words, \
     .meaning = meaning_}

static const field index_fields[] = {
    TEXT(frame_index_row, "tube", tube, "name of the tube; tubes without a bow have no row"),
    TEXT(frame_index_row, "part", part, "its group; its own name where none is given"),
    NUMBER(frame_index_row, "bow", bow, DIM_LENGTH, "its bow"),
    CLOCK(marked_clock, "where it points as given, or any"),
    CLOCK(best_clock, "where it should point, together with the others; as marked where turning it gains nothing"),
    NUMBER(frame_index_row, "margin_gained", gained, DIM_NONE, "what its turning adds to the margin of the frame"),
    NUMBER(frame_index_row, "margin_as_marked", margin_as_marked, DIM_NONE, "lowest margin of the frame with all clocks as marked"),
    NUMBER(frame_index_row, "best_margin", best_margin, DIM_NONE, "the same with all best clocks"),
};
const field_list frame_index_list = FIELD_LIST("bow of a frame", index_fields, frame_index_row);
