/* What an answer rests on besides its rows: JSON and the page say it. */
#ifndef RAILBOW_REPORT_FACTS_H
#define RAILBOW_REPORT_FACTS_H

#include <stddef.h>

typedef struct run_facts {
    const char *version;
    const char *const *words; /* the command line, as far as it bears on the answer */
    size_t word_count;
    const char **inputs;      /* the files read, materials aside */
    size_t input_count;
    const char *(*sha256_of)(const char *input); /* of an input that was read whole, in hexadecimal; else "" */
    const char *materials;    /* the table's file; NULL where none is read */
    const char *materials_sha256;
    const char *curves;       /* the table of S-N curves, likewise */
    const char *curves_sha256;
} run_facts;

#endif
