/* The parts of a detail in its longitudinal section: boxes and triangles to scale. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_DETAIL_SCENE_H
#define RAILBOW_REPORT_PAGE_DETAIL_DETAIL_SCENE_H

#include "report/page/detail/detail_shapes.h"
#include "working/detail_working.h"

enum { PART_TUBE, PART_OTHER, PART_BASE, PART_WELD }; /* base: what the tube is welded to, which the check does not know */

typedef struct scene_part {
    int kind;
    spot at[4]; /* in inches: along the tube, and up from its axis */
    size_t count;
} scene_part;

enum { SCENE_PARTS_MOST = 40 };

typedef struct scene {
    scene_part parts[SCENE_PARTS_MOST];
    size_t count;
    double left, right; /* what is to be seen of the tube, in inches from the butt, mouth or weld */
    double high;        /* half of the height that is filled */
    spot mouth;         /* the root of the weld in the upper wall: what is enlarged */
    double tube_od, tube_wall, other_od, other_wall; /* other: NaN without a sleeve or stub */
    double throat, ring_od;    /* NaN without a ring weld that is calculated */
    spot throat_foot;          /* where the throat meets the face of the fillet */
    bool fillet;               /* the weld is a fillet; else it fills the gap of a butt */
} scene;

/* Given: d  a sleeve, socket or ring weld; toward  +1 where the tube goes to the right of the weld, -1 to the left */
scene scene_of(const detail_worked *d);

/* The sleeve's or socket's overlap, and where it stands: from, to along the tube. */
void scene_overlaps(const detail_worked *d, double from[2], double to[2], size_t *count);

#endif
