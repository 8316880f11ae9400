#include "cases/frame_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#include <math.h>
#include <string.h>

/* Numbers of any sign, and of at least 0, that are 0 where their cell is empty. */
#define SIGNED(record, name_, at, dimension_, meaning_)                                                        \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = dimension_, .offset = offsetof(record, at),             \
     .least = -INFINITY, .most = INFINITY, .fallback_text = "0", .meaning = meaning_}
#define SIZE(record, name_, at, dimension_, meaning_)                                                          \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = dimension_, .offset = offsetof(record, at),             \
     .most = INFINITY, .fallback_text = "0", .meaning = meaning_}
#define OWN_TEXT(record, name_, at, fallback_text_, meaning_)                                                  \
    {.name = name_, .kind = FIELD_TEXT, .offset = offsetof(record, at), .fallback_text = fallback_text_, .meaning = meaning_}

/* ---- joints ---------------------------------------------------------------------------------------------- */

#define PLACE(name_, axis, meaning_)                                                                           \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(joint_row, joint.at[axis]), \
     .least = -INFINITY, .most = INFINITY, .rule = FIELD_REQUIRED, .fallback_text = "", .meaning = meaning_}

static const field joint_fields[] = {
    NEEDED_TEXT(joint_row, "joint", name, "name of the joint; no two may be alike"),
    PLACE("x", RBOW_X, "place of the joint: forward"),
    PLACE("y", RBOW_Y, "place of the joint: to the left"),
    PLACE("z", RBOW_Z, "place of the joint: up"),
    {.name = "held", .kind = FIELD_SET, .offset = offsetof(joint_row, joint.held), .words = held_words,
     .fallback_text = "not held",
     .meaning = "what a support holds: fixed (all), pinned (x y z), or some of x y z rx ry rz with blanks between them; r: "
                "turning about that axis"},
    SIZE(joint_row, "mass", joint.mass, DIM_MASS, "mass at the joint; it weighs and pushes under g"),
    OWN_TEXT(joint_row, "note", note, "", "a remark of the user"),
};
const field_list joint_list = FIELD_LIST("joint", joint_fields, joint_row);

/* ---- tubes ----------------------------------------------------------------------------------------------- */

#define END(name_, meaning_)                                                                                   \
    {.name = #name_, .kind = FIELD_EITHER, .dimension = DIM_ROTATIONAL_STIFFNESS,                              \
     .offset = offsetof(frame_tube_row, tube.name_), .fallback = RBOW_FIXED, .most = INFINITY, .words = frame_end_words, \
     .fallback_text = "rigid", .meaning = meaning_}
#define MISS_CLOCK(name_, meaning_)                                                                            \
    {.name = #name_, .kind = FIELD_NUMBER, .dimension = DIM_ANGLE, .offset = offsetof(frame_tube_row, tube.name_), \
     .fallback = RBOW_ANY_CLOCK, .least = -INFINITY, .most = INFINITY, .fallback_text = "needed where there is a miss", \
     .refused = "any", .advised = "give a clock: a frame takes no miss of unknown direction; check it at 0, 90, 180 and 270", \
     .meaning = meaning_}
#define CURVE_NAME(value, formula, name, imperfection, source) name ", "

