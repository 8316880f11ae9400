#include "cases/case_table.h"

#include "cases/case_words.h"

#include <math.h>
#include <string.h>

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

#define CURVE_NAME(value, formula, name, imperfection, source) name ", "

static const field case_fields[] = {
    {.name = "case", .kind = FIELD_TEXT, .offset = offsetof(load_case, name), .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "name of the row"},
    {.name = "note", .kind = FIELD_TEXT, .offset = offsetof(load_case, note), .fallback_text = "",
     .meaning = "a remark of the user; it is copied to the results"},
    {.name = "part", .kind = FIELD_TEXT, .offset = offsetof(load_case, part), .fallback_text = "the case's name",
     .meaning = "tube of this row: several rows (runs) of one part are one tube"},
    NEEDED(od, "outside diameter"),
    NEEDED(wall, "wall thickness, at most half of od (a solid bar)"),
    {.name = "material", .kind = FIELD_TEXT, .offset = offsetof(load_case, material), .rule = FIELD_REQUIRED,
     .fallback_text = "", .meaning = "name in the materials table"},
    NEEDED(length, "from joint to joint"),
    {.name = "end_a", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS, .offset = AT(end_a),
     .most = INFINITY, .words = end_a_words, .fallback_text = "pinned",
     .meaning = "rotational restraint of joint A: pinned, welded, fixed or a stiffness"},
    {.name = "end_b", .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS, .offset = AT(end_b),
     .most = INFINITY, .words = end_b_words, .fallback_text = "pinned",
     .meaning = "the same at joint B, or free: this end then moves and rotates, and joint A alone holds the tube"},
    {.name = "column_curve", .kind = FIELD_WORD, .offset = AT(column_curve), .fallback = RBOW_CURVE_OF_MATERIAL,
     .words = curve_words, .fallback_text = "the material's, else johnson",
     .meaning = "column curve: " RBOW_CURVE_LIST(CURVE_NAME) "or empty for the material's"},
    SIGNED(compression, DIM_FORCE, "axial run load: + pushes the ends together, - pulls them apart"),
    SIZE(eccentricity, DIM_LENGTH, "distance from the line of the push to the axis of the tube"),
    UNKNOWN_CLOCK(eccentricity_clock,
                  "clock of the eccentricity: 0 up, 90 right, seen from A toward B; any: the worst one counts"),
    SIGNED(moment_a, DIM_MOMENT, "moment applied at end A; + makes the tube convex toward moment_clock"),
    SIGNED(moment_b, DIM_MOMENT, "moment applied at end B; the same sign"),
    SIGNED(moment_clock, DIM_ANGLE, "clock of both moments"),
    SIGNED(point_load, DIM_FORCE, "lateral load at one point"),
    {.name = "point_at", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = AT(point_at),
     .fallback = RBOW_UNSET, .most = INFINITY, .fallback_text = "length/2",
     .meaning = "distance of the point load from A, 0 to length"},
    SIGNED(point_clock, DIM_ANGLE, "clock of the point load"),
    SIGNED(spread_load, DIM_FORCE_PER_LENGTH, "lateral load spread evenly over the length"),
    SIGNED(spread_clock, DIM_ANGLE, "clock of the spread load"),
    SIGNED(vertical_g, DIM_NONE, "multiple of the tube's own weight that acts downward (1 at rest)"),
    {.name = "slope", .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = AT(slope), .least = -right_angle,
     .most = right_angle, .fallback_text = "0",
     .meaning = "angle of the tube from level; only the weight across the tube counts"},
    SIGNED(torque, DIM_MOMENT, "torque about the axis of the tube"),
    SIZE(bow, DIM_LENGTH, "bow of the unloaded tube: largest offset from the straight line between its ends"),
    UNKNOWN_CLOCK(bow_clock, "clock of the bow; any: the worst one counts"),
    {.name = "bow_shape", .kind = FIELD_WORD, .offset = AT(bow_shape), .fallback = RBOW_BOW_SINE,
     .words = bow_shape_words, .fallback_text = "sine", .meaning = "shape of the bow: sine, arc or kink"},
    {.name = "bow_at", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = AT(bow_at), .fallback = RBOW_UNSET,
     .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "length/2", .meaning = "distance of a kink from A"},
    SIZE(miss_a, DIM_LENGTH, "distance by which a straight bar in the socket at A misses its landing at B"),
    UNKNOWN_CLOCK(miss_a_clock, "clock of that miss; any: the worst one counts"),
    SIZE(miss_b, DIM_LENGTH, "the same for a bar in the socket at B, measured at A (not with a free end B)"),
    UNKNOWN_CLOCK(miss_b_clock, "clock of that miss; any: the worst one counts"),
    SIGNED(gap, DIM_LENGTH, "+ the tube was too short by this and was pulled, - too long and was squeezed"),
    {.name = "gap_stiffness", .kind = FIELD_NUMBER, .dimension = DIM_FORCE_PER_LENGTH, .offset = AT(gap_stiffness),
     .fallback = INFINITY, .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "rigid",
     .meaning = "stiffness of the surrounding frame along the tube"},
    {.name = "weld_zone", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = AT(weld_zone), .fallback = RBOW_UNSET,
     .most = INFINITY, .fallback_text = "1 in, at most length/2",
     .meaning = "length of softened metal at each joint; 0: the metal there is as strong as elsewhere"},
    SIZE(dressed, DIM_LENGTH, "thickness of wall that was ground off in the weld zones"),
    {.name = "factor", .kind = FIELD_NUMBER, .offset = AT(factor), .fallback = 1.5, .most = INFINITY,
     .rule = FIELD_ABOVE, .fallback_text = "--factor, else 1.5", .meaning = "load factor asked for"},
    {.name = "factor_yield", .kind = FIELD_NUMBER, .offset = AT(factor_yield), .fallback = RBOW_UNSET,
     .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "factor", .meaning = "load factor asked for against yield"},
    {.name = "cycles", .kind = FIELD_NUMBER, .offset = offsetof(load_case, cycles), .fallback = 1, .most = INFINITY,
     .rule = FIELD_ABOVE, .fallback_text = "1", .meaning = "for life: how often this load comes in one run of the car"},
    {.name = "cycle_low", .kind = FIELD_NUMBER, .offset = offsetof(load_case, cycle_low), .least = -INFINITY, .most = INFINITY,
     .fallback_text = "0", .meaning = "for life: the load swings between this load factor; -1 is the same load reversed"},
    {.name = "cycle_high", .kind = FIELD_NUMBER, .offset = offsetof(load_case, cycle_high), .fallback = 1, .least = -INFINITY,
     .most = INFINITY, .fallback_text = "1", .meaning = "for life: and this one, above cycle_low"},
};

const field_list case_list = {
    .what = "load case",
    .fields = case_fields,
    .count = sizeof case_fields / sizeof *case_fields,
    .record_size = sizeof(load_case),
};

_Static_assert(sizeof case_fields / sizeof *case_fields < CASE_FIELDS_MOST, "every column and the line have room");
_Static_assert(offsetof(listed_case, given) == 0, "the offsets of load_case hold");

void listed_columns_fill(listed_columns *l)
{
    static const field line = {.name = "line", .kind = FIELD_NUMBER, .offset = offsetof(listed_case, line), .fallback_text = "",
                               .meaning = "line of the file, as --row takes it"};
    memcpy(l->fields, case_fields, sizeof case_fields);
    for (size_t i = 0; i < case_list.count; i++) l->fields[i].rule &= ~FIELD_REQUIRED;
    l->fields[case_list.count] = line;
    l->list = (field_list){"load case", l->fields, case_list.count + 1, sizeof(listed_case)};
}

bool case_is_of_member(const field *f)
{
    return f->offset >= offsetof(load_case, member) && f->offset < offsetof(load_case, member) + sizeof(rbow_member);
}

const char *case_part(const load_case *c)
{
    return *c->part != '\0' ? c->part : c->name;
}
