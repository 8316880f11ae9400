#include "cases/inspect_table.h"

#include "cases/field_lines.h"

#include <math.h>

#define ASKED(name_, at, meaning_)                                                                             \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(spec_row, at),           \
     .fallback = NAN, .most = INFINITY, .fallback_text = "not asked", .meaning = meaning_}

static const field spec_fields[] = {
    NEEDED_TEXT(spec_row, "part", part, "name of the part"),
    ASKED("od_least", od_least, "smallest outside diameter allowed"),
    ASKED("od_most", od_most, "largest outside diameter allowed"),
    ASKED("wall_least", wall_least, "smallest wall allowed"),
    ASKED("bow_most", bow_most, "largest bow allowed"),
};
const field_list spec_list = FIELD_LIST("spec", spec_fields, spec_row);

const field_word measure_words[] = {
    {"od", MEASURE_OD}, {"wall", MEASURE_WALL}, {"bow", MEASURE_BOW}, {NULL, 0}};

static const field reading_fields[] = {
    NEEDED_TEXT(reading_row, "tag", tag, "mark of the tube"),
    NEEDED_TEXT(reading_row, "part", part, "part of the specification that the tube is meant for"),
    {.name = "measure", .kind = FIELD_WORD, .offset = offsetof(reading_row, measure), .words = measure_words,
     .rule = FIELD_REQUIRED, .fallback_text = "", .meaning = "what was read: od, wall or bow"},
    {.name = "clock", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = offsetof(reading_row, clock),
     .fallback = NAN, .least = -INFINITY, .most = INFINITY, .fallback_text = "not read",
     .meaning = "clock of the reading round the tube; a wall reading needs it"},
    NEEDED_LENGTH(reading_row, "reading", reading, 0, "value that the gauge showed"),
};
const field_list reading_list = FIELD_LIST("reading", reading_fields, reading_row);

const field_word inspect_words[] = {{"meets", INSPECT_MEETS},
                                    {"recheck", INSPECT_RECHECK},
                                    {"unread", INSPECT_UNREAD},
                                    {"below", INSPECT_BELOW},
                                    {NULL, 0}};

static const field inspect_fields[] = {
    TEXT(inspect_row, "tag", tag, "mark of the tube"),
    TEXT(inspect_row, "part", part, "part of the specification"),
    NUMBER(inspect_row, "od_mean", od_mean, DIM_LENGTH, "mean of the outside diameters read"),
    NUMBER(inspect_row, "od_least", od_least, DIM_LENGTH, "smallest outside diameter read"),
    NUMBER(inspect_row, "od_most", od_most, DIM_LENGTH, "largest outside diameter read"),
    NUMBER(inspect_row, "ovality", ovality, DIM_LENGTH, "largest less smallest outside diameter"),
    NUMBER(inspect_row, "wall_mean", bore.mean, DIM_LENGTH, "mean wall, by the fit if there is one"),
    NUMBER(inspect_row, "wall_least", wall_least, DIM_LENGTH, "smallest wall read"),
    NUMBER(inspect_row, "wall_fit_least", bore.least, DIM_LENGTH,
           "thinnest wall anywhere, by the fit of an off-centre bore"),
    NUMBER(inspect_row, "thin_clock", bore.thin_clock, DIM_ANGLE, "clock of the thinnest wall"),
    NUMBER(inspect_row, "bore_offset", bore.offset, DIM_LENGTH, "distance of the bore from the centre of the tube"),
    NUMBER(inspect_row, "bow", bow, DIM_LENGTH, "largest bow read"),
    WORD(inspect_row, "verdict", verdict, inspect_words, "below, unread, recheck or meets"),
    TEXT(inspect_row, "reason", reason, "reason of the verdict"),
    TEXT(inspect_row, "case", name, "load case of this part (with --cases)"),
    NUMBER(inspect_row, "margin_nominal", margin_nominal, DIM_NONE, "its margin with the tube of the load case"),
    NUMBER(inspect_row, "margin_measured", margin_measured, DIM_NONE,
           "its margin with the mean diameter and the thinnest wall all round"),
};
enum { OF_LOAD_CASES = 3 }; /* the last columns */

const field_list inspect_list = {"inspection", inspect_fields, sizeof inspect_fields / sizeof *inspect_fields - OF_LOAD_CASES,
                                 sizeof(inspect_row)};
const field_list inspect_cases_list = FIELD_LIST("inspection", inspect_fields, inspect_row);
