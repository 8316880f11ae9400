/* Words that the texts and the pages about the shop share. */
#ifndef RAILBOW_REPORT_SHOP_SHOP_WORDS_H
#define RAILBOW_REPORT_SHOP_SHOP_WORDS_H

#include "cases/shop/sight_table.h"
#include "cases/shop/sticks_table.h"
#include "table/text.h"

/* Inches as a tape reads them, to 1/64: "236 33/64", "36". */
void put_inches(text *out, double value);

/* A place on a stick or a length of it, to 0.001 in or 0.1 mm; the second with its unit and as a tape reads it. */
void put_stick_place(text *out, double value, unit_system units);
void put_stick_length(text *out, double value, unit_system units);

/* A clock in whole degrees. */
void put_whole_degrees(text *out, double clock);

/* Miss or bow of a line, its clock and its error. */
double sight_size(const sight_row *r);
double sight_clock(const sight_row *r);
double sight_error(const sight_row *r);

/* The columns of a load case: "miss_a 0.31 in, miss_a_clock 74 deg". What is not significant could be as large as itself and its
 * error, anywhere: that is said with the clock any. */
void put_sight_columns(text *out, const sight_row *r, unit_system units);

/* "9 pieces from 3 sticks; no plan needs fewer." Given: a row of the size. */
void put_plan(text *out, const stick_row *r);

#endif
