/* The answers about cuts as CSV and JSON. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_CUT_WRITE_H
#define RAILBOW_PROGRAM_FRAME_FRAME_CUT_WRITE_H

#include "cases/frame_cut_table.h"
#include "program/output.h"
#include "report/facts.h"

/* CSV: the table `of` (frame_cut_of). JSON: both. Returned: false after a message. */
bool frame_cut_write(output *out, const frame_cut_answer *a, int of, const run_facts *facts);
bool frame_cut_locked_write(output *out, const frame_cut_locked_row *r, const run_facts *facts);

#endif
