/* The results of scatter and index on a frame as tables. */
#ifndef RAILBOW_CASES_FRAME_SPREAD_TABLE_H
#define RAILBOW_CASES_FRAME_SPREAD_TABLE_H

#include "cases/scatter_table.h"

#include <railbow/frame.h>
#include <stdbool.h>

typedef struct frame_scatter_row { /* the frame, with one driver */
    scatter_row all;          /* its drivers' names: "miss_a of rail UL 2" */
    const char *worst_tube;   /* "" for none */
    double worst_share;
    const char *driver_of;    /* the joint or tube; "" for none */
} frame_scatter_row;

typedef struct frame_worst_row { /* how often a tube has the lowest margin */
    const char *tube, *part;
    double samples, share; /* of those that are judged */
    size_t row;            /* of the tube; no column */
} frame_worst_row;

typedef struct frame_sample_row {
    double sample; /* its number, from 1 */
    double margin;
    const char *worst_tube, *run;
    const char *governs; /* name of the check or of the detail */
    const char *refused_column, *refused_why; /* "" where it is judged */
} frame_sample_row;

typedef struct frame_index_row { /* a tube with a bow; margins are of the frame */
    const char *tube, *part;
    double bow, marked_clock, best_clock, gained;
    double margin_as_marked, best_margin;
} frame_index_row;

/* The answers as text and page show them. */
typedef struct frame_scatter_shown {
    const frame_scatter_row *rows; /* by falling share of their drivers */
    const frame_worst_row *tubes;  /* the most frequent first */
    size_t count, tube_count;
    size_t columns;      /* numbers that vary */
    size_t clocks;       /* of them: clocks of misses that were not given */
    double chance;       /* a share of a driver under this may be chance */
    size_t first;        /* number of the first sample, from 1 */
    bool every_tube;     /* not the first alone */
    unsigned seed;
} frame_scatter_shown;

typedef struct frame_index_shown {
    const frame_index_row *rows;
    size_t count, rounds;
    double before, after; /* lowest margins of the frame */
    const char *worst_before, *worst_after, *run_before, *run_after; /* "" for no tube */
} frame_index_shown;

extern const field_list frame_scatter_list, frame_worst_list, frame_samples_list, frame_index_list;

extern const field_list frame_scatter_summary, frame_scatter_drivers; /* parts of the first, for the page */

/* Which of the answers of scatter. */
typedef enum scatter_of { SCATTER_OF_FRAME, SCATTER_OF_TUBES, SCATTER_OF_SAMPLES } scatter_of;

#endif
