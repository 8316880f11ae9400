#include "cases/case_table.h"

#include "cases/case_words.h"

#include <math.h>

static const double right_angle = 3.14159265358979323846 / 2;

#define AT(member_name) offsetof(load_case, member.member_name)
#define SIGNED(name_, dimension_, meaning_)                                                                    \
    {.name = #name_, .kind = FIELD_NUMBER, .dimension = dimension_, .offset = AT(name_), .least = -INFINITY,   \
     .most = INFINITY, .fallback_text = "0", .meaning = meaning_}
#define SIZE(name_, dimension_, meaning_)                                                                      \
    {.name = #name_, .kind = FIELD_NUMBER, .dimension = dimension_, .offset = AT(name_), .most = INFINITY,     \
     .fallback_text = "0", .meaning = meaning_}
#define UNKNOWN_CLOCK(name_, meaning_)                                                                         \
    {.name = #name_, .kind = FIELD_EITHER, .dimension = DIM_ANGLE, .offset = AT(name_), .least = -INFINITY,    \
     .most = INFINITY, .words = clock_words, .fallback = RBOW_ANY_CLOCK, .fallback_text = "any", .meaning = meaning_}
#define NEEDED(name_, meaning_)                                                                                \
    {.name = #name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = AT(name_), .most = INFINITY,     \
     .rule = FIELD_REQUIRED | FIELD_ABOVE, .fallback_text = "", .meaning = meaning_}

static const field case_fields[] = {
    {.name = "case", .kind = FIELD_TEXT, .offset = offsetof(load_case, name), .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "name of the row"},
    {.name = "note", .kind = FIELD_TEXT, .offset = offsetof(load_case, note), .fallback_text = "",
     .meaning = "passed through to every output"},
    {.name = "part", .kind = FIELD_TEXT, .offset = offsetof(load_case, part), .fallback_text = "the case's name",
     .meaning = "which tube the row is about: several rows (runs) of one part are one tube"},
    NEEDED(od, "outside diameter"),
    NEEDED(wall, "wall thickness, at most half of od (a solid bar)"),
    {.name = "material", .kind = FIELD_TEXT, .offset = offsetof(load_case, material), .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "a name in the materials file"},
    NEEDED(length, "joint to joint"),
    {.name = "end_a", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS, .offset = AT(end_a),
     .most = INFINITY, .words = end_a_words, .fallback_text = "pinned",
     .meaning = "how joint A holds the end against turning: pinned, welded, fixed or a stiffness"},
    {.name = "end_b", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS, .offset = AT(end_b),
     .most = INFINITY, .words = end_b_words, .fallback_text = "pinned",
     .meaning = "the same at joint B, or free: it moves sideways and turns (end_a then holds it)"},
    {.name = "column_curve", .kind = FIELD_WORD, .offset = AT(column_curve), .fallback = RBOW_CURVE_OF_MATERIAL,
     .words = curve_words, .fallback_text = "the material's, else johnson",
     .meaning = "column curve: johnson, three-halves, euler, aisc, en-a0, en-a, en-b, en-c or en-d"},
    SIGNED(compression, DIM_FORCE, "axial run load: + pushes the ends together, - pulls"),
    SIZE(eccentricity, DIM_LENGTH, "from the line of the push to the tube's axis"),
    UNKNOWN_CLOCK(eccentricity_clock, "its direction: 0 up, 90 right, seen from A toward B; any: the worst one is found"),
    SIGNED(moment_a, DIM_MOMENT, "end moment given to A; + bends the tube convex toward its clock"),
    SIGNED(moment_b, DIM_MOMENT, "the same at B"),
    SIGNED(moment_clock, DIM_ANGLE, "direction of both"),
    SIGNED(point_load, DIM_FORCE, "sideways load at one point"),
    {.name = "point_at", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = AT(point_at),
     .fallback = RBOW_UNSET, .most = INFINITY, .fallback_text = "length/2",
     .meaning = "where it acts, from A, 0 to length"},
    SIGNED(point_clock, DIM_ANGLE, "its direction"),
    SIGNED(spread_load, DIM_FORCE_PER_LENGTH, "sideways load spread evenly over the length"),
    SIGNED(spread_clock, DIM_ANGLE, "its direction"),
    SIGNED(vertical_g, DIM_NONE, "the tube's own weight acts downward this many times (1 = at rest)"),
    {.name = "slope", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = AT(slope), .least = -right_angle,
     .most = right_angle, .fallback_text = "0", .meaning = "slope of the tube from level; the weight along the tube is left out"},
    SIGNED(torque, DIM_MOMENT, "twist along the tube"),
    SIZE(bow, DIM_LENGTH, "the tube's own bow: largest offset from the chord, unloaded"),
    UNKNOWN_CLOCK(bow_clock, "the side to which it bows; any: the worst one is found"),
    {.name = "bow_shape", .kind = FIELD_WORD, .offset = AT(bow_shape), .fallback = RBOW_BOW_SINE,
     .words = bow_shape_words, .fallback_text = "sine", .meaning = "sine, arc or kink"},
    {.name = "bow_at", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = AT(bow_at), .fallback = RBOW_UNSET,
     .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "length/2", .meaning = "place of a kink, from A"},
    SIZE(miss_a, DIM_LENGTH, "by how much a straight bar in A's socket misses its landing at B"),
    UNKNOWN_CLOCK(miss_a_clock, "to which side it misses; any: the worst one is found"),
    SIZE(miss_b, DIM_LENGTH, "the same from B's socket, measured at A (not with a free B)"),
    UNKNOWN_CLOCK(miss_b_clock, "to which side it misses; any: the worst one is found"),
    SIGNED(gap, DIM_LENGTH, "+ the tube was this much short and was pulled to close it, - long and squeezed"),
    {.name = "gap_stiffness", .kind = FIELD_NUMBER, .dimension = DIM_FORCE_PER_LENGTH, .offset = AT(gap_stiffness),
     .fallback = INFINITY, .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "rigid",
     .meaning = "lengthwise stiffness of what the joints stand on"},
    {.name = "weld_zone", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = AT(weld_zone), .fallback = RBOW_UNSET,
     .most = INFINITY, .fallback_text = "1 in, at most length/2",
     .meaning = "length from each joint that the weld has softened; 0 says that the metal there is as strong as elsewhere"},
    SIZE(dressed, DIM_LENGTH, "wall ground off there"),
    {.name = "factor", .kind = FIELD_NUMBER, .offset = AT(factor), .fallback = 1.5, .most = INFINITY,
     .rule = FIELD_ABOVE, .fallback_text = "--factor, else 1.5", .meaning = "load factor asked for"},
    {.name = "factor_yield", .kind = FIELD_NUMBER, .offset = AT(factor_yield), .fallback = RBOW_UNSET,
     .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "factor", .meaning = "load factor asked against yield"},
};

const field_list case_list = {
    .what = "load case",
    .fields = case_fields,
    .count = sizeof case_fields / sizeof *case_fields,
    .record_size = sizeof(load_case),
};

const char *case_part(const load_case *c)
{
    return *c->part != '\0' ? c->part : c->name;
}
