/* A detail with its working: what a text or a page shows of it. */
#ifndef RAILBOW_COMMAND_FRAME_DETAIL_WORK_H
#define RAILBOW_COMMAND_FRAME_DETAIL_WORK_H

#include "cases/detail/detail_results.h"
#include "cases/frame_results.h"
#include "working/detail_working.h"

typedef struct detail_work {
    rbow_member member; /* the concrete one; of a frame its tube */
    rbow_member given;
    detail_state states[DETAIL_STATES];
    working working;
    detail_worked worked;
} detail_work;

/* Given:    d  the answer, which must outlive k; member, material  of its case
 * Returned: false where there is no working: no state, or memory ran out. detail_work_free either way */
bool detail_work_of(detail_work *k, const detail_answer *d, const rbow_member *member, const rbow_material *material, unit_system units);

/* The same of a detail of a frame.
 * Given: solver  open for the frame, its bows at the clocks that the answer takes; run, tube  of the model */
bool detail_work_in_frame(detail_work *k, const detail_answer *d, rbow_frame_solver *solver, const frame_model *model, size_t run,
                          size_t tube, unit_system units);

void detail_work_free(detail_work *k);

#endif
