/* Unfinished files, and a new folder for them, that a signal has to take away: at most four at a time. */
#ifndef RAILBOW_PROGRAM_DRAFTS_H
#define RAILBOW_PROGRAM_DRAFTS_H

/* Between these two no such signal arrives: a file is made and expected without a gap. */
void drafts_hold_signals(void);
void drafts_release_signals(void);

/* From here to draft_forget, a signal that ends the program removes the file first. `path` must stay where it is. */
void draft_expect(char *path);
void draft_forget(const char *path);

#endif
