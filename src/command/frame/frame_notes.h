/* What a frame is, how it is given and what is worked out: for help and for the manual. */
#ifndef RAILBOW_COMMAND_FRAME_FRAME_NOTES_H
#define RAILBOW_COMMAND_FRAME_FRAME_NOTES_H

#include <stddef.h>

typedef struct frame_note {
    const char *subject;
    const char *note; /* sentences */
} frame_note;

extern const frame_note frame_notes[]; /* in the order in which they are read */
extern const size_t frame_note_count;

/* The topic of help that prints them: 'railbow help frame'. */
extern const char frame_topic[];

#endif
