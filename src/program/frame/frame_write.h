/* The answers of a frame as CSV and JSON. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_WRITE_H
#define RAILBOW_PROGRAM_FRAME_FRAME_WRITE_H

#include "cases/frame_results.h"
#include "program/output.h"
#include "report/facts.h"

/* CSV: the table `of` (frame_of). JSON: all, the arch where it was asked for, and the
 * advice. Runs without an answer have no rows; refused: how many.
 * Returned: false after a message. */
bool frame_write(output *out, const frame_answers *a, int of, const run_facts *facts, size_t refused);

#endif
