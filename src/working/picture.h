/* The data of the drawings of one load case: loads, shapes, moments along the tube, and column curves. */
#ifndef RAILBOW_WORKING_PICTURE_H
#define RAILBOW_WORKING_PICTURE_H

#include <railbow/member.h>

#include <stdbool.h>

enum { PICTURE_STATIONS = 161, PICTURE_SLENDERNESSES = 101, PICTURE_CURVES_MOST = RBOW_CURVE_COUNT };
enum { PICTURE_LOCKED_IN, PICTURE_LOADED, PICTURE_AT_LIMIT, PICTURE_STATES };

typedef struct picture_state { /* along the tube; NaN where there is no equilibrium */
    double factor;
    double moment[PICTURE_STATIONS]; /* in-lbf, magnitude */
    double up[PICTURE_STATIONS], right[PICTURE_STATIONS]; /* in, from the line between the joints, bow included */
} picture_state;

typedef struct picture_mark { /* a detail on the tube */
    double at;        /* in from A */
    const char *name;
    bool holds;
} picture_mark;

typedef struct picture { /* in the program's units */
    double length, weld_zone, dressed; /* in */
    double weld_ends[2];               /* where the weld zones end, see rbow_weld_zone_ends */
    rbow_tube_size weld_size;          /* of the tube there */
    bool free_b;
    const char *end_a, *end_b; /* words, or NULL for a stiffness */
    double compression, eccentricity; /* lbf, in */
    double eccentric[2];              /* in, of the push: up, right */
    double point[2], spread[2];       /* lbf, lbf/in: up, right; the weight under g is in the spread load */
    double point_at;
    double bow[2][PICTURE_STATIONS];  /* in, up and right: the stress-free shape */
    double bow_size, miss_a[2], miss_b[2], miss_a_size, miss_b_size, gap;
    double moment_a[2], moment_b[2], torque;
    const picture_mark *marks; /* of details on the tube, set by who has them; NULL for none */
    size_t mark_count;
    const char *governs; /* the check or detail that sets the margin, set by who knows it; NULL: nothing governs, or it is not said */
    double governs_at;   /* in from A; NaN where the tube gives way as a whole */

    double at[PICTURE_STATIONS];       /* in from A, ascending */
    picture_state states[PICTURE_STATES];
    double allowed[PICTURE_STATIONS];  /* in-lbf, at the limit of the check that governs; NaN where there is none */

    double slenderness[PICTURE_SLENDERNESSES];
    struct {
        const char *name;
        double stress[PICTURE_SLENDERNESSES];
    } curves[PICTURE_CURVES_MOST];
    size_t curve_count, curve; /* curve: that of the tube */
} picture;

/* Given: a case and its result by rbow_member_check. */
void picture_of(picture *p, const rbow_member *m, const rbow_material *k, const rbow_result *r);

#endif
