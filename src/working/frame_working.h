/* The working of one tube of a frame in one run, from the loads on the frame to the margin of the tube. */
#ifndef RAILBOW_WORKING_FRAME_WORKING_H
#define RAILBOW_WORKING_FRAME_WORKING_H

#include "cases/frame_results.h"
#include "working/steps.h"

/* Given:    answers  of one run and one tube, solved; the model's frame has clocks for all bows
 *           solver   of the model's frame, open
 *           w        empty; it keeps pointers into the material
 * Returned: every step in the units of the system. False where memory ran out or a state could not be found again */
bool frame_working_of(working *w, const frame_answers *answers, rbow_frame_solver *solver, unit_system units);

#endif
