/* What to do about the worst tube of a frame that was checked. */
#ifndef RAILBOW_COMMAND_FRAME_ADVISE_FRAME_H
#define RAILBOW_COMMAND_FRAME_ADVISE_FRAME_H

#include "cases/frame_advice_table.h"
#include "program/frame/frame_solve.h"

/* With the walls and diameters that suppliers keep, and the steps of advice_step.
 * Given:    solved  the check of the frame; units  in which the answer is told
 * Returned: a; nothing in it where every tube holds. Where a run has no answer nothing is looked for: a->cut_short says so. The names in
 *           it are those of the frame. */
void advise_frame(frame_advice *a, const frame_build *b, const materials *m, const frame_solved *solved, unit_system units, int jobs);

#endif
