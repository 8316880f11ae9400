/* The tables of a frame: joints, tubes, loads. */
#ifndef RAILBOW_CASES_FRAME_TABLE_H
#define RAILBOW_CASES_FRAME_TABLE_H

#include "table/field.h"

#include <railbow/frame.h>

typedef struct joint_row {
    const char *name, *note;
    rbow_frame_joint joint;
    size_t line; /* of the file, as in the other two; no column */
} joint_row;

typedef struct frame_tube_row {
    const char *name, *part, *from, *to, *material, *note;
    rbow_frame_tube tube; /* its joints and material are set by whoever knows the other tables */
    size_t line;
} frame_tube_row;

typedef struct frame_load_row {
    const char *run, *joint, *tube, *note;
    rbow_frame_load load; /* what it acts on likewise */
    double factor, factor_yield;          /* RBOW_UNSET where the row gives none */
    double cycles, cycle_low, cycle_high; /* for life; likewise */
    size_t line;
} frame_load_row;

extern const field_list joint_list, frame_tube_list, frame_load_list; /* of these records */

/* What the load of a column may act on: bits 1 << rbow_acts; 0 for a column that is no load. */
unsigned frame_load_acts(const field *f);

/* Whether a column of a load is for life alone. */
bool frame_load_is_for_life(const field *f);

/* The part of a tube: its own name where none is given. */
const char *frame_tube_part(const frame_tube_row *t);

typedef struct listed_tube { /* a tube as it was read, for the command cases */
    frame_tube_row given; /* every default resolved; NaN for the clock of a miss that is not there */
    double length;        /* in, joint to joint */
    double line;          /* of the file */
} listed_tube;

typedef struct listed_tube_columns {
    field fields[32];
    field_list list; /* of listed_tube: the columns of tubes.csv, then length and line */
    field_list rows; /* the same without line */
} listed_tube_columns;

/* A filled list points into itself: do not copy it. */
void listed_tube_columns_fill(listed_tube_columns *l);

/* The files of a frame in its folder, in the order of the tables above. */
enum { FRAME_JOINTS, FRAME_TUBES, FRAME_LOADS, FRAME_TABLES };
extern const char *const frame_files[FRAME_TABLES];
extern const field_list *const frame_lists[FRAME_TABLES];

#endif
