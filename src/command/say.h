/* Messages for people, on stderr. */
#ifndef RAILBOW_COMMAND_SAY_H
#define RAILBOW_COMMAND_SAY_H

/* "railbow: ..." and a line's end. */
void say(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* Finished lines, each with "railbow: " put before it. */
void say_lines(const char *lines);

/* What becomes the exit status; the larger counts. */
enum { ALL_HOLD = 0, SOME_SHORT = 1, NO_VERDICT = 2 };

#endif
