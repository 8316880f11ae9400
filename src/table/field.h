/* Field lists: each table that goes in or out is described once, as a list of fields.
 * Reader, writers, help, manual, and the studies go through these lists; no column name is typed twice.
 *
 * A record is a plain struct; a field says where in it the value lives and how it looks in a file.
 * Values are kept in the program's own units (inch, lbf, psi, lb, radian); files carry their unit in
 * the header, in brackets. */
#ifndef RAILBOW_TABLE_FIELD_H
#define RAILBOW_TABLE_FIELD_H

#include "table/unit.h"

#include <stdbool.h>
#include <stddef.h>

typedef enum field_kind {
    FIELD_TEXT,   /* const char *; never NULL once read: an absent one is ""            */
    FIELD_WORD,   /* int, one of the words                                              */
    FIELD_NUMBER, /* double                                                             */
    FIELD_EITHER, /* double: a number, or one of the words (which stand for doubles)    */
    FIELD_SET     /* int: any of the words, separated by blanks; each stands for bits   */
} field_kind;

typedef struct field_word {
    const char *word;
    double value; /* what it stands for in the record */
} field_word;

enum { /* field.rule */
    FIELD_REQUIRED = 1,  /* the column must be there and the cell must not be empty                */
    FIELD_ABOVE = 2,     /* a number must lie above `least`, not on it                             */
    FIELD_BELOW = 4,     /* a number must lie below `most`, not on it                              */
    FIELD_LISTED = 16    /* the cell must not be empty if the column is there, and may be left out */
};

typedef struct field {
    const char *name;
    field_kind kind;
    dimension dimension;
    size_t offset;          /* of the value in the record                                       */
    double fallback;        /* what an empty cell means, in the program's units                 */
    double least, most;     /* bounds of a number, in the program's units; ±INFINITY for none   */
    int rule;
    const field_word *words; /* ends with a NULL word; NULL for none                            */
    const char *fallback_text; /* the default in help, "" for none                              */
    const char *meaning;    /* one line                                                         */
    const char *stranger, *instead; /* the name that a like table has for it, and what a message says to that; NULL for none */
    const char *refused, *advised; /* a word that a like table takes in its cells, and what a message says to that; NULL for none */
} field;

typedef struct field_list {
    const char *what;       /* what a row is, for messages: "load case", "material"             */
    const field *fields;
    size_t count;
    size_t record_size;
} field_list;

/* The field of that name (case ignored), or NULL. */
const field *field_find(const field_list *list, const char *name);

/* The known name nearest to `name`, or NULL where none is near. */
const char *field_nearest(const field_list *list, const char *name);

/* The same for the words of one field. */
const char *field_nearest_word(const field *f, const char *word);

/* The number of a field in a record (FIELD_NUMBER and FIELD_EITHER only). */
double field_get(const field *f, const void *record);
void field_set(const field *f, void *record, double value);

/* Stores what a word stands for (FIELD_WORD and FIELD_EITHER), or all bits of a FIELD_SET. */
void field_set_word(const field *f, void *record, double value);

/* The text of a field (FIELD_TEXT), or the word that stands for the value
 * (FIELD_WORD, FIELD_EITHER, FIELD_SET), or NULL where the value is a plain number or several words. */
const char *field_text(const field *f, const void *record);

/* Fills a record with every field's fallback ("" for texts). */
void field_defaults(const field_list *list, void *record);

/* Whether a number satisfies a field's bounds (false for NaN and infinities), and the bounds in words
 * for a message, in the named unit: "must be above 0", "must lie between -90 and 90 deg". */
bool field_allows(const field *f, double value);
struct text;
void field_say_bounds(struct text *out, const field *f, const unit *shown_in);

#endif