static const field tube_fields[] = {
    NEEDED_TEXT(frame_tube_row, "tube", name, "name of the tube; no two may be alike"),
    OWN_TEXT(frame_tube_row, "part", part, "the tube's name", "group of tubes that get the same size"),
    NEEDED_TEXT(frame_tube_row, "from", from, "joint A, by its name in joints.csv"),
    NEEDED_TEXT(frame_tube_row, "to", to, "joint B; clocks are seen from A toward B: 0 is up (forward on an upright tube), 90 right"),
    NEEDED_LENGTH(frame_tube_row, "od", tube.od, FIELD_ABOVE, "outside diameter"),
    NEEDED_LENGTH(frame_tube_row, "wall", tube.wall, FIELD_ABOVE, "wall thickness, at most half of od (a solid bar)"),
    NEEDED_TEXT(frame_tube_row, "material", material, "name in the materials table"),
    END(end_a, "how the tube meets joint A: rigid (welded), pinned (a ball: no moment about any axis), or a stiffness of both "
               "bendings; 0 is pinned"),
    END(end_b, "the same at joint B"),
    {.name = "column_curve", .kind = FIELD_WORD, .offset = offsetof(frame_tube_row, tube.column_curve),
     .fallback = RBOW_CURVE_OF_MATERIAL, .words = curve_words, .fallback_text = "the material's, else johnson",
     .meaning = "column curve: " RBOW_CURVE_LIST(CURVE_NAME) "or empty for the material's"},
    {.name = "fixity", .kind = FIELD_NUMBER, .offset = offsetof(frame_tube_row, tube.fixity), .fallback = 1,
     .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "1",
     .meaning = "c of the column load, whose length is length/sqrt(c): 1 as if pinned; the aircraft handbooks take 2 for welded trusses"},
    SIZE(frame_tube_row, "bow", tube.bow, DIM_LENGTH,
         "bow of the unloaded tube: largest offset from the straight line between its ends"),
    {.name = "bow_clock", .kind = FIELD_EITHER, .dimension = DIM_ANGLE, .offset = offsetof(frame_tube_row, tube.bow_clock),
     .fallback = RBOW_ANY_CLOCK, .least = -INFINITY, .most = INFINITY, .words = clock_words, .fallback_text = "any",
     .meaning = "clock of the bow; any: toward the side to which the tube moves, or away from it, whichever is worse"},
    {.name = "bow_shape", .kind = FIELD_WORD, .offset = offsetof(frame_tube_row, tube.bow_shape), .fallback = RBOW_BOW_SINE,
     .words = bow_shape_words, .fallback_text = "sine", .meaning = "shape of the bow: sine, arc or kink"},
    {.name = "bow_at", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(frame_tube_row, tube.bow_at),
     .fallback = RBOW_UNSET, .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "length/2",
     .meaning = "distance of a kink from A"},
    SIZE(frame_tube_row, "miss_a", tube.miss_a, DIM_LENGTH,
         "distance by which a straight bar in the socket at A misses joint B, measured on the unloaded frame as drawn"),
    MISS_CLOCK(miss_a_clock, "clock of that miss"),
    SIZE(frame_tube_row, "miss_b", tube.miss_b, DIM_LENGTH, "the same for a bar in the socket at B, measured at A"),
    MISS_CLOCK(miss_b_clock, "clock of that miss"),
    SIGNED(frame_tube_row, "gap", tube.gap, DIM_LENGTH, "+ the tube was too short by this and was pulled, - too long and was squeezed"),
    {.name = "weld_zone", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(frame_tube_row, tube.weld_zone),
     .fallback = RBOW_UNSET, .most = INFINITY, .fallback_text = "1 in, at most length/2",
     .meaning = "length of softened metal at each joint; 0: the metal there is as strong as elsewhere"},
    SIZE(frame_tube_row, "dressed", tube.dressed, DIM_LENGTH, "thickness of wall that was ground off in the weld zones"),
    OWN_TEXT(frame_tube_row, "note", note, "", "a remark of the user; it is copied to the results"),
};
const field_list frame_tube_list = FIELD_LIST("tube", tube_fields, frame_tube_row);

/* ---- loads ----------------------------------------------------------------------------------------------- */

#define LOAD(name_, at, dimension_, meaning_) SIGNED(frame_load_row, name_, load.at, dimension_, meaning_)
#define SWING(name_, least_, rule_, fallback_text_, meaning_)                                                  \
    {.name = #name_, .kind = FIELD_NUMBER, .offset = offsetof(frame_load_row, name_), .fallback = RBOW_UNSET,  \
     .least = least_, .most = INFINITY, .rule = rule_, .fallback_text = fallback_text_, .meaning = meaning_}
#define FACTOR(name_, fallback_text_, meaning_)                                                                \
    {.name = #name_, .kind = FIELD_NUMBER, .offset = offsetof(frame_load_row, name_), .fallback = RBOW_UNSET,  \
     .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = fallback_text_, .meaning = meaning_}

