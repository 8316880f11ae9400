#include "document/document.h"

#include "cases/case_table.h"
#include "cases/check_table.h"
#include "cases/compare_table.h"
#include "cases/detail/detail_results.h"
#include "cases/detail/life_table.h"
#include "cases/frame_advice_table.h"
#include "cases/frame_cut_table.h"
#include "cases/frame_results.h"
#include "cases/frame_spread_table.h"
#include "cases/inspect_table.h"
#include "cases/orientation_table.h"
#include "cases/scatter_table.h"
#include "cases/list/table_list.h"
#include "command/commands.h"
#include "program/say.h"

#include <cjson/cJSON.h>
#include <railbow/version.h>
#include <stdlib.h>
#include <string.h>

/* A part is NULL if memory ran out; the object that it is added to is then NULL too. */
static cJSON *with(cJSON *object, const char *name, cJSON *part)
{
    if (object != NULL && part != NULL && cJSON_AddItemToObject(object, name, part)) return object;
    cJSON_Delete(part);
    cJSON_Delete(object);
    return NULL;
}

static cJSON *with_text(cJSON *object, const char *name, const char *string)
{
    return with(object, name, cJSON_CreateString(string));
}

static cJSON *append(cJSON *array, cJSON *part)
{
    if (array != NULL && part != NULL && cJSON_AddItemToArray(array, part)) return array;
    cJSON_Delete(part);
    cJSON_Delete(array);
    return NULL;
}

/* The names of the units that a column of an answer may have. */
static cJSON *units_of(dimension d, bool any)
{
    const unit *us = unit_shown(d, UNITS_US), *si = unit_shown(d, UNITS_SI);
    cJSON *names = cJSON_CreateArray();
    for (dimension k = DIM_LENGTH; any && k < DIM_HEADER_COUNT; k++) {
        const unit *first = unit_shown(k, UNITS_US), *second = unit_shown(k, UNITS_SI);
        names = append(names, cJSON_CreateString(first->name));
        if (second != first) names = append(names, cJSON_CreateString(second->name));
    }
    if (!any) names = append(names, cJSON_CreateString(us->name));
    if (!any && si != us) names = append(names, cJSON_CreateString(si->name));
    return names;
}

static cJSON *one_of(cJSON *names)
{
    return with(cJSON_CreateObject(), "enum", names);
}

static cJSON *words_of(const field *f)
{
    cJSON *words = cJSON_CreateArray();
    for (const field_word *w = f->words; w->word != NULL; w++) words = append(words, cJSON_CreateString(w->word));
    return one_of(words);
}

static cJSON *number_or_null(void)
{
    cJSON *types = append(append(cJSON_CreateArray(), cJSON_CreateString("number")), cJSON_CreateString("null"));
    return with(cJSON_CreateObject(), "type", types);
}

static cJSON *any_of(cJSON *const answers[], size_t count)
{
    cJSON *any = cJSON_CreateArray();
    for (size_t i = 0; i < count; i++) any = append(any, answers[i]);
    return with(cJSON_CreateObject(), "anyOf", any);
}

typedef struct column_shape { /* how the columns of a command may differ from its list */
    const field_list *const *varied; /* any number column of these lists may be among them; NULL for none */
    size_t varied_count;
    bool any_unit;     /* the numbers have the unit of the column that was asked for */
} column_shape;

static bool is_number(const field *f)
{
    return f->kind == FIELD_NUMBER || f->kind == FIELD_EITHER;
}

static void say_meaning(text *out, const field *f, column_shape s)
{
    const unit *us = unit_shown(f->dimension, UNITS_US), *si = unit_shown(f->dimension, UNITS_SI);
    text_put(out, f->meaning);
    if (s.any_unit && is_number(f)) text_put(out, " (in the unit that units names, if any)");
    if (us != NULL) text_format(out, us == si ? " (%s)" : " (%s; with --units si %s)", us->name, si->name);
}

