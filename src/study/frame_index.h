/* The best clocks of all bows of a frame together. */
#ifndef RAILBOW_STUDY_FRAME_INDEX_H
#define RAILBOW_STUDY_FRAME_INDEX_H

#include "study/frame_problem.h"

typedef struct frame_turn { /* of a tube with a bow */
    size_t tube;
    double marked, best; /* rad; RBOW_ANY_CLOCK where it was not known, and where no clock does better */
    double gained;       /* margin of the frame, over all rounds */
} frame_turn;

typedef struct frame_index_answer {
    frame_lowest before, after;
    frame_turn *turns; /* in the order of the tubes */
    size_t count, rounds;
    bool stopped;
} frame_index_answer;

typedef struct frame_index_question {
    int jobs;
    /* is called after each tube with the round, from 1, and the tubes done in it of all with a bow; stops if it returns false;
     * NULL for none */
    bool (*go_on)(void *context, size_t round, size_t done, size_t all);
    void *context;
} frame_index_question;

/* A descent, tube by tube, from the tube with the lowest margin: each bow turns through clocks 15 degrees apart, then 1 degree beside the
 * best of them (beside its clock where none gains), while the others stay, and keeps the clock with the highest margin of the frame if
 * that gains 1e-4. Rounds over all tubes end with one that gains less than 1e-4. Another set of clocks may be better.
 * Status:   RBOW_OK | as frame_problem_margin, of the frame as given | RBOW_NO_MEMORY. frame_index_free whatever the status. */
rbow_status frame_index_find(const frame_problem *p, const frame_index_question *q, frame_index_answer *answer);
void frame_index_free(frame_index_answer *answer);

#endif
