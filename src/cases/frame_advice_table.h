/* What to do about a frame that is short. */
#ifndef RAILBOW_CASES_FRAME_ADVICE_TABLE_H
#define RAILBOW_CASES_FRAME_ADVICE_TABLE_H

#include "cases/check_table.h"

enum { ADVICE_OD = ADVICE_COLUMNS }; /* a column that the advice for a frame may change beside those of a load case */

typedef struct frame_advice_row { /* one change alone; the tube then holds in every run */
    const char *tube;          /* the short one */
    const char *changed;       /* the tube whose column is changed */
    int column;                /* ADVICE_... */
    double now, to;            /* in */
    double margin;             /* of the tube with the change, the lowest of all runs */
    double frame_margin;       /* the lowest of all tubes with the change */
    int enough;                /* 1: all tubes of the frame then hold */
    const char *still_short;   /* the tube with that margin where it is not enough; "" */
    bool fell;                 /* not in the table: that tube holds without the change */
} frame_advice_row;

extern const field_list frame_advice_list; /* of frame_advice_row */

enum { FRAME_ADVICE_MOST = 2 };

typedef struct frame_advice { /* all of its rows are enough for the frame, or none is */
    frame_advice_row rows[FRAME_ADVICE_MOST];
    size_t count;
    const char *tube; /* the short one for which something was looked for; NULL: nothing was */
    bool detailed;    /* it has details, which limit it, too; its diameter was left as it is */
    bool cut_short;   /* not every change was tried */
    bool lost;        /* memory ran out: nothing is known */
} frame_advice;

#endif