static const field load_fields[] = {
    NEEDED_TEXT(frame_load_row, "run", run, "name of the run: rows of one name act together"),
    OWN_TEXT(frame_load_row, "joint", joint, "", "the joint that force and moment of this row act on"),
    OWN_TEXT(frame_load_row, "tube", tube, "", "or the tube that force and spread load act on; with neither, the g of the row act on all"),
    LOAD("force_x", force[RBOW_X], DIM_FORCE, "force forward, on the joint, or on the tube at one point"),
    LOAD("force_y", force[RBOW_Y], DIM_FORCE, "force to the left, likewise"),
    LOAD("force_z", force[RBOW_Z], DIM_FORCE, "force upward, likewise"),
    LOAD("moment_x", moment[RBOW_X], DIM_MOMENT, "moment on the joint about x, right-hand"),
    LOAD("moment_y", moment[RBOW_Y], DIM_MOMENT, "moment on the joint about y, right-hand"),
    LOAD("moment_z", moment[RBOW_Z], DIM_MOMENT, "moment on the joint about z, right-hand"),
    {.name = "at", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(frame_load_row, load.at),
     .fallback = RBOW_UNSET, .most = INFINITY, .fallback_text = "length/2",
     .meaning = "distance from A of the force on a tube"},
    LOAD("spread_x", spread[RBOW_X], DIM_FORCE_PER_LENGTH, "force forward for each length of the tube"),
    LOAD("spread_y", spread[RBOW_Y], DIM_FORCE_PER_LENGTH, "the same to the left"),
    LOAD("spread_z", spread[RBOW_Z], DIM_FORCE_PER_LENGTH, "the same upward"),
    LOAD("vertical_g", vertical_g, DIM_NONE, "multiple of all weight that acts downward (1 at rest)"),
    LOAD("forward_g", forward_g, DIM_NONE, "multiple of all weight that pushes forward (braking: +)"),
    LOAD("left_g", left_g, DIM_NONE, "multiple of all weight that pushes to the left"),
    FACTOR(factor, "--factor, else 1.5", "load factor asked for; one value a run, in any of its rows"),
    FACTOR(factor_yield, "factor", "load factor asked for against yield, likewise"),
    SWING(cycles, 0, FIELD_ABOVE, "1", "for life: how often this run's loads come in one run of the car; one value a run, in any of its rows"),
    SWING(cycle_low, -INFINITY, 0, "0", "for life: the loads swing between this load factor, likewise; -1 is the same loads reversed"),
    SWING(cycle_high, -INFINITY, 0, "1", "for life: and this one, above cycle_low, likewise"),
    OWN_TEXT(frame_load_row, "note", note, "", "a remark of the user"),
};
const field_list frame_load_list = FIELD_LIST("load", load_fields, frame_load_row);

_Static_assert(sizeof tube_fields / sizeof *tube_fields + 2 <= sizeof((listed_tube_columns *)0)->fields / sizeof(field), "every column has room");
_Static_assert(offsetof(listed_tube, given) == 0, "the offsets of frame_tube_row hold");

void listed_tube_columns_fill(listed_tube_columns *l)
{
    static const field further[] = {
        {.name = "length", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(listed_tube, length), .fallback_text = "",
         .meaning = "joint to joint, as the joints lie; no column of tubes.csv"},
        {.name = "line", .kind = FIELD_NUMBER, .offset = offsetof(listed_tube, line), .fallback_text = "", .meaning = "line of tubes.csv"},
    };
    const size_t count = frame_tube_list.count;
    memcpy(l->fields, tube_fields, sizeof tube_fields);
    memcpy(l->fields + count, further, sizeof further);
    for (size_t i = 0; i < count; i++) l->fields[i].rule &= ~FIELD_REQUIRED;
    l->list = (field_list){"tube", l->fields, count + 2, sizeof(listed_tube)};
    l->rows = (field_list){"tube", l->fields, count + 1, sizeof(listed_tube)};
}

const char *const frame_files[FRAME_TABLES] = {"joints.csv", "tubes.csv", "loads.csv"};
const field_list *const frame_lists[FRAME_TABLES] = {&joint_list, &frame_tube_list, &frame_load_list};

const char *frame_tube_part(const frame_tube_row *t)
{
    return *t->part != '\0' ? t->part : t->name;
}

static bool lies_in(const field *f, size_t from, size_t size)
{
    return f->offset >= from && f->offset < from + size;
}

#define LIES_IN(f, member) lies_in(f, offsetof(frame_load_row, load.member), sizeof((frame_load_row *)0)->load.member)

bool frame_load_is_for_life(const field *f)
{
    return f->offset == offsetof(frame_load_row, cycles) || f->offset == offsetof(frame_load_row, cycle_low)
        || f->offset == offsetof(frame_load_row, cycle_high);
}

unsigned frame_load_acts(const field *f)
{
    enum { JOINT = 1 << RBOW_ACTS_ON_JOINT, TUBE = 1 << RBOW_ACTS_ON_TUBE, ALL = 1 << RBOW_ACTS_ON_ALL };
    if (f->kind != FIELD_NUMBER) return 0;
    if (LIES_IN(f, force)) return JOINT | TUBE;
    if (LIES_IN(f, moment)) return JOINT;
    if (LIES_IN(f, at) || LIES_IN(f, spread)) return TUBE;
    return LIES_IN(f, vertical_g) || LIES_IN(f, forward_g) || LIES_IN(f, left_g) ? ALL : 0;
}
