/* The data of the drawings of a frame: where it moves in one run, and moments along its worst tubes. */
#ifndef RAILBOW_WORKING_FRAME_PICTURE_H
#define RAILBOW_WORKING_FRAME_PICTURE_H

#include "cases/frame_results.h"

enum { FRAME_SHAPE_STATIONS = 9, FRAME_MOMENT_STATIONS = 81 };

typedef struct frame_shape { /* of one tube, in */
    double drawn[FRAME_SHAPE_STATIONS][RBOW_AXES];
    double moved[FRAME_SHAPE_STATIONS][RBOW_AXES]; /* movement there at load factor 1; NaN without a state */
} frame_shape;

/* Given:    solver  of the model's frame, open
 *           run     of the model; joints: its answers
 * Returned: shapes  one for each tube of the model */
void frame_shapes_of(frame_shape *shapes, rbow_frame_solver *solver, const frame_model *m, size_t run, const frame_joint_answer *joints);

typedef struct frame_moments { /* along one tube */
    double at[FRAME_MOMENT_STATIONS];     /* in from A */
    double locked[FRAME_MOMENT_STATIONS]; /* in-lbf, without run load */
    double loaded[FRAME_MOMENT_STATIONS]; /* at load factor 1; NaN where there is no state */
} frame_moments;

/* tube: of the model */
void frame_moments_of(frame_moments *moments, rbow_frame_solver *solver, const frame_model *m, size_t run, size_t tube);

enum { FRAME_CARDS_MOST = 6 };

typedef struct frame_card { /* a tube in its worst run */
    const frame_tube_answer *answer;
    frame_moments moments;
} frame_card;

/* From where a frame is seen, in degrees: azimuth 0 is from its right side, with its nose to the right, and a positive one turns the
 * nose toward the viewer; elevation 90 is from above. (0, 0) is the side, (0, 90) the top, (90, 0) the front. */
typedef struct frame_direction {
    double azimuth, elevation;
} frame_direction;

typedef struct frame_picture {
    size_t run;               /* that is drawn */
    bool is_turned;           /* there is a further view, from `turned` */
    frame_direction turned;
    const frame_tube_answer *pinned; /* whose governing place bears a pin; NULL for none */
    const frame_shape *shapes; /* of every tube of the model */
    frame_card cards[FRAME_CARDS_MOST]; /* the smallest margin first */
    size_t card_count;
} frame_picture;

/* Where a joint was drawn. */
const double *frame_place(const frame_model *m, size_t joint);

#endif
