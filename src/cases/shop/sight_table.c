#include "cases/shop/sight_table.h"

#include "cases/field_lines.h"

#include <math.h>

const field_word sight_kind_words[] = {{"socket", SIGHT_SOCKET}, {"tube", SIGHT_TUBE}, {NULL, 0}};

#define OFFSET(name_, at, meaning_)                                                                            \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(sight_reading_row, at),  \
     .fallback = NAN, .least = -INFINITY, .most = INFINITY, .fallback_text = "not read", .meaning = meaning_}

static const field reading_fields[] = {
    NEEDED_TEXT(sight_reading_row, "line", line, "name of the line that is sighted; its rows belong together"),
    {.name = "kind", .kind = FIELD_WORD, .offset = offsetof(sight_reading_row, kind), .words = sight_kind_words,
     .rule = FIELD_REQUIRED, .fallback_text = "",
     .meaning = "socket: a straight bar in a socket, or the socket itself; tube: a string along a tube"},
    {.name = "station", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(sight_reading_row, reading.station),
     .least = -INFINITY, .most = INFINITY, .rule = FIELD_REQUIRED, .fallback_text = "",
     .meaning = "length along the line from A, where the socket or the end of the tube is"},
    OFFSET("up", reading.up, "offset upward from the reference line at that station"),
    OFFSET("right", reading.right, "offset to the right, seen from A toward B"),
    {.name = "reading_error", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH,
     .offset = offsetof(sight_reading_row, reading.error), .fallback = 1.0 / 64, .most = INFINITY, .rule = FIELD_ABOVE,
     .fallback_text = "1/64 in", .meaning = "one standard deviation of an offset read here"},
    {.name = "landing", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(sight_reading_row, landing),
     .fallback = NAN, .most = INFINITY, .rule = FIELD_ABOVE, .fallback_text = "none",
     .meaning = "of a socket: distance from A to the joint where the new tube must land; once for each line is enough"},
};
const field_list sight_reading_list = FIELD_LIST("sight reading", reading_fields, sight_reading_row);

const field_word sight_verdict_words[] = {
    {"significant", SIGHT_SIGNIFICANT}, {"within error", SIGHT_WITHIN_ERROR}, {"recheck", SIGHT_RECHECK}, {NULL, 0}};

#define LENGTH(name_, at, meaning_) NUMBER(sight_row, name_, at, DIM_LENGTH, meaning_)
#define CLOCK(name_, at, meaning_) NUMBER(sight_row, name_, at, DIM_ANGLE, meaning_)

static const field sight_fields[] = {
    TEXT(sight_row, "line", line, "name of the line"),
    WORD(sight_row, "kind", kind, sight_kind_words, "socket or tube"),
    WORD(sight_row, "verdict", verdict, sight_verdict_words,
         "significant: larger than its error; within error: not; recheck: the readings do not lie on the fit"),
    LENGTH("miss", miss, "of a socket: by how much a straight bar in it misses the landing"),
    CLOCK("miss_clock", miss_clock, "clock of the miss"),
    LENGTH("miss_error", miss_error, "95 % error of the miss along its clock, from the readings"),
    LENGTH("bow", bow, "of a tube: bow against the chord from the first to the last station"),
    CLOCK("bow_clock", bow_clock, "clock of the bow"),
    LENGTH("bow_error", bow_error, "95 % error of the bow along its clock, from the readings"),
    TEXT(sight_row, "bow_shape", bow_shape, "shape that fits best: sine, arc or kink"),
    LENGTH("bow_at", bow_at, "of a kink: its place from A"),
    LENGTH("error_major", found.major, "larger half axis of the 95 % ellipse of up and right"),
    LENGTH("error_minor", found.minor, "smaller half axis; empty where up or right was not read"),
    CLOCK("error_clock", found.major_clock, "clock of the larger half axis"),
    LENGTH("offset_a", found.offset, "of a socket: offset of the bar at A, which is not part of the miss"),
    CLOCK("offset_a_clock", found.offset_clock, "clock of that offset"),
    NUMBER(sight_row, "misfit", found.misfit, DIM_NONE, "chi-square: what the fit leaves of each reading over its error, squared and added"),
    NUMBER(sight_row, "misfit_limit", found.misfit_most, DIM_NONE, "95 % of readings with these errors leave less"),
    LENGTH("worst_station", found.worst, "station of the reading that lies furthest from the fit"),
    NUMBER(sight_row, "readings", readings, DIM_NONE, "offsets read, up and right together"),
};
const field_list sight_list = FIELD_LIST("sight", sight_fields, sight_row);
