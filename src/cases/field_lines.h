/* Macros that describe a column in one line, for the field lists of this room. */
#ifndef RAILBOW_CASES_FIELD_LINES_H
#define RAILBOW_CASES_FIELD_LINES_H

#include "table/field.h"

/* Columns of results: record, name, member of the record, ... */
#define TEXT(record, name_, at, meaning_)                                                                      \
    {.name = name_, .kind = FIELD_TEXT, .offset = offsetof(record, at), .meaning = meaning_}
#define WORD(record, name_, at, words_, meaning_)                                                              \
    {.name = name_, .kind = FIELD_WORD, .offset = offsetof(record, at), .words = words_, .meaning = meaning_}
#define NUMBER(record, name_, at, dimension_, meaning_)                                                        \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = dimension_, .offset = offsetof(record, at),             \
     .meaning = meaning_}

/* Required columns of an input: a text, and a length. */
#define NEEDED_TEXT(record, name_, at, meaning_)                                                               \
    {.name = name_, .kind = FIELD_TEXT, .offset = offsetof(record, at), .rule = FIELD_REQUIRED,                \
     .fallback_text = "", .meaning = meaning_}
#define NEEDED_LENGTH(record, name_, at, rule_, meaning_)                                                      \
    {.name = name_, .kind = FIELD_NUMBER, .dimension = DIM_LENGTH, .offset = offsetof(record, at),             \
     .most = INFINITY, .rule = FIELD_REQUIRED | (rule_), .fallback_text = "", .meaning = meaning_}

#define FIELD_LIST(what_, fields_, record)                                                                     \
    {.what = what_, .fields = fields_, .count = sizeof fields_ / sizeof *fields_, .record_size = sizeof(record)}

#endif
