#include "cases/pull_table.h"

#include "cases/field_lines.h"

#include <math.h>

static const field pull_fields[] = {
    NEEDED_TEXT(pull_row, "case", name, "name of the row"),
    NEEDED_LENGTH(pull_row, "od", pull.od, FIELD_ABOVE, "outside diameter"),
    NEEDED_LENGTH(pull_row, "wall", pull.wall, FIELD_ABOVE, "wall thickness"),
    NEEDED_TEXT(pull_row, "material", material, "name in the materials table"),
    NEEDED_LENGTH(pull_row, "length", pull.length, FIELD_ABOVE, "distance from the root to the pull"),
    NEEDED_LENGTH(pull_row, "set", pull.set, 0, "movement at the pull that shall remain"),
    {.name = "weld_zone", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(pull_row, pull.weld_zone),
     .fallback = RBOW_UNSET, .most = INFINITY, .fallback_text = "1 in, at most length",
     .meaning = "length of softened metal at the root"},
};
const field_list pull_list = FIELD_LIST("pull", pull_fields, pull_row);

static const field_word state_words[] = {{"set", 0}, {"beyond", 1}, {NULL, 0}};

#define FOUND(at, dimension_, meaning_) NUMBER(pulled_row, #at, found.at, dimension_, meaning_)

static const field pulled_fields[] = {
    TEXT(pulled_row, "case", name, "name of the row"),
    NUMBER(pulled_row, "set", set, DIM_LENGTH, "movement at the pull that shall remain"),
    FOUND(yield_travel, DIM_LENGTH, "largest movement that springs back completely"),
    FOUND(yield_pull, DIM_FORCE, "pull at that movement"),
    FOUND(pull, DIM_FORCE, "pull that leaves the set"),
    FOUND(travel, DIM_LENGTH, "movement under that pull"),
    FOUND(springback, DIM_LENGTH, "movement that springs back"),
    FOUND(peak_strain, DIM_NONE, "strain of the outer fibre at the root"),
    FOUND(strain_over_yield, DIM_NONE, "that strain over the yield strain"),
    FOUND(residual_stress, DIM_STRESS, "remaining stress of the root's outer fibre; negative: against the bend"),
    FOUND(yielded_length, DIM_LENGTH, "length that has yielded, in weld zone and tube together"),
    WORD(pulled_row, "state", found.beyond, state_words, "set; beyond: no pull leaves that set"),
};
const field_list pulled_list = FIELD_LIST("pull", pulled_fields, pulled_row);
