/* The names of joints or tubes, to be found fast. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_NAMES_H
#define RAILBOW_PROGRAM_FRAME_FRAME_NAMES_H

#include <stdbool.h>
#include <stddef.h>

typedef struct frame_name {
    const char *name;
    size_t row;
} frame_name;

typedef struct frame_names {
    frame_name *sorted; /* by name, then by row */
    size_t count;
    int guesses; /* nearest names that were looked for */
} frame_names;

/* Given:    records  `count` of them, `stride` bytes apart; each begins with the pointer to its name
 * Returned: false where memory ran out. frame_names_close either way. */
bool frame_names_open(frame_names *n, const void *records, size_t count, size_t stride);
void frame_names_close(frame_names *n);

/* The first row of that name, or SIZE_MAX. */
size_t frame_names_find(const frame_names *n, const char *name);

/* The nearest name; NULL where none is near, or after so many questions that nobody reads the answer. */
const char *frame_names_nearest(frame_names *n, const char *name);

#endif
