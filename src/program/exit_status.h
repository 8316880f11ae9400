/* What becomes the exit status; the larger counts. */
#ifndef RAILBOW_PROGRAM_EXIT_STATUS_H
#define RAILBOW_PROGRAM_EXIT_STATUS_H

enum { ALL_HOLD = 0, SOME_SHORT = 1, NO_VERDICT = 2 };

static inline int worse_status(int a, int b)
{
    return a > b ? a : b;
}

#endif
