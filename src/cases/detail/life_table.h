/* The results of life, as a table, and how they are ranked and said. */
#ifndef RAILBOW_CASES_DETAIL_LIFE_TABLE_H
#define RAILBOW_CASES_DETAIL_LIFE_TABLE_H

#include "table/field.h"

#include <railbow/life.h>

#define LIFE_REMARK_JOINED(value, text) text "; "
#define LIFE_NO_CURVE "no curve given"
#define LIFE_LACKING "loads may be missing"
enum { LIFE_REMARKS_ROOM = sizeof(RBOW_LIFE_REMARK_LIST(LIFE_REMARK_JOINED) LIFE_NO_CURVE "; " LIFE_LACKING) };

typedef struct life_row { /* of one detail */
    const char *of;            /* the part; of a frame the tube */
    const char *detail, *curve;
    const char *most;          /* the case, or the run, that does most damage */
    const char *remarks;       /* life_remarks_write */
    rbow_life_result result;
    /* not in the table */
    const rbow_sn_curve *sn;
    bool lacking;              /* rows without an answer may be loads of this part: it may last less long */
    bool usual;                /* the curve is the usual one of its kind, since none is given */
    bool forced;               /* something is forced: a miss or a gap of the tube, or anywhere in the frame */
    size_t loads;              /* of a run, that were added up */
    rbow_detail given;         /* at a known place */
    rbow_life_result unforced; /* without misses and gap; NaN where it was not asked for */
} life_row;

/* The same columns, but for those that name the part and the case, or the tube and the run. */
extern const field_list life_list, frame_life_list; /* of life_row */

/* Given: r  its result, usual and lacking */
void life_remarks_write(char out[LIFE_REMARKS_ROOM], const life_row *r);

typedef struct life_place {
    double runs;
    size_t row;
} life_place;

/* What cracks first comes first: what has no number, then by runs, then as given. order: room for `count`. */
void life_rank(const life_row *rows, size_t count, life_place order[]);

typedef struct life_told { /* what text and page tell of */
    const life_row *rows;
    size_t count;
    const life_place *order;   /* by life_rank */
    const char *curves;        /* the file of the table of curves */
    const char *const *bare;   /* parts or tubes without a detail */
    size_t bare_count;
    bool of_frame;
    bool picked;               /* --case may have left out loads */
} life_told;

/* The one that the forced fit shortens most; NULL where it shortens none by a twentieth. */
const life_row *life_most_forced(const life_row *rows, size_t count);

/* Whether every one stands under one load alone: where load cases of one tube have no part in common, their damages are not added up. */
bool life_loads_are_single(const life_row *rows, size_t count);

/* How many have no number. */
size_t life_unknown(const life_row *rows, size_t count);

#endif
