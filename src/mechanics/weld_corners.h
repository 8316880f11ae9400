/* The stiffness of a welded joint lies between a soft spring and a rigid one. Two welded ends make four corners. */
#ifndef RAILBOW_MECHANICS_WELD_CORNERS_H
#define RAILBOW_MECHANICS_WELD_CORNERS_H

#include <railbow/column.h>

enum { CORNERS_MOST = 4 };

typedef struct weld_corner {
    double end_a, end_b; /* RBOW_WELDED replaced by RBOW_SOFT_WELD or RBOW_STIFF_WELD */
    int joints;          /* rbow_joints; of one welded end alone: soft or stiff */
} weld_corner;

/* Given:    end_a, end_b  as in rbow_member
 * Returned: corners       soft before stiff, end A counting more: the order in which ties are decided; how many */
int rbow_weld_corners(double end_a, double end_b, weld_corner corners[CORNERS_MOST]);

#endif
