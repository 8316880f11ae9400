/* Messages for people, on stderr. */
#ifndef RAILBOW_PROGRAM_SAY_H
#define RAILBOW_PROGRAM_SAY_H

/* "railbow: ..." and a line's end. */
void say(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* Finished lines, each with "railbow: " put before it. */
void say_lines(const char *lines);

/* At the end of a run: how many messages of each kind were not shown, for at most twenty are. */
void say_rest(void);

#endif
