/* The materials table: found, read whole, and asked for the row that serves a tube. */
#ifndef RAILBOW_PROGRAM_MATERIALS_H
#define RAILBOW_PROGRAM_MATERIALS_H

#include "program/pipeline.h"

#include <railbow/material.h>

typedef struct materials {
    char *file; /* its name, for messages */
    char sha256[SHA256_DIGITS + 1]; /* of its bytes */
    const rbow_material *list;
    size_t count;
    rows kept; /* what list points into */
} materials;

/* Given: file, or NULL for the table in the data folder (data_folder.h). Returned: false after messages. */
bool materials_open(materials *m, const char *file);
void materials_close(materials *m);

/* The row for a tube; NULL after adding a message, with what there is, to complaints. */
const rbow_material *materials_for(const materials *m, const char *name, double wall, const source_line *at,
                                   text *complaints);

#endif
