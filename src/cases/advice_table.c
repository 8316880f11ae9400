#include "cases/advice_table.h"

#include "cases/field_lines.h"

static const field_word column_words[] = {
    {"miss_a", ADVICE_MISS_A}, {"miss_b", ADVICE_MISS_B}, {"gap", ADVICE_GAP}, {"bow", ADVICE_BOW}, {"wall", ADVICE_WALL}, {NULL, 0}};

static const field advice_fields[] = {
    TEXT(advice_row, "case", name, "name of the worst case; each row is a change that is enough alone"),
    WORD(advice_row, "column", column, column_words, "column to change"),
    NUMBER(advice_row, "now", now, DIM_LENGTH, "its present value"),
    NUMBER(advice_row, "to", to, DIM_LENGTH, "value that holds, rounded to the safe side; a miss, gap or bow may be smaller"),
    NUMBER(advice_row, "margin", margin, DIM_NONE, "margin of the case with this change alone"),
};

const field_list advice_list = FIELD_LIST("change", advice_fields, advice_row);

const char *advice_column(int column)
{
    return column_words[column].word;
}
