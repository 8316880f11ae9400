/* Text for the man macros, escaped so that no word of a list is read as a request. */
#ifndef RAILBOW_DOCUMENT_ROFF_H
#define RAILBOW_DOCUMENT_ROFF_H

#include "table/text.h"

/* The title of the page. */
void roff_title(text *out, const char *name, int section);

void roff_section(text *out, const char *name);

/* Words within a line. */
void roff_words(text *out, const char *words);

/* A filled paragraph. */
void roff_paragraph(text *out, const char *words);

/* An entry of a list: a bold tag and its meaning. */
void roff_entry(text *out, const char *tag, const char *meaning);

/* Lines without filling, such as a command and its answer. */
void roff_lines(text *out, const char *lines);

/* A command as it is typed, and its answer. Status: false after a message if it could not be run. */
bool roff_example(text *out, const char *program, const char *command);

#endif