static cJSON *value_of(const field *f, column_shape s)
{
    text meaning = {0};
    bool lost = false;
    cJSON *value = f->kind == FIELD_EITHER && !s.varied ? any_of((cJSON *[]){number_or_null(), words_of(f)}, 2) : is_number(f) ? number_or_null()
        : f->kind == FIELD_WORD ? words_of(f) : with_text(cJSON_CreateObject(), "type", "string");
    say_meaning(&meaning, f, s);
    value = with_text(value, "description", text_string(&meaning, &lost));
    text_free(&meaning);
    return value;
}

static cJSON *object_of(cJSON *properties, cJSON *required)
{
    cJSON *object = with_text(cJSON_CreateObject(), "type", "object");
    object = with(object, "properties", properties);
    object = with(object, "required", required);
    return with(object, "additionalProperties", cJSON_CreateFalse());
}

/* Every column that may be varied: its value, or its units. */
static cJSON *with_varied(cJSON *object, column_shape s, bool with_units)
{
    for (size_t k = 0; s.varied != NULL && k < s.varied_count; k++)
        for (size_t i = 0; i < s.varied[k]->count; i++) {
            const field *f = &s.varied[k]->fields[i];
            if (!is_number(f) || (with_units && f->dimension == DIM_NONE)) continue;
            object = with(object, f->name, with_units ? one_of(units_of(f->dimension, false)) : value_of(f, s));
        }
    return object;
}

static cJSON *row_of(const field_list *list, column_shape s)
{
    cJSON *properties = cJSON_CreateObject(), *required = cJSON_CreateArray();
    properties = with_varied(properties, s, false);
    for (size_t i = 0; i < list->count; i++) {
        properties = with(properties, list->fields[i].name, value_of(&list->fields[i], s));
        required = append(required, cJSON_CreateString(list->fields[i].name));
    }
    cJSON *row = object_of(properties, required);
    return s.varied != NULL ? with(row, "minProperties", cJSON_CreateNumber((double)list->count + 1)) : row;
}

static cJSON *units_object(const field_list *list, column_shape s)
{
    cJSON *properties = cJSON_CreateObject(), *required = cJSON_CreateArray();
    properties = with_varied(properties, s, true);
    for (size_t i = 0; i < list->count; i++) {
        const field *f = &list->fields[i];
        if (!is_number(f) || (f->dimension == DIM_NONE && !s.any_unit)) continue;
        properties = with(properties, f->name, one_of(units_of(f->dimension, s.any_unit)));
        if (!s.any_unit) required = append(required, cJSON_CreateString(f->name));
    }
    return with_text(object_of(properties, required), "description", "the unit of each column that has one");
}

static cJSON *of_type(const char *type, const char *meaning)
{
    return with_text(with_text(cJSON_CreateObject(), "type", type), "description", meaning);
}

static cJSON *strings(const char *meaning)
{
    return with(of_type("array", meaning), "items", with_text(cJSON_CreateObject(), "type", "string"));
}

/* An object all of whose parts are always there. */
static cJSON *whole_object(cJSON *properties)
{
    cJSON *required = cJSON_CreateArray();
    for (const cJSON *part = properties != NULL ? properties->child : NULL; part != NULL; part = part->next)
        required = append(required, cJSON_CreateString(part->string));
    return object_of(properties, required);
}

static cJSON *table_file(const char *what)
{
    cJSON *digest = with_text(of_type("string", "SHA-256 of the table's bytes"), "pattern", "^[0-9a-f]{64}$");
    return whole_object(with(with(cJSON_CreateObject(), "file", of_type("string", what)), "sha256", digest));
}

static cJSON *facts_of(void)
{
    cJSON *parts = with(cJSON_CreateObject(), "version", of_type("string", "of the program"));
    parts = with(parts, "command", strings("the command line, as far as it bears on the answer"));
    parts = with(parts, "inputs", strings("the files that were read"));
    return with(parts, "materials", table_file("the materials table"));
}

static cJSON *table_parts(const field_list *list);

