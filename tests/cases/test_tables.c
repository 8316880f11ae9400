/* Every table that goes in or out: its fields lie in its record, apart from each other, under names of their own. */
#include "near.h"

#include "cases/check_table.h"
#include "cases/list/table_list.h"

#include <string.h>

static size_t size_of(const field *f)
{
    return f->kind == FIELD_TEXT ? sizeof(char *) : f->kind == FIELD_WORD || f->kind == FIELD_SET ? sizeof(int) : sizeof(double);
}

static void ck_fields(const field_list *list)
{
    for (size_t i = 0; i < list->count; i++) {
        const field *f = &list->fields[i];
        ck_assert_msg(f->offset + size_of(f) <= list->record_size, "%s: %s", list->what, f->name);
        ck_assert_msg(f->meaning != NULL && *f->meaning != '\0', "%s: %s", list->what, f->name);
        const bool takes_words = f->kind == FIELD_WORD || f->kind == FIELD_EITHER || f->kind == FIELD_SET;
        ck_assert_msg((f->words != NULL) == takes_words, "%s: %s", list->what, f->name);
        for (size_t k = 0; k < i; k++) {
            const field *other = &list->fields[k];
            const bool apart = f->offset + size_of(f) <= other->offset || other->offset + size_of(other) <= f->offset;
            ck_assert_msg(apart && strcmp(f->name, other->name) != 0, "%s: %s, %s", list->what, f->name, other->name);
        }
    }
}

START_TEST(fields_lie_apart_in_their_record)
{
    tables all;
    tables_fill(&all);
    ck_assert_uint_eq(all.count, TABLES);
    for (size_t i = 0; i < all.count; i++) {
        ck_assert(all.at[i].list->count > 0 && *all.at[i].title != '\0');
        ck_fields(all.at[i].list);
    }
}
END_TEST

START_TEST(varied_columns_stand_behind_the_case)
{
    const field *varied[] = {field_find(&case_list, "miss_a"), field_find(&case_list, "wall")};
    sweep_columns s;
    sweep_columns_fill(&s, varied, 2);
    ck_fields(&s.list);
    ck_assert_str_eq(s.list.fields[0].name, "case");
    ck_assert_str_eq(s.list.fields[1].name, "miss_a");
    ck_assert_str_eq(s.list.fields[2].name, "wall");
    ck_assert_str_eq(s.list.fields[3].name, "margin");
}
END_TEST

START_TEST(the_factor_that_decides_is_that_of_the_check_that_governs)
{
    check_row r = {.given.member = {.factor = 1.5, .factor_yield = 1.2},
                   .result = {.column_factor = 2, .yield_factor = 3, .interaction_factor = 4, .governs = RBOW_BY_COLUMN}};
    near_within(deciding_factor(&r), 2, 0, 0);
    near_within(asked_factor(&r), 1.5, 0, 0);
    r.result.governs = RBOW_BY_YIELD;
    near_within(deciding_factor(&r), 3, 0, 0);
    near_within(asked_factor(&r), 1.2, 0, 0);
    r.given.member.factor_yield = RBOW_UNSET; /* then as for the others */
    near_within(asked_factor(&r), 1.5, 0, 0);
    r.result.governs = RBOW_BY_INTERACTION;
    near_within(deciding_factor(&r), 4, 0, 0);
    r.result.governs = RBOW_BY_NONE;
    ck_assert(isinf(deciding_factor(&r)));
}
END_TEST

static void fill(TCase *c)
{
    tcase_add_test(c, fields_lie_apart_in_their_record);
    tcase_add_test(c, varied_columns_stand_behind_the_case);
    tcase_add_test(c, the_factor_that_decides_is_that_of_the_check_that_governs);
}

int main(void)
{
    return run_tests("tables", fill);
}
