#include "cases/pull_table.h"

#include "cases/field_lines.h"

#include <math.h>

static const field pull_fields[] = {
    NEEDED_TEXT(pull_row, "case", name, "name of the row"),
    NEEDED_LENGTH(pull_row, "od", pull.od, FIELD_ABOVE, "outside diameter"),
    NEEDED_LENGTH(pull_row, "wall", pull.wall, FIELD_ABOVE, "wall thickness"),
    NEEDED_TEXT(pull_row, "material", material, "a name in the materials file"),
    NEEDED_LENGTH(pull_row, "length", pull.length, FIELD_ABOVE, "from the root to where the pull acts"),
    NEEDED_LENGTH(pull_row, "set", pull.set, 0, "by how much it shall stay moved there"),
    {.name = "weld_zone", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(pull_row, pull.weld_zone),
     .fallback = RBOW_UNSET, .most = INFINITY, .fallback_text = "1 in, at most length",
     .meaning = "length from the root that the weld has softened"},
};
const field_list pull_list = FIELD_LIST("pull", pull_fields, pull_row);

static const field_word state_words[] = {{"set", 0}, {"beyond", 1}, {NULL, 0}};

#define FOUND(at, dimension_, meaning_) NUMBER(pulled_row, #at, found.at, dimension_, meaning_)

static const field pulled_fields[] = {
    TEXT(pulled_row, "case", name, "name of the row"),
    NUMBER(pulled_row, "set", set, DIM_LENGTH, "by how much it shall stay moved"),
    FOUND(yield_travel, DIM_LENGTH, "up to here it springs back whole"),
    FOUND(yield_pull, DIM_FORCE, "with this pull"),
    FOUND(pull, DIM_FORCE, "what it takes"),
    FOUND(travel, DIM_LENGTH, "how far to pull"),
    FOUND(springback, DIM_LENGTH, "how far it comes back"),
    FOUND(peak_strain, DIM_NONE, "strain of the outer fibre at the root"),
    FOUND(strain_over_yield, DIM_NONE, "in yield strains"),
    FOUND(residual_stress, DIM_STRESS, "left at the root's outer fibre; negative: against the bend"),
    FOUND(yielded_length, DIM_LENGTH, "all the length that has yielded, in weld zone and tube"),
    WORD(pulled_row, "state", found.beyond, state_words, "set; beyond: no pull gives that set"),
};
const field_list pulled_list = FIELD_LIST("pull", pulled_fields, pulled_row);
