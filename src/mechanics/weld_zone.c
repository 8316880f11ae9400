#include <railbow/weld_zone.h>

#include <math.h>

void rbow_weld_zone_ends(const rbow_weld_zone *z, double ends[2])
{
    ends[0] = z->zone > 0 ? z->zone : (double)-INFINITY;
    ends[1] = z->zone > 0 && !z->free_b ? z->length - z->zone : (double)INFINITY;
}

int rbow_weld_zone_has(const rbow_weld_zone *zone, double x)
{
    double ends[2];
    rbow_weld_zone_ends(zone, ends);
    return x < ends[0] || x > ends[1];
}

rbow_tube_size rbow_weld_zone_size(rbow_tube_size tube, double dressed)
{
    return (rbow_tube_size){tube.od - 2 * dressed, tube.wall - dressed};
}
