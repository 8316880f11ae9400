/* What makes the worst tube of a frame hold: a smaller miss, gap or bow, a heavier wall or a larger diameter. */
#ifndef RAILBOW_STUDY_FRAME_ADVICE_H
#define RAILBOW_STUDY_FRAME_ADVICE_H

#include "cases/frame_advice_table.h"
#include "cases/frame_results.h"
#include "study/frame_problem.h"

typedef struct frame_advice_question {
    const frame_problem *problem; /* its first_run: the one in which the tube is worst */
    const frame_model *model;     /* for the names of the tubes */
    size_t tube;                  /* the worst one */
    const double *walls, *ods;    /* in, ascending: those that may be had */
    size_t wall_count, od_count;
    double miss_step, step;       /* in: a permitted miss is a multiple of the first, a gap and a bow one of the second */
    int jobs;
} frame_advice_question;

/* Every change is tried alone: the misses and gaps of all tubes, the bow of the tube, walls heavier than its own, and up to three larger
 * diameters where the tube has no detail (a detail is made for a diameter). A permitted miss, gap or bow is the largest multiple of its
 * step below the present value at which the tube holds, as it does at 16 multiples spread evenly below (all of them where there are no
 * more) and at the next smaller one; the next larger one was found short. If the whole frame holds with 0, the same search is made with
 * the whole frame; if it does not, but holds at the value, the change is left out: who does more than it asks makes another tube short.
 * One that is 0 is left out: nobody can build that.
 * Margins count as holding from 1e-5 on, so that a full check agrees.
 * The work is bounded: by 40000/(tubes times runs) margins or 60, whichever is more; a->cut_short says where that was not enough. Half
 * of them at most go into the question which miss helps most: those of the tube are asked first, then those of its neighbours.
 * Returned: a  two changes at most, such that are enough for the whole frame if there is one, those of the fit before the size; the
 *              names are those of the model. Without a change where the tube holds */
void frame_advice_find(frame_advice *a, const frame_advice_question *q);

#endif
