#include "cases/tolerance_table.h"

#include <math.h>

static const field_word tolerance_words[] = {{"uniform", TOLERANCE_UNIFORM},
                                             {"triangular", TOLERANCE_TRIANGULAR},
                                             {"normal", TOLERANCE_NORMAL},
                                             {NULL, 0}};

static const field tolerance_fields[] = {
    {.name = "column", .kind = FIELD_TEXT, .offset = offsetof(tolerance_row, column), .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "name of a number column of the load cases, or of joints.csv or tubes.csv"},
    {.name = "minus", .kind = FIELD_NUMBER, .offset = offsetof(tolerance_row, minus), .most = INFINITY,
     .rule = FIELD_REQUIRED, .fallback_text = "", .meaning = "how far the value may lie below that of the case"},
    {.name = "plus", .kind = FIELD_NUMBER, .offset = offsetof(tolerance_row, plus), .most = INFINITY,
     .rule = FIELD_REQUIRED, .fallback_text = "", .meaning = "how far it may lie above"},
    {.name = "unit", .kind = FIELD_TEXT, .offset = offsetof(tolerance_row, unit), .fallback_text = "the column's in US units",
     .meaning = "unit of minus and plus, or % of the value"},
    {.name = "shape", .kind = FIELD_WORD, .offset = offsetof(tolerance_row, shape), .fallback = TOLERANCE_UNIFORM,
     .words = tolerance_words, .fallback_text = "uniform",
     .meaning = "uniform; triangular with its peak at the value; normal in two halves: minus and plus are two "
                "standard deviations, the tails are cut at three"},
    {.name = "name", .kind = FIELD_TEXT, .offset = offsetof(tolerance_row, name), .fallback_text = "all",
     .meaning = "of a frame: only the tubes or joints of that name; * and ? stand for others"},
};

const field_list tolerance_list = {
    .what = "tolerance",
    .fields = tolerance_fields,
    .count = sizeof tolerance_fields / sizeof *tolerance_fields,
    .record_size = sizeof(tolerance_row),
};
