#include "report/shop_table.h"

#include "report/result_field.h"

#define COUNT(fields_) (sizeof fields_ / sizeof *fields_)

static const field_word basis_words[] = {
    {"turn read", BASIS_TURN_READ}, {"least energy", BASIS_LEAST_ENERGY}, {NULL, 0}};

static const field release_fields[] = {
    TEXT(release_row, "case", name, "name of the row"),
    NUMBER(release_row, fit_axial, DIM_FORCE, "locked in, compression positive"),
    NUMBER(release_row, shear, DIM_FORCE, "sideways force that the B side put on A's face"),
    NUMBER(release_row, shear_clock, DIM_ANGLE, "its direction"),
    NUMBER(release_row, moment_at_cut, DIM_MOMENT, "moment that it put there; it curls the A stub"),
    NUMBER(release_row, moment_clock, DIM_ANGLE, "to this side"),
    NUMBER(release_row, moment_a, DIM_MOMENT, "locked-in moment at joint A"),
    NUMBER(release_row, moment_b, DIM_MOMENT, "and at joint B"),
    NUMBER(release_row, fit_stress, DIM_STRESS, "largest locked-in stress"),
    NUMBER(release_row, yield_use, DIM_NONE, "the same over yield"),
    WORD(release_row, basis, basis_words, "turn read; least energy: without the angle, the least that explains it"),
    NUMBER(release_row, miss_a, DIM_LENGTH, "by how much a straight new rail in A's socket would miss its landing"),
    NUMBER(release_row, miss_a_clock, DIM_ANGLE, "to which side"),
    NUMBER(release_row, miss_b, DIM_LENGTH, "the same from B's socket, at A"),
    NUMBER(release_row, miss_b_clock, DIM_ANGLE, "to which side"),
};
const field_list release_list = {"release", release_fields, COUNT(release_fields), sizeof(release_row)};

static const field_word state_words[] = {{"set", PULL_SET}, {"beyond", PULL_BEYOND}, {NULL, 0}};

static const field pulled_fields[] = {
    TEXT(pulled_row, "case", name, "name of the row"),
    NUMBER(pulled_row, set, DIM_LENGTH, "by how much it shall stay moved"),
    NUMBER(pulled_row, yield_travel, DIM_LENGTH, "up to here it springs back whole"),
    NUMBER(pulled_row, yield_pull, DIM_FORCE, "with this pull"),
    NUMBER(pulled_row, pull, DIM_FORCE, "what it takes"),
    NUMBER(pulled_row, travel, DIM_LENGTH, "how far to pull"),
    NUMBER(pulled_row, springback, DIM_LENGTH, "how far it comes back"),
    NUMBER(pulled_row, peak_strain, DIM_NONE, "strain of the outer fibre at the root"),
    NUMBER(pulled_row, strain_over_yield, DIM_NONE, "in yield strains"),
    NUMBER(pulled_row, residual_stress, DIM_STRESS, "left at the root's outer fibre; negative: against the bend"),
    NUMBER(pulled_row, yielded_length, DIM_LENGTH, "from the root"),
    WORD(pulled_row, state, state_words, "set; beyond: no pull gives that set"),
};
const field_list pulled_list = {"pull", pulled_fields, COUNT(pulled_fields), sizeof(pulled_row)};

const field_word inspect_words[] = {{"meets", INSPECT_MEETS},
                                    {"recheck", INSPECT_RECHECK},
                                    {"unread", INSPECT_UNREAD},
                                    {"below", INSPECT_BELOW},
                                    {NULL, 0}};

static const field inspect_fields[] = {
    TEXT(inspect_row, "tag", tag, "which tube"),
    TEXT(inspect_row, "part", part, "which part of the spec"),
    NUMBER(inspect_row, od_mean, DIM_LENGTH, "mean of its outside diameters"),
    NUMBER(inspect_row, od_least, DIM_LENGTH, "the least read"),
    NUMBER(inspect_row, od_most, DIM_LENGTH, "the most read"),
    NUMBER(inspect_row, ovality, DIM_LENGTH, "most less least"),
    NUMBER(inspect_row, wall_mean, DIM_LENGTH, "mean wall, of the fit where there is one"),
    NUMBER(inspect_row, wall_least, DIM_LENGTH, "the least read"),
    NUMBER(inspect_row, wall_fit_least, DIM_LENGTH, "the thinnest anywhere, by the fit of an off-centre bore"),
    NUMBER(inspect_row, thin_clock, DIM_ANGLE, "where that is"),
    NUMBER(inspect_row, bore_offset, DIM_LENGTH, "how far the bore is off centre"),
    NUMBER(inspect_row, bow, DIM_LENGTH, "the most read"),
    WORD(inspect_row, verdict, inspect_words, "below, unread, recheck or meets"),
    TEXT(inspect_row, "reason", reason, "why"),
    TEXT(inspect_row, "case", name, "load case of that part (with --cases)"),
    NUMBER(inspect_row, margin_nominal, DIM_NONE, "its margin as the file has it"),
    NUMBER(inspect_row, margin_measured, DIM_NONE, "its margin with mean OD and thinnest wall all round"),
};
const field_list inspect_list = {"inspection", inspect_fields, COUNT(inspect_fields) - 3, sizeof(inspect_row)};
const field_list inspect_cases_list = {"inspection", inspect_fields, COUNT(inspect_fields), sizeof(inspect_row)};
