/* The details of a frame: details.csv in its folder, or the table that --details names. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_DETAIL_H
#define RAILBOW_PROGRAM_FRAME_FRAME_DETAIL_H

#include "cases/detail/detail_results.h"
#include "program/frame/frame_parts.h"

/* Reads them and finds their tubes.
 * Given:    b  put together, without faults
 * Returned: false after messages on everything that is wrong; b->details without faults. frame_detail_close either way */
bool frame_detail_open(frame_build *b, const options *o);
void frame_detail_close(frame_build *b);

/* The answer of one detail in a run. Given: remarks  where its remarks are written */
detail_answer frame_detail_answer(const frame_build *b, size_t detail, size_t run, const rbow_detail_result *result,
                                  char remarks[DETAIL_REMARKS_ROOM]);

#endif
