/* Writes records as CSV, as described by a field list. */
#ifndef RAILBOW_TABLE_WRITER_H
#define RAILBOW_TABLE_WRITER_H

#include "table/field.h"
#include "table/text.h"

/* The header row: "name [unit],name,...\n"; units of the system asked for. */
void csv_header(text *out, const field_list *list, unit_system units);

/* One row. Numbers with 10 significant digits (as printf "%.10g"), no limit as "inf", NaN (what does not
 * exist) as an empty cell. Texts are quoted where RFC 4180 needs it; one that a spreadsheet would run as
 * a formula (it begins with = + - @ or their full-width forms, behind blanks too, or with a tab or return) gets an apostrophe in front. */
void csv_row(text *out, const field_list *list, const void *record, unit_system units);

/* One text cell, as csv_row writes it (no comma). */
void csv_text(text *out, const char *cell);

#endif
