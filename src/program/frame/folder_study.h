/* A study of a frame as a command: folder read, outputs opened, answered, written, closed. */
#ifndef RAILBOW_PROGRAM_FRAME_FOLDER_STUDY_H
#define RAILBOW_PROGRAM_FRAME_FOLDER_STUDY_H

#include "program/facts.h"
#include "program/frame/frame_build.h"
#include "report/page/page.h"
#include "report/screen.h"
#include "study/frame_problem.h"

typedef struct folder_study folder_study;
struct folder_study {
    /* set by the command */
    const char *command;
    const char *title; /* of the page, where none is given */
    const char *tolerance; /* what the numbers of the page are good for, as in page_head */
    void *context;
    /* Returned: ALL_HOLD, SOME_SHORT, or NO_VERDICT after a message: nothing is then written. */
    int (*answer)(folder_study *s);
    void (*text)(folder_study *s, text *out, const screen *seen);
    bool (*write)(folder_study *s); /* CSV and JSON */
    void (*page)(folder_study *s, text *body, const page_head *head);
    /* there while it answers */
    const options *options;
    frame_build build;
    materials materials;
    frame_problem problem;
    run_facts facts;
    output out;
};

/* Given: folder  among the operands. Returned: the exit status. */
int folder_study_run(folder_study *s, const options *o, const char *folder);

#endif
