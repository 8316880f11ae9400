/* One line a column, for the field lists of result rows. */
#ifndef RAILBOW_REPORT_RESULT_FIELD_H
#define RAILBOW_REPORT_RESULT_FIELD_H

#include "table/field.h"

#define TEXT(record, name_, at, meaning_)                                                                      \
    {.name = name_, .kind = FIELD_TEXT, .offset = offsetof(record, at), .meaning = meaning_}
#define WORD(record, at, words_, meaning_)                                                                     \
    {.name = #at, .kind = FIELD_WORD, .offset = offsetof(record, at), .words = words_, .meaning = meaning_}
#define NUMBER(record, at, dimension_, meaning_)                                                               \
    {.name = #at, .kind = FIELD_NUMBER, .dimension = dimension_, .offset = offsetof(record, at),               \
     .meaning = meaning_}

#endif
