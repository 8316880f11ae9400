#include "command/shop_table.h"

#include <math.h>

#define TEXT(record, name_, at, meaning_)                                                                      \
    {.name = name_, .kind = FIELD_TEXT, .offset = offsetof(record, at), .rule = FIELD_REQUIRED,                \
     .fallback_text = "", .meaning = meaning_}
#define NEEDED(record, name_, at, rule_, meaning_)                                                             \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(record, at),             \
     .most = INFINITY, .rule = FIELD_REQUIRED | (rule_), .fallback_text = "", .meaning = meaning_}
#define LIST(what_, fields_, record)                                                                           \
    {.what = what_, .fields = fields_, .count = sizeof fields_ / sizeof *fields_, .record_size = sizeof(record)}

static const field_word end_words[] = {
    {"pinned", RBOW_PINNED}, {"welded", RBOW_WELDED}, {"fixed", RBOW_FIXED}, {NULL, 0}};

static const field cut_fields[] = {
    TEXT(cut_row, "case", name, "name of the row"),
    NEEDED(cut_row, "od", cut.od, FIELD_ABOVE, "outside diameter"),
    NEEDED(cut_row, "wall", cut.wall, FIELD_ABOVE, "wall thickness"),
    TEXT(cut_row, "material", material, "a name in the materials file"),
    NEEDED(cut_row, "length", cut.length, FIELD_ABOVE, "joint to joint"),
    {.name = "end_a", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS,
     .offset = offsetof(cut_row, cut.end_a), .most = INFINITY, .words = end_words, .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "what joint A held the end with: welded, fixed or a stiffness"},
    {.name = "end_b", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS,
     .offset = offsetof(cut_row, cut.end_b), .most = INFINITY, .words = end_words, .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "the same at joint B"},
    NEEDED(cut_row, "cut_at", cut.cut_at, FIELD_ABOVE, "where it was cut, from A"),
    NEEDED(cut_row, "moved", cut.moved, 0, "how far B's face went sideways from A's"),
    {.name = "moved_clock", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = offsetof(cut_row, cut.moved_clock),
     .least = -INFINITY, .most = INFINITY, .fallback_text = "0", .meaning = "to which side, seen from A toward B"},
    {.name = "turned", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = offsetof(cut_row, cut.turned),
     .fallback = NAN, .most = 1.5707963267948966, .fallback_text = "not read",
     .meaning = "angle between the stubs, B's against A's line"},
    {.name = "turned_clock", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE,
     .offset = offsetof(cut_row, cut.turned_clock), .least = -INFINITY, .most = INFINITY, .fallback_text = "0",
     .meaning = "to which side the B stub points"},
    {.name = "opened", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(cut_row, cut.opened),
     .least = -INFINITY, .most = INFINITY, .fallback_text = "0",
     .meaning = "gap that opened lengthwise; negative: it closed on the saw"},
    {.name = "gap_stiffness", .kind = FIELD_NUMBER, .dimension = DIM_FORCE_PER_LENGTH,
     .offset = offsetof(cut_row, cut.gap_stiffness), .fallback = INFINITY, .most = INFINITY, .rule = FIELD_ABOVE,
     .fallback_text = "rigid", .meaning = "lengthwise stiffness of what the joints stand on"},
};
const field_list cut_list = LIST("cut", cut_fields, cut_row);

static const field pull_fields[] = {
    TEXT(pull_row, "case", name, "name of the row"),
    NEEDED(pull_row, "od", pull.od, FIELD_ABOVE, "outside diameter"),
    NEEDED(pull_row, "wall", pull.wall, FIELD_ABOVE, "wall thickness"),
    TEXT(pull_row, "material", material, "a name in the materials file"),
    NEEDED(pull_row, "length", pull.length, FIELD_ABOVE, "from the root to where the pull acts"),
    NEEDED(pull_row, "set", pull.set, 0, "by how much it shall stay moved there"),
};
const field_list pull_list = LIST("pull", pull_fields, pull_row);

#define ASKED(name_, at, meaning_)                                                                             \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(spec_row, at),           \
     .fallback = NAN, .most = INFINITY, .fallback_text = "not asked", .meaning = meaning_}

static const field spec_fields[] = {
    TEXT(spec_row, "part", part, "name of the part"),
    ASKED("od_least", od_least, "least outside diameter"),
    ASKED("od_most", od_most, "most outside diameter"),
    ASKED("wall_least", wall_least, "least wall"),
    ASKED("bow_most", bow_most, "most bow"),
};
const field_list spec_list = LIST("spec", spec_fields, spec_row);

static const field_word measure_words[] = {
    {"od", MEASURE_OD}, {"wall", MEASURE_WALL}, {"bow", MEASURE_BOW}, {NULL, 0}};

static const field reading_fields[] = {
    TEXT(reading_row, "tag", tag, "which tube"),
    TEXT(reading_row, "part", part, "which part of the spec it is to be"),
    {.name = "measure", .kind = FIELD_WORD, .offset = offsetof(reading_row, measure), .words = measure_words,
     .rule = FIELD_REQUIRED, .fallback_text = "", .meaning = "od, wall or bow"},
    {.name = "clock", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = offsetof(reading_row, clock),
     .fallback = NAN, .least = -INFINITY, .most = INFINITY, .fallback_text = "not read",
     .meaning = "where round the tube; a wall reading needs it"},
    NEEDED(reading_row, "reading", reading, 0, "what the gauge showed"),
};
const field_list reading_list = LIST("reading", reading_fields, reading_row);
