/* The glossary: the words of the trade that an answer or a table uses. */
#ifndef RAILBOW_COMMAND_WORDS_H
#define RAILBOW_COMMAND_WORDS_H

#include <stddef.h>

typedef struct glossary_entry {
    const char *word;
    const char *meaning; /* one or two sentences */
} glossary_entry;

extern const glossary_entry glossary[]; /* in alphabetical order */
extern const size_t glossary_count;

/* The topic of help that prints it: 'railbow help words'. */
extern const char words_topic[];

#endif
