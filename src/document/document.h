/* The files that the build generates from the program's own lists: manual pages, completions for shells, the JSON schema. */
#ifndef RAILBOW_DOCUMENT_DOCUMENT_H
#define RAILBOW_DOCUMENT_DOCUMENT_H

#include "table/text.h"

/* Each function adds a whole file to `out`. Status: false after a message on stderr.
 * program: the railbow that was built. It runs in the current folder, and the manual prints its answers. */
bool manual_program(text *out, const char *program); /* railbow(1)       */
bool manual_cases(text *out, const char *program);   /* railbow-cases(5) */
bool completion_bash(text *out, const char *program);
bool completion_zsh(text *out, const char *program);
bool completion_fish(text *out, const char *program);
bool schema_json(text *out, const char *program);

#endif
