/* What a frame is put together from, and what it becomes. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_PARTS_H
#define RAILBOW_PROGRAM_FRAME_FRAME_PARTS_H

#include "cases/frame_results.h"
#include "program/details.h"
#include "program/frame/frame_names.h"
#include "program/frame/frame_read.h"
#include "program/materials.h"
#include "program/options.h"
#include "study/frame_details.h"

typedef struct frame_build {
    frame_tables tables;
    frame_names joint_names, tube_names;
    rbow_frame_joint *joints; /* what frame and runs point to */
    rbow_frame_tube *tubes;
    rbow_frame_load *loads;   /* those of a run together */
    size_t *load_rows;        /* of each load: its row in loads.csv */
    frame_run_row *runs;
    frame_model model;
    details detail_table;     /* as read; count 0 for none */
    char *detail_path;
    frame_detail *detail_list; /* each with its tube */
    frame_details details;
    bool sound;               /* nothing is wrong with frame, runs and details */
    bool references;          /* every joint and tube that a row names is there */
    size_t own_factors;       /* rows for which --factor does nothing */
} frame_build;

#endif
