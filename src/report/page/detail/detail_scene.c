#include "report/page/detail/detail_scene.h"

#include <math.h>

/* The gap of a butt is no input: it is drawn as one wall, or 1/16 in. */

static void add(scene *s, int kind, const spot at[], size_t count)
{
    if (s->count == SCENE_PARTS_MOST) return;
    scene_part *p = &s->parts[s->count++];
    p->kind = kind;
    p->count = count;
    for (size_t i = 0; i < count; i++) p->at[i] = at[i];
}

/* A wall of a tube in its section, above the axis and below. */
static void add_walls(scene *s, int kind, double from, double to, double od, double wall)
{
    for (int side = 1; side >= -1; side -= 2) {
        const double outer = side * od / 2, inner = side * (od / 2 - wall);
        add(s, kind, (const spot[]){{from, inner}, {to, inner}, {to, outer}, {from, outer}}, 4);
    }
}

/* A fillet with equal legs between a face at x and the outside of a tube; its throat is leg/sqrt(2). toward: side of the face on which it
 * lies. */
static void add_fillet(scene *s, double x, double od, double throat, double toward)
{
    const double leg = throat * sqrt(2);
    for (int side = 1; side >= -1; side -= 2) {
        const double y = side * od / 2;
        add(s, PART_WELD, (const spot[]){{x, y}, {x + toward * leg, y}, {x, y + side * leg}}, 3);
    }
    s->fillet = true;
    s->mouth = (spot){x, od / 2};
    s->throat_foot = (spot){x + toward * leg / 2, od / 2 + leg / 2};
    s->high = fmax(s->high, od / 2 + leg);
}

static double throat_of(const detail_worked *d, double wall)
{
    return d->detail->throat > 0 ? d->detail->throat : wall;
}

/* The plugs of rosettes through one wall, above and below: as many as the section can show. */
static void add_plugs(scene *s, const detail_worked *d, double x, double od, double wall)
{
    const double half = d->detail->rosette / 2;
    for (int side = 1; side >= -1; side -= 2) {
        const double outer = side * od / 2, inner = side * (od / 2 - wall);
        if (side < 0 && d->detail->rosettes % 2 != 0) return; /* an odd number has none opposite */
        add(s, PART_WELD, (const spot[]){{x - half, inner}, {x + half, inner}, {x + half, outer}, {x - half, outer}}, 4);
    }
}

static void sleeve(scene *s, const detail_worked *d)
{
    const rbow_detail *k = d->detail;
    const double gap = k->butt ? s->tube_wall : 1.0 / 16, reach = k->overlap + 0.4 * s->tube_od;
    s->left = -reach;
    s->right = reach;
    s->other_od = k->sleeve_od;
    s->other_wall = k->sleeve_wall;
    add_walls(s, PART_OTHER, -k->overlap, k->overlap, k->sleeve_od, k->sleeve_wall);
    add_walls(s, PART_TUBE, -reach, -gap / 2, s->tube_od, s->tube_wall);
    add_walls(s, PART_TUBE, gap / 2, reach, s->tube_od, s->tube_wall);
    if (k->rosettes > 0) {
        add_plugs(s, d, -k->overlap / 2, s->tube_od, s->tube_wall);
        add_plugs(s, d, k->overlap / 2, s->tube_od, s->tube_wall);
    }
    s->mouth = (spot){0, s->tube_od / 2 - s->tube_wall};
    if (!k->butt) return;
    const double throat = throat_of(d, s->tube_wall), thick = fmin(throat, s->tube_wall);
    for (int side = 1; side >= -1; side -= 2) {
        const double outer = side * s->tube_od / 2, inner = side * (s->tube_od / 2 - thick);
        add(s, PART_WELD, (const spot[]){{-gap / 2, inner}, {gap / 2, inner}, {gap / 2, outer}, {-gap / 2, outer}}, 4);
    }
    s->throat = throat;
    s->throat_foot = (spot){gap / 2, s->tube_od / 2};
    s->ring_od = s->tube_od;
}

