/* What is wrong with a frame: rows that name what is not there, and faults of frame and runs, as messages on their files. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_ROWS_H
#define RAILBOW_PROGRAM_FRAME_FRAME_ROWS_H

#include "program/frame/frame_parts.h"

/* Resolves the names in tubes and loads: sets joints, materials, and what loads act on.
 * Given: b, its rows read and its names open. Adds messages; b->references says whether every name was found. */
void frame_resolve(frame_build *b, const materials *m, text *complaints);

/* Adds a message for each fault of the frame, whose lists are filled, and of its runs. */
void frame_faults_say(frame_build *b, const materials *m, text *complaints);

/* "'UL9' is not in tubes.csv; did you mean 'UL 9'?" named_in: FRAME_JOINTS or FRAME_TUBES */
void frame_put_unknown(text *out, frame_build *b, int named_in, const char *name);

/* One message on a row of a table: "FILE:LINE: COLUMN: ...". */
void frame_refuse(text *complaints, const frame_build *b, int table, size_t line, const char *column, const char *format, ...)
    __attribute__((format(printf, 6, 7)));

#endif
