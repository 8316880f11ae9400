/* Weld zones: the stretches next to the joints that the weld has softened, and whose wall may be ground down (dressed). */
#ifndef RAILBOW_WELD_ZONE_H
#define RAILBOW_WELD_ZONE_H

#include <railbow/status.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_weld_zone {
    double zone;   /* in, >= 0: length of a zone, from a joint      */
    double length; /* in, > 0: of the tube                          */
    int free_b;    /* B is a free end, with no weld                 */
} rbow_weld_zone;

typedef struct rbow_tube_size {
    double od, wall; /* in */
} rbow_tube_size;

/* Where the zones end: at A's x < ends[0], at B's x > ends[1].
 * Given:    zone
 * Returned: ends  in from A; -INFINITY and INFINITY for a zone that is not there */
RBOW_API void rbow_weld_zone_ends(const rbow_weld_zone *zone, double ends[2]);

/* Whether a place lies in a weld zone; the ends of a zone do not.
 * Given:    zone
 *           x     in from A
 * Returned: 1 or 0 */
RBOW_API int rbow_weld_zone_has(const rbow_weld_zone *zone, double x);

/* The tube that is left where the weld was dressed: the grinding takes its wall off outside.
 * Given:    tube
 *           dressed  in, >= 0: wall taken off
 * Returned: od less 2 dressed, wall less dressed; not checked: rbow_section_of does */
RBOW_API rbow_tube_size rbow_weld_zone_size(rbow_tube_size tube, double dressed);

#ifdef __cplusplus
}
#endif

#endif