static void socket(scene *s, const detail_worked *d, double toward)
{
    const rbow_detail *k = d->detail;
    const bool over = k->stub_od > s->tube_od; /* the stub is outside */
    const double outer = fmax(k->stub_od, s->tube_od), rest = 0.9 * outer;
    s->other_od = k->stub_od;
    s->other_wall = k->stub_wall;
    s->throat = throat_of(d, s->tube_wall);
    s->ring_od = fmin(k->stub_od, s->tube_od);
    s->high = outer / 2;
    /* The mouth at 0. The outer part ends there; the inner one reaches on under it. */
    const double stub_end = over ? 0 : k->overlap, tube_end = over ? -k->overlap : 0, far = over ? -k->overlap - rest : -rest;
    const double near = over ? rest : k->overlap + rest;
    add_walls(s, PART_OTHER, toward * far, toward * stub_end, k->stub_od, k->stub_wall);
    add_walls(s, PART_TUBE, toward * tube_end, toward * near, s->tube_od, s->tube_wall);
    add_fillet(s, 0, s->ring_od, s->throat, over ? toward : -toward);
    if (k->rosettes > 0)
        add_plugs(s, d, toward * (over ? -k->overlap / 2 : k->overlap / 2), over ? k->stub_od : s->tube_od, over ? k->stub_wall : s->tube_wall);
    s->left = fmin(toward * far, toward * near);
    s->right = fmax(toward * far, toward * near);
}

static void ring_weld(scene *s, const detail_worked *d, double toward)
{
    const double thick = 0.18 * s->tube_od, reach = 1.6 * s->tube_od;
    s->throat = throat_of(d, s->tube_wall);
    s->ring_od = d->detail->weld_od > 0 ? d->detail->weld_od : s->tube_od;
    s->high = fmax(0.7 * s->tube_od, 0.6 * s->ring_od);
    add(s, PART_BASE, (const spot[]){{-toward * thick, -s->high}, {0, -s->high}, {0, s->high}, {-toward * thick, s->high}}, 4);
    add_walls(s, PART_TUBE, 0, toward * reach, s->tube_od, s->tube_wall);
    if (s->ring_od > s->tube_od) add_walls(s, PART_BASE, 0, toward * 0.4 * reach, s->ring_od, (s->ring_od - s->tube_od) / 2);
    add_fillet(s, 0, s->ring_od, s->throat, toward);
    s->left = fmin(-toward * thick, toward * reach);
    s->right = fmax(-toward * thick, toward * reach);
}

/* The tube lies to the right of what is nearer to A. */
static double toward_of(const detail_worked *d)
{
    return d->detail->at <= d->member->length / 2 ? 1 : -1;
}

scene scene_of(const detail_worked *d)
{
    const rbow_tube_size tube = detail_tube_size(d);
    scene s = {.tube_od = tube.od, .tube_wall = tube.wall, .other_od = NAN, .other_wall = NAN, .throat = NAN, .ring_od = NAN, .high = tube.od / 2};
    if (d->detail->kind == RBOW_DETAIL_SLEEVE) sleeve(&s, d);
    else if (d->detail->kind == RBOW_DETAIL_SOCKET) socket(&s, d, toward_of(d));
    else ring_weld(&s, d, toward_of(d));
    return s;
}

void scene_overlaps(const detail_worked *d, double from[2], double to[2], size_t *count)
{
    const rbow_detail *k = d->detail;
    const rbow_tube_size tube = detail_tube_size(d);
    const double toward = toward_of(d) * (k->stub_od > tube.od ? -1 : 1);
    *count = k->kind == RBOW_DETAIL_SLEEVE ? 2 : k->kind == RBOW_DETAIL_SOCKET ? 1 : 0;
    from[0] = k->kind == RBOW_DETAIL_SLEEVE ? -k->overlap : fmin(0, toward * k->overlap);
    to[0] = k->kind == RBOW_DETAIL_SLEEVE ? 0 : fmax(0, toward * k->overlap);
    from[1] = 0;
    to[1] = k->overlap;
}
