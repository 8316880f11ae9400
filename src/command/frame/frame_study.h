/* A study of a frame: its folder read, output and page opened, rows, text and page written. */
#ifndef RAILBOW_COMMAND_FRAME_FRAME_STUDY_H
#define RAILBOW_COMMAND_FRAME_FRAME_STUDY_H

#include "cases/frame_study_table.h"
#include "program/frame/frame_build.h"
#include "program/frame/frame_column.h"
#include "program/progress.h"
#include "report/page/page.h"
#include "report/screen.h"
#include "study/frame_problem.h"

typedef struct frame_study frame_study;
struct frame_study {
    /* set by the command */
    const char *command, *title; /* title: of the page */
    const options *options;
    void *state;
    bool picks; /* --case and --part pick the tubes that are judged; else they are refused */
    /* Reads the options that need the frame. Returned: false after a message. */
    bool (*ask)(frame_study *s);
    bool asks_once; /* set by ask: a margin is asked for once, and the run that is likely the worst is not looked for before */
    /* Sets list, rows, count, refused. Returned: the exit status; after NO_VERDICT with rows NULL nothing is written. */
    int (*answer)(frame_study *s);
    void (*text)(const frame_study *s, text *out, const screen *shown_on);
    void (*page)(const frame_study *s, text *out, const page_head *head);

    /* set by answer */
    const field_list *list;
    const void *rows;
    size_t count;
    size_t refused; /* rows that should be there */

    /* set here */
    frame_build build;
    materials materials;
    frame_problem problem;
    bool *judged;        /* of each tube; NULL: all are */
    size_t judged_count;
    progress progress;
};

/* Returned: the exit status. */
int frame_study_run(frame_study *s, const char *folder);

/* For the searches: shows how far they are. context: the study */
bool frame_study_go_on(void *context, size_t done);

/* Says that Ctrl-C ended the work. */
void frame_study_say_stopped(const frame_study *s);

/* The names of a margin's tube and run. */
frame_weakest frame_study_weakest(const frame_study *s, const frame_lowest *lowest);

/* One message on the row that a column stands in. */
void frame_study_refuse(const frame_study *s, const frame_place *place, const frame_column *c, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* What a status says of its input: "od must be above 0". */
void frame_study_put_status(text *out, rbow_status status);

#endif
