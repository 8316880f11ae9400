/* The answers about cuts through tubes of a frame, as tables. */
#ifndef RAILBOW_CASES_FRAME_CUT_TABLE_H
#define RAILBOW_CASES_FRAME_CUT_TABLE_H

#include "table/field.h"

#include <railbow/frame_cut.h>

typedef struct frame_cut_row { /* a cut, and how its faces part */
    const char *tube, *from, *to;
    double at;
    rbow_frame_faces faces;
    double od; /* in */
} frame_cut_row;

typedef struct frame_cut_joint_row { /* a joint, from before the cuts to after them */
    const char *joint;
    rbow_frame_motion moved;
} frame_cut_joint_row;

typedef struct frame_cut_locked_row { /* a cut, and what its readings say */
    const char *tube, *from, *to;
    double at;
    rbow_frame_released found;
    int basis; /* as of release */
} frame_cut_locked_row;

typedef enum frame_cut_of { OF_CUTS, OF_CUT_JOINTS } frame_cut_of; /* which of the first two */

typedef struct frame_cut_answer {
    const frame_cut_row *cuts;
    size_t cut_count;
    const frame_cut_joint_row *joints;
    size_t joint_count;
    size_t free_joints; /* of the pieces that lie free */
    const char *run;    /* NULL for none */
} frame_cut_answer;

/* The joint that moves most; NULL where none moves. Returned: distance, in */
const frame_cut_joint_row *frame_cut_moves_most(const frame_cut_answer *a, double *distance);

/* What text and page say of how the answer was found: always; where a piece lies free; with readings. */
extern const char frame_cut_basis[], frame_cut_free[], frame_cut_locked_basis[];

extern const field_list frame_cuts_list, frame_cut_joints_list, frame_cut_locked_list;

#endif
