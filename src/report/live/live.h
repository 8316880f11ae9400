/* What makes a report's page live: the program itself, compiled to WebAssembly, its materials and inputs, and the script that
 * works with them. It stands at the end of the page's body. Without script the page reads as the report that it is. */
#ifndef RAILBOW_REPORT_LIVE_LIVE_H
#define RAILBOW_REPORT_LIVE_LIVE_H

#include "table/text.h"

#include <stdbool.h>

/* Whether this program was built with the engine. */
bool live_is_built(void);

/* What a live page may do: run the script and the engine that are in it. It opens no connection. */
extern const char live_policy[];

/* Adds, in this order: live_open, then what the page was made from, a line each, then live_close.
 * live_word   a word of the command line
 * live_file   a file that the run read; kind: "input" or "materials" */
void live_open(text *out);
void live_word(text *out, const char *word);
void live_file(text *out, const char *kind, const char *name, const char *bytes, size_t n);
void live_close(text *out);

#endif
