/* Where to weld the joints of a frame so that they are at their drawn places while a run acts. */
#ifndef RAILBOW_STUDY_FRAME_ARCH_H
#define RAILBOW_STUDY_FRAME_ARCH_H

#include <railbow/frame.h>

enum { ARCH_ROUNDS = 50 };
static const double arch_close = 1e-3; /* in: so near to its drawn place every joint comes */

typedef enum arch_state { ARCH_FOUND, ARCH_NO_STATE, ARCH_UNSETTLED, ARCH_NO_MEMORY } arch_state;

typedef struct frame_arch {
    double (*weld)[RBOW_AXES]; /* in, of each joint; the caller's */
    double left;               /* in, largest distance of a joint from its drawn place when the run acts */
    size_t joint;              /* the one so far from it */
    size_t new_clock;          /* a tube whose clocks count from another direction than before, because it is within 0.1 deg of
                                  vertical only before or only after; the number of tubes where there is none */
} frame_arch;

/* Masses, loads, misses, gaps and bows stay as they are, the directions of misses and bows in space too. A bow of unknown clock
 * points as in the check of the drawn frame.
 * Given: frame, run  without faults, held; arch  with room for `weld` */
arch_state frame_arch_find(const rbow_frame *frame, const rbow_frame_run *run, frame_arch *arch);

#endif
