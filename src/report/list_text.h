/* Any result table as an aligned text. */
#ifndef RAILBOW_REPORT_LIST_TEXT_H
#define RAILBOW_REPORT_LIST_TEXT_H

#include "table/field.h"
#include "table/text.h"

/* Every column with its unit, numbers with five significant digits; turned round, for a few records with many columns:
 * one line a column, one column a record, in blocks that fit a terminal. */
void list_text_turned(text *out, const field_list *list, const void *records, size_t count, unit_system units);

/* One number for people: at most `digits` significant ones, "no limit" for infinity, "-" for what does not exist. */
void put_number(text *out, double value, int digits);

/* A share for people, "+12.3 %": "no limit" for infinity, "over 9999 %" where digits tell nothing. */
void put_percent(text *out, double share);

/* A load factor for people, "1.23": "no limit", "over 999" likewise. */
void put_factor(text *out, double factor);

/* What every answer says at its end. */
extern const char caution[];

#endif
