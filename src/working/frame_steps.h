/* The tube of a frame that is explained, and the steps that a load case does not have. */
#ifndef RAILBOW_WORKING_FRAME_STEPS_H
#define RAILBOW_WORKING_FRAME_STEPS_H

#include "cases/frame_results.h"
#include "working/calculation.h"
#include "working/moment_steps.h"

typedef struct explained {
    calculation c;
    across across;
    const frame_answers *answers;
    rbow_frame_solver *solver;
    const rbow_frame_run *run;
    const rbow_frame_tube *tube;
    const rbow_frame_tube_result *result;
    double deciding; /* load factor of the check that governs in the tube itself */
    size_t place;                       /* of the tube in the model */
    double along[RBOW_AXES], up[RBOW_AXES], right[RBOW_AXES];
    double lever[2];                    /* what acts along the tube at load factor 1, at A and at B; in the units shown */
    rbow_frame_motion *motions;         /* of all joints, and the axial forces of all tubes, in the state last asked for */
    double *axials;
    double path_end;                    /* of the states that the margin is of */
    double axial, torque, chord[2];     /* of the tube in the state last shown, in the units shown; chord: up, right */
} explained;

/* The run as a whole at load factor 1: loads and reactions, and that they balance. */
void frame_sum_steps(const explained *e);

/* The directions of the tube, and what acts between its joints. The second needs the weight step's result. */
void frame_direction_steps(const explained *e);
void frame_load_steps(explained *e, double weight);

/* The movements of its joints at a load factor, its axial force and torque, and the slopes at its ends.
 * Returned: false without a state */
bool frame_state_steps(explained *e, double factor, int fit);

/* The forces of the joints on the tube at load factor 1, from the moments at its ends. */
void frame_end_force_steps(const explained *e, const end_moments *ends);

#endif
