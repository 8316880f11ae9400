/* The three tables of a frame, read from their folder. */
#ifndef RAILBOW_PROGRAM_FRAME_FRAME_READ_H
#define RAILBOW_PROGRAM_FRAME_FRAME_READ_H

#include "cases/frame_table.h"
#include "program/refused.h"
#include "program/rows.h"

enum { FRAME_FIELDS_MOST = 32 };

typedef struct frame_tables {
    const char *folder;        /* its name, for messages */
    char *paths[FRAME_TABLES]; /* of the files, for messages */
    rows tables[FRAME_TABLES]; /* the good rows */
    refused_rows refused[FRAME_TABLES]; /* the others */
    bool whole[FRAME_TABLES];  /* every row of the file is good, and there is one */
    const unit *units[FRAME_TABLES][FRAME_FIELDS_MOST]; /* of the columns, as the headers give them; NULL for none */
} frame_tables;

/* Given: folder  must outlive t. Returned: false after a message: no names for its files. frame_tables_close either way. */
bool frame_tables_name(frame_tables *t, const char *folder);

/* Given: t with names. Returned: whether all three are whole; false after messages on missing files and on every bad cell. */
bool frame_tables_read(frame_tables *t, int jobs);

void frame_tables_close(frame_tables *t);

/* "FOLDER/FILE" */
void frame_path(text *out, const char *folder, const char *file);

/* Whether a name on the command line is a folder. */
bool is_folder(const char *name);

#endif