/* A table of what a search found, and whether the search went to its end. */
static cJSON *searched_table(const field_list *list)
{
    return whole_object(with(table_parts(list), "cut_short", of_type("boolean", "true: too many directions are not known, so that walls alone were "
                                                                                "tried, and no smaller miss, gap or bow")));
}

/* beside: of a table that stands beside the rows; NULL for none. curves: whether a table of S-N curves is read */
static cJSON *answer_beside(const field_list *list, column_shape s, const char *name, const field_list *beside, bool curves)
{
    cJSON *rows = with(with_text(cJSON_CreateObject(), "type", "array"), "items", row_of(list, s));
    cJSON *parts = facts_of();
    if (curves) parts = with(parts, "curves", table_file("the table of S-N curves"));
    parts = with(with(parts, "units", units_object(list, s)), "rows", rows);
    if (beside != NULL) parts = with(parts, name, searched_table(beside));
    return whole_object(with(parts, "refused", of_type("integer", "rows that should be in the answer and are not, and files "
                                                                  "that could not be read to their end: see the messages")));
}

static cJSON *answer_of(const field_list *list, column_shape s)
{
    return answer_beside(list, s, NULL, NULL, false);
}

/* A table of an answer that has several. */
static cJSON *table_parts(const field_list *list)
{
    const column_shape plain = {.varied = NULL};
    cJSON *rows = with(with_text(cJSON_CreateObject(), "type", "array"), "items", row_of(list, plain));
    return with(with(cJSON_CreateObject(), "units", units_object(list, plain)), "rows", rows);
}

static cJSON *table_object(const field_list *list)
{
    return whole_object(table_parts(list));
}

/* The answer of check on a frame; arched: with --arch. */
static cJSON *frame_answer(bool arched)
{
    cJSON *parts = facts_of();
    parts = with(parts, "tubes", table_object(&frame_tubes_list));
    parts = with(parts, "joints", table_object(&frame_joints_list));
    parts = with(parts, "runs", table_object(&frame_runs_list));
    parts = with(parts, "details", table_object(&frame_details_list));
    if (arched) parts = with(parts, "arch", table_object(&frame_arch_list));
    parts = with(parts, "advice", table_object(&frame_advice_list));
    parts = with(parts, "advice_cut_short", of_type("boolean", "whether not every change was tried"));
    return whole_object(with(parts, "refused", of_type("integer", "runs that should be in the answer and are not: see the messages")));
}

/* The answer of cut without readings. */
static cJSON *cut_answer(void)
{
    cJSON *parts = facts_of();
    parts = with(parts, "cuts", table_object(&frame_cuts_list));
    parts = with(parts, "joints", table_object(&frame_cut_joints_list));
    return whole_object(with(parts, "refused", of_type("integer", "always 0: without an answer nothing is written")));
}

/* The first column of a limit is called by what the varied column belongs to. */
static cJSON *limits_of_frame(column_shape s)
{
    static const char *const first[] = {"tube", "joint", "loads"};
    static const field any = {.name = "", .dimension = DIM_NONE};
    cJSON *answers = cJSON_CreateArray();
    for (size_t i = 0; i < sizeof first / sizeof *first; i++) {
        frame_limit_columns columns;
        frame_limit_columns_fill(&columns, &any, first[i]);
        answers = append(answers, answer_of(&columns.list, s));
    }
    return with(cJSON_CreateObject(), "anyOf", answers);
}

static cJSON *sweep_of_frame(void)
{
    const column_shape s = {.varied = frame_lists, .varied_count = FRAME_TABLES};
    sweep_columns columns;
    frame_sweep_columns_fill(&columns, NULL, 0);
    return answer_of(&columns.list, s);
}

/* The answers of scatter and index on a frame. */
static cJSON *frame_scatter_answer(void)
{
    cJSON *parts = facts_of();
    parts = with(parts, "frame", table_object(&frame_scatter_list));
    parts = with(parts, "tubes", table_object(&frame_worst_list));
    parts = with(parts, "samples", table_object(&frame_samples_list));
    return whole_object(with(parts, "refused", of_type("integer", "0: an answer of a frame is whole")));
}

