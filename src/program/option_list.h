/* Every option of every command: its name, who takes it, and how its value is taken. */
#ifndef RAILBOW_PROGRAM_OPTION_LIST_H
#define RAILBOW_PROGRAM_OPTION_LIST_H

#include "program/options.h"

typedef struct option_entry {
    const char *name, *dashed;
    char letter; /* 0 for none */
    unsigned of; /* which group of what commands take; 0 for every command */
    const char *value; /* NULL for none */
    bool (*take)(options *o, const char *value);
    const char *meaning;
} option_entry;

enum { OPTION_ENTRIES = 62 };
extern const option_entry option_entries[OPTION_ENTRIES];

/* Whether a word was meant as a list of sizes rather than as a file: a number, then perhaps a unit. */
bool option_is_list(const char *word);

/* Whether its value may be left out, or follow as a word that `take` finds itself. */
bool option_may_stand_alone(const option_entry *e);

#endif
