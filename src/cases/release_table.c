#include "cases/release_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#include <math.h>

static const field cut_fields[] = {
    NEEDED_TEXT(cut_row, "case", name, "name of the row"),
    NEEDED_LENGTH(cut_row, "od", cut.od, FIELD_ABOVE, "outside diameter"),
    NEEDED_LENGTH(cut_row, "wall", cut.wall, FIELD_ABOVE, "wall thickness"),
    NEEDED_TEXT(cut_row, "material", material, "name in the materials table"),
    NEEDED_LENGTH(cut_row, "length", cut.length, FIELD_ABOVE, "from joint to joint"),
    {.name = "end_a", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS,
     .offset = offsetof(cut_row, cut.end_a), .most = INFINITY, .words = end_a_words, .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "rotational restraint of joint A: welded, fixed or a stiffness"},
    {.name = "end_b", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS,
     .offset = offsetof(cut_row, cut.end_b), .most = INFINITY, .words = end_a_words, .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "the same at joint B"},
    NEEDED_LENGTH(cut_row, "cut_at", cut.cut_at, FIELD_ABOVE, "distance of the cut from A"),
    NEEDED_LENGTH(cut_row, "moved", cut.moved, 0, "lateral movement of the face on the B side, relative to the other face"),
    {.name = "moved_clock", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = offsetof(cut_row, cut.moved_clock),
     .least = -INFINITY, .most = INFINITY, .fallback_text = "0", .meaning = "clock of that movement, seen from A toward B"},
    {.name = "turned", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = offsetof(cut_row, cut.turned),
     .fallback = NAN, .most = 1.5707963267948966, .fallback_text = "not read",
     .meaning = "angle of the stub at B to the line of the stub at A"},
    {.name = "turned_clock", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE,
     .offset = offsetof(cut_row, cut.turned_clock), .least = -INFINITY, .most = INFINITY, .fallback_text = "0",
     .meaning = "clock of that angle: the side to which the stub at B points"},
    {.name = "opened", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(cut_row, cut.opened),
     .least = -INFINITY, .most = INFINITY, .fallback_text = "0",
     .meaning = "gap that opened along the rail; negative if the cut closed on the saw"},
    {.name = "gap_stiffness", .kind = FIELD_NUMBER, .dimension = DIM_FORCE_PER_LENGTH,
     .offset = offsetof(cut_row, cut.gap_stiffness), .fallback = INFINITY, .most = INFINITY, .rule = FIELD_ABOVE,
     .fallback_text = "rigid", .meaning = "stiffness of the surrounding frame along the rail"},
};
const field_list cut_list = FIELD_LIST("cut", cut_fields, cut_row);

const field_word basis_words[] = {
    {"turn read", BASIS_TURN_READ}, {"least energy", BASIS_LEAST_ENERGY}, {NULL, 0}};

#define FOUND(at, dimension_, meaning_) NUMBER(release_row, #at, found.at, dimension_, meaning_)

static const field release_fields[] = {
    TEXT(release_row, "case", name, "name of the row"),
    FOUND(fit_axial, DIM_FORCE, "locked-in axial force, compression positive"),
    FOUND(shear, DIM_FORCE, "lateral force of the B side on the face of the A side"),
    FOUND(shear_clock, DIM_ANGLE, "clock of that force"),
    FOUND(moment_at_cut, DIM_MOMENT, "moment of the B side on that face"),
    FOUND(moment_clock, DIM_ANGLE, "clock toward which that moment bends the stub at A"),
    FOUND(moment_a, DIM_MOMENT, "locked-in moment at joint A"),
    FOUND(moment_b, DIM_MOMENT, "locked-in moment at joint B"),
    FOUND(fit_stress, DIM_STRESS, "largest locked-in stress"),
    NUMBER(release_row, "yield_use", yield_use, DIM_NONE, "largest locked-in stress over yield"),
    WORD(release_row, "basis", basis, basis_words,
         "turn read: from the angle; least energy: no angle, the smallest that explains the movement"),
    FOUND(fit_stress_low, DIM_STRESS, "smallest locked-in stress, for the best stiffness of welded joints"),
    WORD(release_row, "joints_taken", found.joints_taken, joints_words,
         "stiffness of the welded joints in this result: soft, stiff, soft/stiff or stiff/soft (A/B)"),
    FOUND(miss_a, DIM_LENGTH, "miss of a straight new rail in the socket at A, measured at B"),
    FOUND(miss_a_clock, DIM_ANGLE, "clock of that miss"),
    FOUND(miss_b, DIM_LENGTH, "the same for the socket at B, measured at A"),
    FOUND(miss_b_clock, DIM_ANGLE, "clock of that miss"),
};
const field_list release_list = FIELD_LIST("release", release_fields, release_row);
