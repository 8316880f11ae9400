/* Text for the man macros: what users and lists wrote, safe from being taken as a request. */
#ifndef RAILBOW_DOCUMENT_ROFF_H
#define RAILBOW_DOCUMENT_ROFF_H

#include "table/text.h"

/* The page's head. */
void roff_title(text *out, const char *name, int section);

void roff_section(text *out, const char *name);

/* Words inside a line. */
void roff_words(text *out, const char *words);

/* A filled paragraph. */
void roff_paragraph(text *out, const char *words);

/* An entry of a list: a bold tag, and what it means. */
void roff_entry(text *out, const char *tag, const char *meaning);

/* Lines as they are, such as a command and its answer. */
void roff_lines(text *out, const char *lines);

/* A command as typed, and what it answers. Status: false after a message: it could not be run. */
bool roff_example(text *out, const char *program, const char *command);

#endif
