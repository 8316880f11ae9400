/* A study of a frame as a command: folder read, outputs opened, answered, written, closed. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_STUDY_H
#define RAILBOW_PROGRAM_FRAME_FRAME_STUDY_H

#include "program/facts.h"
#include "program/frame/frame_build.h"
#include "report/page/page.h"
#include "report/screen.h"
#include "study/frame_problem.h"

typedef struct frame_study frame_study;
struct frame_study {
    /* set by the command */
    const char *command;
    const char *title; /* of the page, where none is given */
    void *context;
    /* Returned: ALL_HOLD, SOME_SHORT, or NO_VERDICT after a message: nothing is then written. */
    int (*answer)(frame_study *s);
    void (*text)(frame_study *s, text *out, const screen *seen);
    bool (*write)(frame_study *s); /* CSV and JSON */
    void (*page)(frame_study *s, text *body, const page_head *head);
    /* there while it answers */
    const options *options;
    frame_build build;
    materials materials;
    frame_problem problem;
    run_facts facts;
    output out;
};

/* Given: folder  among the operands. Returned: the exit status. */
int frame_study_run(frame_study *s, const options *o, const char *folder);

typedef struct study_table {
    const char *name; /* in JSON */
    const field_list *list;
    const void *records;
    size_t count;
} study_table;

/* CSV: the table `of`. JSON: all of them. Returned: false after a message. */
bool frame_study_tables(frame_study *s, const study_table tables[], size_t count, size_t of);

#endif
