#include "mechanics/weld_corners.h"

#include "mechanics/restraint.h"

int rbow_weld_corners(double end_a, double end_b, weld_corner corners[CORNERS_MOST])
{
    static const double weld[2] = {RBOW_SOFT_WELD, RBOW_STIFF_WELD};
    static const int names[2][2] = {{RBOW_JOINTS_SOFT, RBOW_JOINTS_SOFT_STIFF}, {RBOW_JOINTS_STIFF_SOFT, RBOW_JOINTS_STIFF}};
    const bool open_a = end_is(end_a, RBOW_WELDED), open_b = end_is(end_b, RBOW_WELDED);
    int count = 0;
    for (int a = 0; a <= open_a; a++)
        for (int b = 0; b <= open_b; b++)
            corners[count++] = (weld_corner){
                .end_a = open_a ? weld[a] : end_a,
                .end_b = open_b ? weld[b] : end_b,
                .joints = open_a || open_b ? names[open_a ? a : b][open_b ? b : a] : RBOW_JOINTS_NONE,
            };
    return count;
}
