#include "cases/compare_table.h"

#include "cases/case_words.h"
#include "cases/field_lines.h"

static const field_word pick_words[] = {{"", COMPARE_NOT_PICKED}, {"lightest", COMPARE_LIGHTEST}, {NULL, 0}};

static const field compare_fields[] = {
    TEXT(compare_row, "case", name, "name of the row"),
    NUMBER(compare_row, "od", tried.od, DIM_LENGTH, "outside diameter tried"),
    NUMBER(compare_row, "wall", tried.wall, DIM_LENGTH, "wall tried"),
    NUMBER(compare_row, "weight", tried.weight, DIM_MASS, "weight of the tube"),
    NUMBER(compare_row, "weight_change", tried.weight_change, DIM_MASS, "change from the tube of the case"),
    NUMBER(compare_row, "stiffness_change", tried.stiffness_change, DIM_NONE, "EI over that of the tube of the case, less 1"),
    NUMBER(compare_row, "margin", tried.result.margin, DIM_NONE, "as in check"),
    TEXT(compare_row, "governs", governs, "as in check"),
    TEXT(compare_row, "verdict", verdict, "holds, short, or not possible and why"),
    WORD(compare_row, "pick", pick, pick_words, "lightest: the lightest tube that holds in every case of the part"),
    TEXT(compare_row, "part", part, "which tube it is about"),
};
enum { KEPT_ALONE = 1 }; /* the last column */

const field_list compare_list = {"comparison", compare_fields, sizeof compare_fields / sizeof *compare_fields - KEPT_ALONE,
                                 sizeof(compare_row)};
const field_list compare_kept_list = FIELD_LIST("comparison", compare_fields, compare_row);

bool is_possible(const compare_row *r)
{
    return r->tried.status == RBOW_OK;
}

bool tube_holds(const compare_row *r)
{
    return is_possible(r) && r->tried.result.verdict == RBOW_HOLDS;
}
