#include "cases/release_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#include <math.h>

static const field cut_fields[] = {
    NEEDED_TEXT(cut_row, "case", name, "name of the row"),
    NEEDED_LENGTH(cut_row, "od", cut.od, FIELD_ABOVE, "outside diameter"),
    NEEDED_LENGTH(cut_row, "wall", cut.wall, FIELD_ABOVE, "wall thickness"),
    NEEDED_TEXT(cut_row, "material", material, "a name in the materials file"),
    NEEDED_LENGTH(cut_row, "length", cut.length, FIELD_ABOVE, "joint to joint"),
    {.name = "end_a", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS,
     .offset = offsetof(cut_row, cut.end_a), .most = INFINITY, .words = end_a_words, .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "what joint A held the end with: welded, fixed or a stiffness"},
    {.name = "end_b", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS,
     .offset = offsetof(cut_row, cut.end_b), .most = INFINITY, .words = end_a_words, .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "the same at joint B"},
    NEEDED_LENGTH(cut_row, "cut_at", cut.cut_at, FIELD_ABOVE, "where it was cut, from A"),
    NEEDED_LENGTH(cut_row, "moved", cut.moved, 0, "how far B's face went sideways from A's"),
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
const field_list cut_list = FIELD_LIST("cut", cut_fields, cut_row);

static const field_word basis_words[] = {
    {"turn read", BASIS_TURN_READ}, {"least energy", BASIS_LEAST_ENERGY}, {NULL, 0}};

#define FOUND(at, dimension_, meaning_) NUMBER(release_row, #at, found.at, dimension_, meaning_)

static const field release_fields[] = {
    TEXT(release_row, "case", name, "name of the row"),
    FOUND(fit_axial, DIM_FORCE, "locked in, compression positive"),
    FOUND(shear, DIM_FORCE, "sideways force that the B side put on A's face"),
    FOUND(shear_clock, DIM_ANGLE, "its direction"),
    FOUND(moment_at_cut, DIM_MOMENT, "moment that it put there; it curls the A stub"),
    FOUND(moment_clock, DIM_ANGLE, "to this side"),
    FOUND(moment_a, DIM_MOMENT, "locked-in moment at joint A"),
    FOUND(moment_b, DIM_MOMENT, "and at joint B"),
    FOUND(fit_stress, DIM_STRESS, "largest locked-in stress"),
    NUMBER(release_row, "yield_use", yield_use, DIM_NONE, "the same over yield"),
    WORD(release_row, "basis", basis, basis_words, "turn read; least energy: without the angle, the least that explains it"),
    FOUND(fit_stress_low, DIM_STRESS, "the lowest locked-in stress over what welded joints may be"),
    WORD(release_row, "joints_taken", found.joints_taken, joints_words, "how stiff the welded joints are taken: soft, stiff, soft/stiff or stiff/soft (A/B)"),
    FOUND(miss_a, DIM_LENGTH, "by how much a straight new rail in A's socket would miss its landing"),
    FOUND(miss_a_clock, DIM_ANGLE, "to which side"),
    FOUND(miss_b, DIM_LENGTH, "the same from B's socket, at A"),
    FOUND(miss_b_clock, DIM_ANGLE, "to which side"),
};
const field_list release_list = FIELD_LIST("release", release_fields, release_row);
