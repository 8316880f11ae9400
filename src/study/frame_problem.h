/* A frame and its runs for the studies: records that they change, and the materials that may serve its tubes. */
#ifndef RAILBOW_STUDY_FRAME_PROBLEM_H
#define RAILBOW_STUDY_FRAME_PROBLEM_H

#include "cases/frame_table.h"
#include "study/frame_details.h"

typedef struct frame_problem {
    rbow_frame_joint *joints; /* the problem's own, as are the tubes, the loads and the runs that point to them */
    rbow_frame_tube *tubes;
    rbow_frame_load *loads;
    rbow_frame_run *runs;
    size_t joint_count, tube_count, load_count, run_count;
    const char **tube_materials; /* names */
    const rbow_material *materials;
    size_t material_count;
    const frame_details *details; /* NULL: none */
    const bool *judged; /* of each tube: whether its margin counts in frame_problem_margin and _holds; NULL: all. The caller's */
    size_t first_run; /* that frame_problem_margin begins with: the one with the lowest margin makes it fastest */
} frame_problem;

/* A number of a frame: by its table, the row there (of the loads: in the order of `loads`), and its offset in the record that
 * includes the names (joint_row, frame_tube_row, frame_load_row), as a field has it. */
typedef struct frame_parameter {
    int table; /* FRAME_JOINTS, FRAME_TUBES, FRAME_LOADS */
    size_t row, offset;
} frame_parameter;

/* A copy of what is given, which stays the caller's. Given: tube_materials  a name for each tube
 * Returned: false where memory ran out. frame_problem_close either way. */
bool frame_problem_open(frame_problem *p, const rbow_frame *frame, const rbow_frame_run *runs, size_t run_count,
                        const char *const *tube_materials, const rbow_material *materials, size_t material_count);
bool frame_problem_copy(frame_problem *to, const frame_problem *from);
void frame_problem_close(frame_problem *p);

double frame_parameter_get(const frame_problem *p, frame_parameter of);

/* A wall takes the row of its tube's material with it.
 * Status: RBOW_OK | RBOW_WALL_NOT_SERVED (the tube's material has no row for its wall) */
rbow_status frame_parameter_set(frame_problem *p, frame_parameter of, double value);

typedef struct frame_lowest { /* of all runs */
    rbow_frame_lowest lowest;
    size_t run;
} frame_lowest;

/* The lowest margin over all runs.
 * Given:    most  as in rbow_frame_margin
 * Status:   RBOW_OK | the first fault of the changed frame, its runs or details | RBOW_FRAME_NOT_HELD | as rbow_frame_margin |
 *           RBOW_NO_MEMORY */
rbow_status frame_problem_margin(const frame_problem *p, double most, frame_lowest *lowest);

/* The lowest margin of one tube and its details over all runs: faster than that of all tubes.
 * Given:    tube; most  as in rbow_frame_margin
 * Returned: margin  `most` where it is not lower; NaN after a failure
 * Status:   as frame_problem_margin */
rbow_status frame_problem_tube_margin(const frame_problem *p, size_t tube, double most, double *margin);

/* The first fault of the frame, of its runs or of its details; RBOW_OK for none. Whether something holds the frame is not looked at. */
rbow_status frame_problem_fault(const frame_problem *p);

/* Whether no margin of any run is below `least`; ends at the first run that is.
 * Given:    first  the run to begin with: any gives the same answer, the likeliest to be short gives it soonest
 * Returned: short_run  the run that is; run_count for none
 * Status:   as frame_problem_margin */
rbow_status frame_problem_holds(const frame_problem *p, double least, size_t first, size_t *short_run);

/* Puts a run first, and the first in its place; twice the same call puts them back. Margins are found faster where the run with the
 * lowest comes first. */
void frame_problem_swap_first(frame_problem *p, size_t run);

/* One run in full. Given: tubes  room for one result for each tube. Status: likewise */
rbow_status frame_problem_check(const frame_problem *p, size_t run, rbow_frame_tube_result *tubes, rbow_frame_run_result *whole);

#endif
