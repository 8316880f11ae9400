/* The command line: one list of options for all commands. */
#ifndef RAILBOW_PROGRAM_OPTIONS_H
#define RAILBOW_PROGRAM_OPTIONS_H

#include "program/measure.h"
#include "table/unit.h"

#include <stdbool.h>
#include <stddef.h>

typedef enum output_format { FORMAT_AUTO, FORMAT_TEXT, FORMAT_CSV, FORMAT_JSON } output_format;

typedef enum pages_of { PAGES_SHORT, PAGES_ALL } pages_of; /* which cases have a sheet on the page */

typedef struct options {
    const char *output;       /* -o, NULL for stdout */
    output_format format;
    unit_system units;
    const char *materials;    /* NULL for the installed file */
    const char *material;
    double factor;
    bool factor_given;
    int jobs;
    const char *walls, *ods;
    const char *tube, *joint, *run; /* of a frame: whose column is meant, and what acts on a cut; NULL for none */
    const char *vary[2];
    int vary_count;
    const char *find, *from, *to; /* limit */
    double margin;
    const char *details;          /* table of details; NULL for none */
    const char *curves;           /* life; NULL for the installed file */
    const char *tolerances;       /* scatter */
    int samples, seed;
    int samples_before; /* of a part: how many are passed over */
    int scatter_of;     /* scatter_of */
    bool scatter_of_given;
    bool drivers;
    const char *spec, *cases;     /* inspect */
    measure gauge;                /* at = NULL: the default */
    const char **case_patterns, **part_patterns; /* of the load cases that are meant; options_free */
    size_t case_count, part_count;
    const char *stock;            /* sticks */
    measure kerf;                 /* at = NULL: the default */
    int *rows;         /* --row: lines of the load cases that are meant; options_free */
    const char **sets; /* --set: "COLUMN=VALUE"; options_free */
    size_t row_count, set_count;
    int steps;                    /* pull; 0 for none */
    const char *report, *title, *by, *note, *date; /* the page; NULL for none */
    bool working;                 /* the page shows and prints the working */
    int pages;                    /* PAGES_... */
    bool pages_given;
    double azimuth, elevation; /* deg: from where a frame is seen besides, on its page */
    bool view_given;
    bool live; /* the page has the engine in it */
    bool all; /* new: every column; check of a frame: every tube */
    bool frame, new_details; /* new */
    int of;     /* frame_of, of cut frame_cut_of */
    bool of_given;
    const char **tubes, **ats; /* cut: the pairs of --tube and --at; check: patterns of --tube; options_free */
    size_t tube_count, at_count;
    const char *moved, *moved_clock, *turned, *turned_clock, *opened; /* readings; NULL for none */
    const char *arch; /* the run; NULL for none */
    bool help, version;
    char **words;    /* the command line, while it is read */
    const char **said; /* "railbow", the command, its options and operands, as far as they bear on the answer; options_free */
    size_t said_count;
    char **operands; /* what is left: files or sizes */
    int operand_count;
} options;

enum { /* takes: the options that a command knows, besides --help */
    TAKES_OUTPUT = 1 << 0, /* -o, --format, --units */
    TAKES_TEXT = 1 << 12,  /* the same; text unless asked otherwise */
    TAKES_NEW = 1 << 13,
    TAKES_FRAME = 1 << 14,
    TAKES_PLACE = 1 << 15, /* of a frame: --tube, --joint, --run */
    TAKES_MATERIALS = 1 << 1,
    TAKES_MATERIAL = 1 << 2,
    TAKES_FACTOR = 1 << 3,
    TAKES_JOBS = 1 << 4,
    TAKES_WALLS = 1 << 5,
    TAKES_VARY = 1 << 6,
    TAKES_LIMIT = 1 << 7,
    TAKES_SCATTER = 1 << 8,
    TAKES_INSPECT = 1 << 9,
    TAKES_STEPS = 1 << 10,
    TAKES_REPORT = 1 << 11,
    TAKES_CUT = 1 << 16,
    TAKES_DETAILS = 1 << 17,
    TAKES_LIFE = 1 << 18,
    TAKES_STICKS = 1 << 19,
    TAKES_SHEETS = 1 << 20, /* of the page: --working, --pages */
    TAKES_VIEW = 1 << 21, /* of the page of a frame: --view */
    TAKES_LIVE = 1 << 24
};

/* Reads what follows the name of a command. Returned: false after a message on stderr. */
bool options_read(options *o, const char *command, unsigned takes, int argc, char **argv);

void options_free(options *o);

/* The walls that suppliers keep, each with its unit. */
extern const char options_stock_walls[], options_stock_ods[];

/* The options that a command takes, for help, in lines of so many columns. */
struct text;
void options_say(struct text *out, unsigned takes, size_t width);

typedef struct option_shown {
    const char *name;
    char letter;         /* 0 for none */
    const char *value;   /* "FILE", "text|csv|json"; NULL for none */
    const char *meaning; /* the same pointer for every command that it means the same to */
} option_shown;

/* The i-th option of a command. Returned: false past the last. */
bool options_at(unsigned takes, size_t i, option_shown *shown);

#endif
