#include "report/page/detail/detail_drawing.h"

#include "report/page/detail/detail_hole_drawing.h"
#include "report/page/detail/detail_scene_drawing.h"
#include "report/page/detail/detail_sheet.h"
#include "report/page/parts.h"

#include <math.h>

static void put_place(text *out, const detail_worked *d, unit_system units)
{
    if (d->detail->at <= 0) {
        text_put(out, "At joint A");
    } else if (d->detail->at >= d->member->length) {
        text_put(out, "At joint B");
    } else {
        put_size(out, d->detail->at, units);
        text_put(out, " from joint A");
    }
    if (d->result->in_weld_zone) text_put(out, ", in a weld zone");
    text_put(out, ". ");
}

static void hole_words(text *out, const detail_worked *d, unit_system units)
{
    const rbow_tube_size tube = detail_tube_size(d);
    rbow_net_section n;
    if (rbow_net_section_of(tube.od, tube.wall, d->detail->hole, d->detail->walls, &n) != RBOW_OK) return;
    text_put(out, "Hatched: the section that the hole leaves, seen from A toward B. Area ");
    page_value(out, n.area, DIM_AREA, units, 5);
    text_put(out, "; second moment ");
    page_value(out, n.inertia_along, DIM_INERTIA, units, 5);
    text_put(out, " for moments toward the hole, ");
    page_value(out, n.inertia_across, DIM_INERTIA, units, 5);
    text_put(out, " across it.");
    if (n.shift > 0) {
        text_put(out, " The cross is its centroid, ");
        page_value(out, n.shift, DIM_LENGTH, units, 3);
        text_put(out, " from the tube’s axis, on which the push acts.");
    }
    if (d->detail->hole_clock <= RBOW_ANY_CLOCK) text_put(out, " The direction of the hole is not known: the worst was taken; it is drawn upward.");
}

static void fit_words(text *out, const detail_worked *d, unit_system units)
{
    const rbow_detail_result *r = d->result;
    text_put(out, " Clearance on the diameter ");
    page_value(out, r->clearance, DIM_LENGTH, units, 3);
    text_put(out, ", which lets the far end of the tube lie up to ");
    page_value(out, r->play, DIM_LENGTH, units, 2);
    text_put(out, " to either side, unless the weld draws it tight.");
    if (!(r->prying > 0)) return;
    text_put(out, " As loaded the bending pries with ");
    page_value(out, r->prying, DIM_FORCE, units, 4);
    text_put(out, " at each end of the overlap.");
}

static void scene_words(text *out, const detail_worked *d, unit_system units)
{
    const rbow_detail *k = d->detail;
    text_put(out, "Section along the tube, to scale; below, the upper wall enlarged. ");
    if (k->kind == RBOW_DETAIL_SLEEVE)
        text_put(out, k->butt ? "The ends of the tubes are welded round; the sleeve is not counted."
                              : "The sleeve carries alone across the gap, whose width is not given.");
    if (k->kind == RBOW_DETAIL_SOCKET)
        text_put(out, "The ring weld at the mouth carries, the line across it is its throat; rosettes are spare and not counted.");
    if (k->kind == RBOW_DETAIL_RING_WELD)
        text_put(out, "Dashed: what the tube is welded to; only the weld is calculated. The weld is drawn as a fillet with equal legs; "
                      "the line across it is its throat.");
    if (k->kind != RBOW_DETAIL_RING_WELD) fit_words(out, d, units);
}

void page_detail_drawing(text *out, const detail_worked *d, unit_system units)
{
    const bool section = d->detail->kind == RBOW_DETAIL_HOLE || d->detail->kind == RBOW_DETAIL_PLACE;
    text_put(out, "<figure>");
    if (section) draw_hole(out, d, units);
    else draw_scene(out, d, units);
    text_put(out, "<figcaption>");
    put_place(out, d, units);
    if (d->detail->kind == RBOW_DETAIL_HOLE) hole_words(out, d, units);
    else if (d->detail->kind == RBOW_DETAIL_PLACE) text_put(out, "The tube itself at this place.");
    else scene_words(out, d, units);
    text_put(out, "</figcaption></figure>\n");
}
