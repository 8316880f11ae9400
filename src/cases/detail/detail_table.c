#include "cases/detail/detail_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

#include <math.h>

#define KIND(value, name) {name, value},
const field_word detail_kind_words[] = {RBOW_DETAIL_KIND_LIST(KIND) {NULL, 0}};
const field_word detail_mode_words[] = {RBOW_DETAIL_MODE_LIST(KIND) {NULL, 0}};

static const field_word at_words[] = {{"a", 0}, {"b", INFINITY}, {NULL, 0}};
static const field_word walls_words[] = {{"1", 1}, {"2", 2}, {NULL, 0}};
static const field_word butt_words[] = {{"yes", 1}, {"no", 0}, {NULL, 0}};

#define SIZE(name_, fallback_, fallback_text_, meaning_)                                                       \
    {.name = #name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(detail_row, detail.name_), \
     .fallback = fallback_, .most = INFINITY, .fallback_text = fallback_text_, .meaning = meaning_}
#define OWN_TEXT(name_, fallback_text_, meaning_)                                                              \
    {.name = #name_, .kind = FIELD_TEXT, .offset = offsetof(detail_row, name_), .fallback_text = fallback_text_, .meaning = meaning_}
#define KIND_NAME(value, name) name ", "

#define DETAIL_FIELDS                                                                                          \
    NEEDED_TEXT(detail_row, "detail", name, "name of the detail; no two of a tube may be alike"),              \
    {.name = "kind", .kind = FIELD_WORD, .offset = offsetof(detail_row, detail.kind), .words = detail_kind_words, \
     .rule = FIELD_REQUIRED, .fallback_text = "", .meaning = "place (the tube itself there), hole, ring weld, sleeve (inside, over a butt) or socket (slip fit on a stub)"}, \
    {.name = "at", .kind = FIELD_EITHER, .dimension = DIM_LENGTH, .offset = offsetof(detail_row, detail.at),   \
     .most = INFINITY, .words = at_words, .rule = FIELD_REQUIRED, .fallback_text = "",                         \
     .meaning = "place of the detail: distance from A, or a or b for a joint"},                                \
    SIZE(hole, NAN, "needed for a hole", "diameter of a hole; 0 is none"),                                     \
    {.name = "walls", .kind = FIELD_WORD, .offset = offsetof(detail_row, detail.walls), .fallback = 2, .words = walls_words, \
     .fallback_text = "2", .meaning = "walls that the hole goes through: 1 or 2"},                             \
    {.name = "hole_clock", .kind = FIELD_EITHER, .dimension = DIM_ANGLE, .offset = offsetof(detail_row, detail.hole_clock), \
     .fallback = RBOW_ANY_CLOCK, .least = -INFINITY, .most = INFINITY, .words = clock_words, .fallback_text = "any", \
     .meaning = "clock of the hole's axis, through one wall the side to which it opens; any: the worst"},      \
    SIZE(throat, RBOW_UNSET, "the wall", "throat of the weld; of a fillet whose leg is the wall it is 0.707 of the wall"), \
    {.name = "weld_strength", .kind = FIELD_NUMBER, .dimension = DIM_STRESS, .offset = offsetof(detail_row, detail.weld_strength), \
     .fallback = RBOW_UNSET, .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "70 ksi",                 \
     .meaning = "classified tensile strength of the filler, F_EXX"},                                           \
    SIZE(weld_od, RBOW_UNSET, "od of the tube there", "diameter of a ring weld"),                              \
    SIZE(sleeve_od, NAN, "needed for a sleeve", "outside diameter of the sleeve inside the tube"),             \
    SIZE(sleeve_wall, NAN, "needed for a sleeve", "wall of the sleeve"),                                       \
    SIZE(stub_od, NAN, "needed for a socket", "outside diameter of the stub that the tube slips over or into"), \
    SIZE(stub_wall, NAN, "needed for a socket", "wall of the stub"),                                           \
    SIZE(overlap, NAN, "needed for a sleeve or socket", "of a sleeve: length on each side of the butt; of a socket: its depth"), \
    {.name = "rosettes", .kind = FIELD_NUMBER, .offset = offsetof(detail_row, rosettes), .most = 1000, .fallback_text = "0", \
     .meaning = "rosette welds: of a sleeve on each side, of a socket in all (spare there: not counted)"},     \
    SIZE(rosette, NAN, "needed with rosettes", "diameter of a rosette's hole"),                                \
    {.name = "butt", .kind = FIELD_WORD, .offset = offsetof(detail_row, detail.butt), .fallback = 1, .words = butt_words, \
     .fallback_text = "yes", .meaning = "of a sleeve: yes if the ends of the tubes are welded round, no if the sleeve carries alone"}, \
    OWN_TEXT(sn, "the usual curve of its kind", "S-N curve, by its name in the table of curves"),              \
    OWN_TEXT(note, "", "a remark of the user; it is copied to the results")

#define SITS_ON(name_, meaning_, stranger_, instead_)                                                          \
    {.name = name_, .kind = FIELD_TEXT, .offset = offsetof(detail_row, of), .rule = FIELD_REQUIRED, .fallback_text = "", \
     .meaning = meaning_, .stranger = stranger_, .instead = instead_}

static const field case_detail_fields[] = {
    SITS_ON("case", "load case, or part, that the detail sits on", "tube", "a detail of a load case names the case or its part, in the column 'case'"),
    DETAIL_FIELDS,
};
static const field frame_detail_fields[] = {
    SITS_ON("tube", "tube that the detail sits on, by its name in tubes.csv", "case", "a detail of a frame names its tube, in the column 'tube'"),
    DETAIL_FIELDS,
};
const field_list case_detail_list = FIELD_LIST("detail", case_detail_fields, detail_row);
const field_list frame_detail_list = FIELD_LIST("detail", frame_detail_fields, detail_row);

/* ---- sizes ------------------------------------------------------------------------------------------------- */

enum { PLACE = 1 << RBOW_DETAIL_PLACE, HOLE = 1 << RBOW_DETAIL_HOLE, RING = 1 << RBOW_DETAIL_RING_WELD,
       SLEEVE = 1 << RBOW_DETAIL_SLEEVE, SOCKET = 1 << RBOW_DETAIL_SOCKET };

static const struct size_use {
    const char *name;
    int needed, used; /* by kinds */
} size_uses[] = {
    {"hole", HOLE, HOLE},
    {"throat", 0, RING | SLEEVE | SOCKET},
    {"weld_strength", 0, RING | SLEEVE | SOCKET},
    {"weld_od", 0, RING},
    {"sleeve_od", SLEEVE, SLEEVE},
    {"sleeve_wall", SLEEVE, SLEEVE},
    {"stub_od", SOCKET, SOCKET},
    {"stub_wall", SOCKET, SOCKET},
    {"overlap", SLEEVE | SOCKET, SLEEVE | SOCKET},
    {"rosette", 0, SLEEVE | SOCKET},
};

static bool is_given(double size)
{
    return !isnan(size) && size > RBOW_UNSET;
}

const field *detail_size_fault(const detail_row *r, bool *missing)
{
    const int kind = 1 << r->detail.kind;
    for (size_t i = 0; i < sizeof size_uses / sizeof *size_uses; i++) {
        const struct size_use *u = &size_uses[i];
        const field *f = field_find(&case_detail_list, u->name);
        const bool given = is_given(field_get(f, r)), needed = (u->needed & kind) != 0;
        *missing = needed && !given;
        if (*missing || (given && (u->used & kind) == 0)) return f;
    }
    const bool has_rosettes = r->rosettes > 0 && (kind & (SLEEVE | SOCKET)) != 0;
    *missing = has_rosettes && !is_given(r->detail.rosette);
    if (*missing) return field_find(&case_detail_list, "rosette");
    return r->rosettes > 0 && !has_rosettes ? field_find(&case_detail_list, "rosettes") : NULL;
}

rbow_detail detail_on(const detail_row *r, double length)
{
    rbow_detail d = r->detail;
    d.at = isinf(d.at) ? length : d.at;
    d.rosettes = (int)r->rosettes;
    return d;
}
