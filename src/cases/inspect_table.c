#include "cases/inspect_table.h"

#include "cases/field_lines.h"

#include <math.h>

#define ASKED(name_, at, meaning_)                                                                             \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(spec_row, at),           \
     .fallback = NAN, .most = INFINITY, .fallback_text = "not asked", .meaning = meaning_}

static const field spec_fields[] = {
    NEEDED_TEXT(spec_row, "part", part, "name of the part"),
    ASKED("od_least", od_least, "least outside diameter"),
    ASKED("od_most", od_most, "most outside diameter"),
    ASKED("wall_least", wall_least, "least wall"),
    ASKED("bow_most", bow_most, "most bow"),
};
const field_list spec_list = FIELD_LIST("spec", spec_fields, spec_row);

const field_word measure_words[] = {
    {"od", MEASURE_OD}, {"wall", MEASURE_WALL}, {"bow", MEASURE_BOW}, {NULL, 0}};

static const field reading_fields[] = {
    NEEDED_TEXT(reading_row, "tag", tag, "which tube"),
    NEEDED_TEXT(reading_row, "part", part, "which part of the spec it is to be"),
    {.name = "measure", .kind = FIELD_WORD, .offset = offsetof(reading_row, measure), .words = measure_words,
     .rule = FIELD_REQUIRED, .fallback_text = "", .meaning = "od, wall or bow"},
    {.name = "clock", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = offsetof(reading_row, clock),
     .fallback = NAN, .least = -INFINITY, .most = INFINITY, .fallback_text = "not read",
     .meaning = "where round the tube; a wall reading needs it"},
    NEEDED_LENGTH(reading_row, "reading", reading, 0, "what the gauge showed"),
};
const field_list reading_list = FIELD_LIST("reading", reading_fields, reading_row);

const field_word inspect_words[] = {{"meets", INSPECT_MEETS},
                                    {"recheck", INSPECT_RECHECK},
                                    {"unread", INSPECT_UNREAD},
                                    {"below", INSPECT_BELOW},
                                    {NULL, 0}};

static const field inspect_fields[] = {
    TEXT(inspect_row, "tag", tag, "which tube"),
    TEXT(inspect_row, "part", part, "which part of the spec"),
    NUMBER(inspect_row, "od_mean", od_mean, DIM_LENGTH, "mean of its outside diameters"),
    NUMBER(inspect_row, "od_least", od_least, DIM_LENGTH, "the least read"),
    NUMBER(inspect_row, "od_most", od_most, DIM_LENGTH, "the most read"),
    NUMBER(inspect_row, "ovality", ovality, DIM_LENGTH, "most less least"),
    NUMBER(inspect_row, "wall_mean", bore.mean, DIM_LENGTH, "mean wall, of the fit where there is one"),
    NUMBER(inspect_row, "wall_least", wall_least, DIM_LENGTH, "the least read"),
    NUMBER(inspect_row, "wall_fit_least", bore.least, DIM_LENGTH, "the thinnest anywhere, by the fit of an off-centre bore"),
    NUMBER(inspect_row, "thin_clock", bore.thin_clock, DIM_ANGLE, "where that is"),
    NUMBER(inspect_row, "bore_offset", bore.offset, DIM_LENGTH, "how far the bore is off centre"),
    NUMBER(inspect_row, "bow", bow, DIM_LENGTH, "the most read"),
    WORD(inspect_row, "verdict", verdict, inspect_words, "below, unread, recheck or meets"),
    TEXT(inspect_row, "reason", reason, "why"),
    TEXT(inspect_row, "case", name, "load case of that part (with --cases)"),
    NUMBER(inspect_row, "margin_nominal", margin_nominal, DIM_NONE, "its margin as the file has it"),
    NUMBER(inspect_row, "margin_measured", margin_measured, DIM_NONE, "its margin with mean OD and thinnest wall all round"),
};
enum { OF_LOAD_CASES = 3 }; /* the last columns */

const field_list inspect_list = {"inspection", inspect_fields, sizeof inspect_fields / sizeof *inspect_fields - OF_LOAD_CASES,
                                 sizeof(inspect_row)};
const field_list inspect_cases_list = FIELD_LIST("inspection", inspect_fields, inspect_row);
