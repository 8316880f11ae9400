#include "cases/frame_advice_table.h"

#include "cases/field_lines.h"

static const field_word column_words[] = {{"miss_a", ADVICE_MISS_A}, {"miss_b", ADVICE_MISS_B}, {"gap", ADVICE_GAP}, {"bow", ADVICE_BOW},
                                          {"wall", ADVICE_WALL},     {"od", ADVICE_OD},         {NULL, 0}};
static const field_word answers[] = {{"yes", 1}, {"no", 0}, {NULL, 0}};

static const field frame_advice_fields[] = {
    TEXT(frame_advice_row, "tube", tube, "name of the tube with the smallest margin; with the change alone it holds in every run"),
    TEXT(frame_advice_row, "changed", changed, "tube to change"),
    WORD(frame_advice_row, "column", column, column_words, "column of it to change"),
    NUMBER(frame_advice_row, "now", now, DIM_LENGTH, "its present value"),
    NUMBER(frame_advice_row, "to", to, DIM_LENGTH, "value that holds, rounded to the safe side"),
    NUMBER(frame_advice_row, "margin", margin, DIM_NONE, "margin of the tube with the change alone"),
    NUMBER(frame_advice_row, "frame_margin", frame_margin, DIM_NONE, "smallest margin of all tubes with the change alone"),
    WORD(frame_advice_row, "enough", enough, answers, "yes if all tubes of the frame hold with the change alone, else no"),
    TEXT(frame_advice_row, "still_short", still_short, "where it is not enough: the tube with the smallest margin then"),
};

const field_list frame_advice_list = FIELD_LIST("change", frame_advice_fields, frame_advice_row);
