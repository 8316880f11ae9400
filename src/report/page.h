/* The page of an answer: one HTML file that opens from a disk, needs nothing else, and prints. */
#ifndef RAILBOW_REPORT_PAGE_H
#define RAILBOW_REPORT_PAGE_H

#include "report/check_table.h"
#include "report/working.h"

typedef struct page_head {
    const char *title, *by, *note, *date; /* NULL for none */
    size_t refused;                       /* rows without an answer                      */
    bool faults;                          /* something kept a verdict from being given   */
    unit_system units;
} page_head;

enum { PICTURE_STATIONS = 161, PICTURE_SLENDERNESSES = 101, PICTURE_CURVES_MOST = 10 };
enum { PICTURE_LOCKED_IN, PICTURE_LOADED, PICTURE_AT_LIMIT, PICTURE_STATES };

typedef struct picture_state { /* along the tube; NaN where there is no equilibrium */
    double factor;
    double moment[PICTURE_STATIONS]; /* in-lbf, size */
    double up[PICTURE_STATIONS], right[PICTURE_STATIONS]; /* in, from the line of the joints, bow included */
} picture_state;

typedef struct picture { /* a case as it is drawn; program's units */
    double length, weld_zone, dressed; /* in */
    bool free_b;
    const char *end_a, *end_b; /* words, or NULL for a stiffness */
    double compression, eccentricity; /* lbf, in */
    double point[2], spread[2];       /* lbf, lbf/in: up, right; the weight under g is in the spread load */
    double point_at;
    double bow[2][PICTURE_STATIONS];  /* in, up and right: the stress-free shape */
    double bow_size, miss_a[2], miss_b[2], miss_a_size, miss_b_size, gap;
    double moment_a[2], moment_b[2], torque;

    double at[PICTURE_STATIONS];       /* in from A, ascending */
    picture_state states[PICTURE_STATES];
    double allowed[PICTURE_STATIONS];  /* in-lbf, at the limit of the check that governs; NaN where there is none */

    double slenderness[PICTURE_SLENDERNESSES];
    struct {
        const char *name;
        double stress[PICTURE_SLENDERNESSES];
    } curves[PICTURE_CURVES_MOST];
    size_t curve_count, curve; /* the tube's own */
} picture;

void page_open(text *out, const page_head *head);
/* The verdict in a sentence and the table of cases. rows: count pointers, in the order of the file. */
void page_verdict(text *out, const page_head *head, const check_row *const row_at[], size_t count);
/* The card of one case; number: from 1. */
void page_card(text *out, const page_head *head, const check_row *r, size_t number, const picture *p, const working *w);
void page_close(text *out);

/* ---- between the files of the page ---- */

extern const char page_style[]; /* the style sheet */

/* A value with its unit, at most `digits` significant ones: "24 in". */
void page_value(text *out, double own, dimension d, unit_system units, int digits);

/* The deciding load factor of a row and the one asked of it. */
double page_reached(const check_row *r);
double page_asked(const check_row *r);

void page_section_drawing(text *out, const check_row *r, const picture *p, unit_system units);
void page_rail_drawing(text *out, const picture *p, unit_system units);
void page_moment_chart(text *out, const check_row *r, const picture *p, unit_system units);
void page_column_chart(text *out, const check_row *r, const picture *p, unit_system units);
void page_factor_chart(text *out, const check_row *r);
void page_working(text *out, const working *w);
void page_remarks(text *out, const check_row *r);

#endif
