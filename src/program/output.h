/* Where the answer goes: stdout, or a file that appears whole or not at all. */
#ifndef RAILBOW_PROGRAM_OUTPUT_H
#define RAILBOW_PROGRAM_OUTPUT_H

#include "program/options.h"
#include "table/text.h"

typedef struct output {
    const char *target; /* as the user named it; NULL for stdout */
    char *path;         /* the file behind it, links followed    */
    char *draft;        /* written first, then renamed; NULL when bytes go straight to a device or stdout */
    char *fresh;        /* a new file that goes again where it is not finished; NULL for none */
    int file;
    bool replaces;      /* a file stands at the path already */
    bool incomplete;    /* rows are missing: a file that stands there already stays as it is */
    bool failed;        /* a message was given */
    bool answered;      /* at least one row came out */
    output_format format;
    unit_system units;
    bool colour;
    size_t width;       /* columns of the terminal; 80 where there is none */
    bool guards;        /* rows go to a terminal: controls in them are shown as escapes */
    bool drop_comma;    /* the next byte is a comma with nothing before it */
} output;

/* Status of all: false after a message on stderr. No output is opened over a file that the command line says is read. */
bool output_open(output *out, const options *o);
/* The page that --report names, beside an answer that is open. */
bool output_open_beside(output *out, const output *first, const options *o);
/* A file that is not there yet. */
bool output_open_fresh(output *out, const char *file);
bool output_write(output *out, const char *bytes, size_t n);
/* Writes a text and empties it. */
bool output_text(output *out, text *t);
/* Makes a finished file appear, or with keep = false leaves what was there before. */
bool output_close(output *out, bool keep);

#endif
