/* A frame put together from its three tables: names become joints and tubes, rows of one name a run. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_BUILD_H
#define RAILBOW_PROGRAM_FRAME_FRAME_BUILD_H

#include "cases/frame_results.h"
#include "program/frame/frame_names.h"
#include "program/frame/frame_read.h"
#include "program/materials.h"
#include "program/options.h"

typedef struct frame_build {
    frame_tables tables;
    frame_names joint_names, tube_names;
    rbow_frame_joint *joints; /* what frame and runs point to */
    rbow_frame_tube *tubes;
    rbow_frame_load *loads;   /* those of a run together */
    size_t *load_rows;        /* of each load: its row in loads.csv */
    frame_run_row *runs;
    frame_model model;
    bool references;          /* every joint and tube that a row names is there */
    size_t own_factors;       /* rows for which --factor does nothing */
} frame_build;

/* Reads the folder's tables and puts the frame together.
 * Given:    m  materials
 * Returned: false after messages on everything that is wrong with the frame and its runs. frame_build_close either way. */
bool frame_build_open(frame_build *b, const char *folder, const options *o, const materials *m);
void frame_build_close(frame_build *b);

#endif
