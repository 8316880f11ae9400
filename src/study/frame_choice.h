/* The choice of walls for a frame: each wall for all tubes, and the lightest set with one wall a part. */
#ifndef RAILBOW_STUDY_FRAME_CHOICE_H
#define RAILBOW_STUDY_FRAME_CHOICE_H

#include "study/frame_problem.h"

enum { FRAME_CHOICE_SETS_MOST = 20000 }; /* that are gone through one by one */

typedef struct frame_choice_question {
    const frame_problem *problem;
    const size_t *part_of; /* the part of each tube, below `parts` */
    size_t parts;
    const double *walls;   /* in */
    size_t wall_count;
    int jobs;
    bool (*go_on)(void *context, size_t done, size_t all); /* sets, or steps of a descent; false stops the search */
    void *context;
} frame_choice_question;

typedef struct frame_set { /* of walls */
    size_t *walls;      /* the wall of each part, below wall_count; NULL for none */
    double weight;      /* lb, of all tubes */
    rbow_status status; /* below 0: without an answer */
    frame_lowest lowest;
} frame_set;

typedef struct frame_choice {
    bool failed, stopped;  /* memory ran out; go_on said so: no answer then */
    double *weights;       /* lb: of part p with wall w at p * wall_count + w */
    rbow_status *refusals; /* likewise: RBOW_OK where the part can have that wall */
    double *given;         /* lb: of each part as given */
    frame_set *all;        /* for each wall: all tubes with it; without an answer where a part cannot have it */
    bool descended;        /* the sets were too many: `pick` comes from the set that holds, part by part downward */
    size_t sets;           /* that are possible; SIZE_MAX for more than that */
    size_t without_answer; /* sets that could not be worked out */
    frame_set pick;        /* the lightest that holds; walls NULL for none */
    frame_set next;        /* the set just lighter than the pick, or the lightest step left of it; walls NULL for none */
} frame_choice;

/* A set whose weight is the same as another's comes in the order of its parts and walls. frame_choice_close either way. */
void frame_choice_find(frame_choice *c, const frame_choice_question *q);
void frame_choice_close(frame_choice *c);

/* Gives each part its wall. Given: walls  one for each part. Status: as frame_parameter_set */
rbow_status frame_choice_apply(frame_problem *p, const frame_choice_question *q, const size_t walls[]);

#endif
