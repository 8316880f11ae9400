#include "cases/shop/sticks_table.h"

#include "cases/field_lines.h"

#include <math.h>

enum { COUNT_MOST = 10000 };

#define COUNT(record, meaning_)                                                                                \
    {.name = "count", .kind = FIELD_NUMBER, .offset = offsetof(record, count), .fallback = 1, .least = 1,      \
     .most = COUNT_MOST, .fallback_text = "1", .meaning = meaning_}

static const field part_fields[] = {
    NEEDED_TEXT(part_row, "part", part, "name of the part"),
    NEEDED_LENGTH(part_row, "od", od, FIELD_ABOVE, "outside diameter"),
    NEEDED_LENGTH(part_row, "wall", wall, FIELD_ABOVE, "wall thickness"),
    NEEDED_LENGTH(part_row, "length", length, FIELD_ABOVE, "length of one piece"),
    COUNT(part_row, "how many pieces"),
    {.name = "bow_most", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(part_row, bow_most), .fallback = NAN,
     .most = INFINITY, .fallback_text = "any", .meaning = "largest bow that the piece may have over its length"},
};
const field_list part_list = FIELD_LIST("part", part_fields, part_row);

static const field stock_fields[] = {
    NEEDED_TEXT(stock_row, "stick", stick, "name of the stick; each stick of it is NAME 1, NAME 2 ..."),
    NEEDED_LENGTH(stock_row, "od", od, FIELD_ABOVE, "outside diameter"),
    NEEDED_LENGTH(stock_row, "wall", wall, FIELD_ABOVE, "wall thickness"),
    NEEDED_LENGTH(stock_row, "length", length, FIELD_ABOVE, "length of the stick"),
    {.name = "bow", .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(stock_row, bow), .fallback = NAN,
     .most = INFINITY, .fallback_text = "not known", .meaning = "bow over the whole stick; not known serves no part with a bow_most"},
    COUNT(stock_row, "how many sticks"),
};
const field_list stock_list = FIELD_LIST("stick", stock_fields, stock_row);

const field_word cutting_basis_words[] = {{"exact", RBOW_CUTTING_EXACT},
                                  {"stopped", RBOW_CUTTING_STOPPED},
                                  {"first fit decreasing", RBOW_CUTTING_DECREASING},
                                  {NULL, 0}};

#define LENGTH(name_, at, meaning_) NUMBER(stick_row, name_, at, DIM_LENGTH, meaning_)
#define WEIGHT(name_, at, meaning_) NUMBER(stick_row, name_, at, DIM_MASS, meaning_)

static const field stick_fields[] = {
    TEXT(stick_row, "stick", stick, "the stick"),
    NUMBER(stick_row, "position", position, DIM_NONE, "place of the piece in the stick, from 1"),
    TEXT(stick_row, "part", part, "the part that the piece becomes"),
    LENGTH("od", od, "outside diameter"),
    LENGTH("wall", wall, "wall thickness"),
    LENGTH("cut_from", cut_from, "where the piece begins, from the end of the stick"),
    LENGTH("cut_to", cut_to, "where it ends; the cut takes its kerf behind that"),
    LENGTH("bow", bow, "bow of the piece, that of an arc; empty where the stick's is not known"),
    LENGTH("bow_most", bow_most, "largest bow that it may have"),
    WEIGHT("weight", weight, "weight of the piece"),
    LENGTH("stick_length", stick_length, "length of the stick"),
    LENGTH("stick_bow", stick_bow, "bow over the whole stick"),
    LENGTH("remainder", remainder, "what the stick leaves; on the row of its last piece, as the next two"),
    WEIGHT("remainder_weight", remainder_weight, "weight of the remainder"),
    WEIGHT("kerf_weight", kerf_weight, "weight that its cuts turn to chips"),
    WORD(stick_row, "basis", basis, cutting_basis_words,
         "exact: no plan is better; stopped: the search was ended first; first fit decreasing: not searched"),
    NUMBER(stick_row, "sticks", sticks, DIM_NONE, "how many sticks of this size are cut"),
    NUMBER(stick_row, "least_sticks", least_sticks, DIM_NONE, "no plan needs fewer: a lower bound"),
};
const field_list stick_list = FIELD_LIST("cutting plan", stick_fields, stick_row);
