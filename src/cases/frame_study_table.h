/* The results of compare, sweep and limit on a frame as tables. */
#ifndef RAILBOW_CASES_FRAME_STUDY_TABLE_H
#define RAILBOW_CASES_FRAME_STUDY_TABLE_H

#include "cases/limit_table.h"
#include "cases/sweep_table.h"
#include "table/text.h"

typedef struct frame_weakest { /* of all tubes in all runs */
    double margin;
    const char *tube, *run; /* "" where no tube has a limit */
    const char *governs;    /* name of the check or of the detail */
    int verdict;            /* rbow_verdict */
} frame_weakest;

/* ---- compare ---- */

enum { FRAME_SET_ALL, FRAME_SET_PICK };

typedef struct frame_compare_row { /* all: a wall for all tubes; pick: a part of the lightest set that holds */
    int set;
    const char *part; /* of the pick */
    double wall, weight, weight_change; /* in, lb; the change is from the frame, or the part, as given */
    frame_weakest weakest;              /* of all tubes, or of the part */
    const char *verdict;                /* holds, short, or not possible and why */
    /* not in the table */
    double wall_given; /* in, of the part; NaN where its tubes differ */
    size_t tubes;      /* of the part */
    bool possible;
} frame_compare_row;

typedef struct frame_compare_set { /* lb */
    double weight;
    frame_weakest weakest;
    bool known; /* it is there, and has an answer */
} frame_compare_set;

typedef struct frame_comparison { /* what the rows do not say */
    const frame_compare_row *rows;
    size_t walls, parts;   /* rows of each wall, then of each part of the pick, if there is one */
    bool picked, descended;
    size_t sets;
    frame_compare_set given, pick, next; /* next: the set just lighter than the pick */
    const double *next_walls;            /* of its parts, in their order */
} frame_comparison;

extern const field_list frame_compare_list; /* of frame_compare_row */

/* ---- sweep ---- */

typedef struct frame_sweep_row {
    double value[SWEEP_COLUMNS_MOST];
    frame_weakest weakest;
    size_t at; /* not in the table: number of the combination */
} frame_sweep_row;

/* The varied columns come first, under their own names. */
void frame_sweep_columns_fill(sweep_columns *s, const field *const varied[], size_t count);

typedef struct frame_sweep_asked {
    const char *what, *name; /* tube, joint or run, and which */
    const field *column[SWEEP_COLUMNS_MOST];
    size_t columns;
    double now[SWEEP_COLUMNS_MOST]; /* NaN where there is no one present value */
    const field_list *list;
    size_t judged, tubes;    /* of the tubes: how many are judged, of how many */
} frame_sweep_asked;

/* What holds or is short: "the frame", or "the judged part (2 of 50 tubes)". */
void frame_sweep_subject(text *out, const frame_sweep_asked *asked);

/* ---- limit ---- */

typedef struct frame_limit_row {
    const char *name, *column;
    limit_answer found;
    double now, room;      /* in the column's unit; NaN where several loads differ */
    frame_weakest weakest; /* what gives way just past the limit */
    /* not in the table */
    bool before, short_now; /* as in limit_row */
} frame_limit_row;

typedef struct frame_limit_columns {
    field fields[9];
    field_list list;
} frame_limit_columns;

/* Given: column, for the unit; what  name of the first column: tube, joint, loads */
void frame_limit_columns_fill(frame_limit_columns *l, const field *column, const char *what);

/* Whether the present value is past its limit, or the frame is short at the start of the range or as it stands. */
bool frame_limit_is_past(const frame_limit_row *r);

typedef struct frame_limit_asked {
    const char *what;
    const field *column;
    double from, to, margin;
    const field_list *list;
} frame_limit_asked;

#endif