static cJSON *frame_index_answer(void)
{
    cJSON *parts = with(facts_of(), "bows", table_object(&frame_index_list));
    return whole_object(with(parts, "refused", of_type("integer", "0: an answer of a frame is whole")));
}

/* The answer of cases on a frame. */
static cJSON *tubes_listed(column_shape s)
{
    listed_tube_columns columns;
    listed_tube_columns_fill(&columns);
    return answer_of(&columns.list, s);
}

/* With --cases the answer of inspect has three more columns; several commands answer files, and frames; cut has another
 * answer with readings. */
static cJSON *schema_of(const table *t)
{
    static const field_list *const cases[] = {&case_list};
    const bool sweeps = strcmp(t->command, "sweep") == 0;
    const column_shape s = {.varied = sweeps ? cases : NULL, .varied_count = 1, .any_unit = strcmp(t->command, "limit") == 0};
    const bool advises = t->list == &check_list;
    cJSON *answer = answer_beside(t->list, s, "advice", advises ? &advice_list : NULL, t->list == &life_list);
    if (t->list == &inspect_cases_list) answer = any_of((cJSON *[]){answer, answer_of(&inspect_list, s)}, 2);
    if (t->list == &check_list) answer = any_of((cJSON *[]){answer, answer_of(&case_details_list, s), frame_answer(false), frame_answer(true)}, 4);
    if (strcmp(t->command, "cases") == 0) answer = any_of((cJSON *[]){answer, tubes_listed(s)}, 2);
    if (t->list == &compare_list) answer = any_of((cJSON *[]){answer, answer_of(&frame_compare_list, s)}, 2);
    if (t->list == &frame_cut_locked_list) answer = any_of((cJSON *[]){answer, cut_answer()}, 2);
    if (t->list == &life_list) answer = any_of((cJSON *[]){answer, answer_beside(&frame_life_list, s, NULL, NULL, true)}, 2);
    if (sweeps) answer = any_of((cJSON *[]){answer, sweep_of_frame()}, 2);
    if (s.any_unit) answer = any_of((cJSON *[]){answer, limits_of_frame(s)}, 2);
    if (t->list == &scatter_list) answer = any_of((cJSON *[]){answer, frame_scatter_answer()}, 2);
    if (t->list == &orientation_list) answer = any_of((cJSON *[]){answer, frame_index_answer()}, 2);
    return with_text(answer, "description", command_find(t->command)->summary);
}

static cJSON *reference_to(const char *name)
{
    char reference[64] = "#/$defs/";
    strncat(reference, name, sizeof reference - strlen(reference) - 1);
    return with_text(cJSON_CreateObject(), "$ref", reference);
}

static cJSON *schema(void)
{
    tables all;
    cJSON *answers = cJSON_CreateObject(), *any = cJSON_CreateArray();
    tables_fill(&all);
    for (size_t i = 0; i < all.count; i++) {
        if (all.at[i].input || all.at[i].of_frame) continue;
        answers = with(answers, all.at[i].command, schema_of(&all.at[i]));
        any = append(any, reference_to(all.at[i].command));
    }
    cJSON *whole = with_text(cJSON_CreateObject(), "$schema", "https://json-schema.org/draft/2020-12/schema");
    whole = with_text(whole, "title", "railbow " RBOW_VERSION ": answers with --format json");
    whole = with_text(whole, "description", "The answer of each command is under $defs. A number that does not exist or "
                                            "has no limit is null.");
    whole = with(whole, "anyOf", any);
    return with(whole, "$defs", answers);
}

bool schema_json(text *out, const char *program)
{
    (void)program;
    cJSON *whole = schema();
    char *printed = whole != NULL ? cJSON_Print(whole) : NULL;
    if (printed == NULL) say("out of memory");
    if (printed != NULL) text_format(out, "%s\n", printed);
    cJSON_Delete(whole);
    const bool fine = printed != NULL;
    cJSON_free(printed);
    return fine;
}
