#include "report/page/joint_symbols.h"

#include "report/chart/chart.h"

#include <math.h>
#include <string.h>

joint_kind joint_kind_of(const char *word)
{
    if (word == NULL) return JOINT_SPRING;
    if (strncmp(word, "pinned", 6) == 0) return JOINT_PIN;
    if (strncmp(word, "welded", 6) == 0) return JOINT_WELD;
    return strncmp(word, "fixed", 5) == 0 ? JOINT_WALL : JOINT_FREE;
}

const char *joint_words(joint_kind kind)
{
    static const char *const words[] = {
        [JOINT_PIN] = "pinned (ring on a foot)",
        [JOINT_WELD] = "welded (beads at a plate)",
        [JOINT_WALL] = "fixed (hatched wall)",
        [JOINT_SPRING] = "held by a stiffness (coil)",
        [JOINT_FREE] = "free",
    };
    return words[kind];
}

/* A plate across the tube's end, and what stands behind it. */
static void put_plate(text *out, double x, double y, double half)
{
    text_format(out, "<path d=\"M%.2f %.2fV%.2f\" class=\"plate\"/>\n", x, y - half, y + half);
}

static void put_pin(text *out, double x, double y)
{
    text_format(out, "<path d=\"M%.2f %.2fl-8 13h16Z\" class=\"foot\"/><path d=\"M%.2f %.2fh22\" class=\"plain\"/>"
                     "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"4.5\" class=\"ring\"/>\n", x, y + 3, x - 11, y + 16, x, y);
}

static void put_beads(text *out, double x, double y, double side, double deep)
{
    const double half = deep / 2;
    for (int below = -1; below <= 1; below += 2)
        text_format(out, "<path d=\"M%.2f %.2fh%.2fl%.2f %.2fZ\" class=\"bead\"/>\n", x, y + below * half, -7 * side, 7 * side, 7.0 * below);
    put_plate(out, x, y, half + 9);
}

static void put_wall(text *out, double x, double y, double side, double deep)
{
    const double half = deep / 2 + 10;
    put_plate(out, x, y, half);
    text_put(out, "<path d=\"");
    for (double at = -half; at < half; at += 6) text_format(out, "M%.2f %.2fl%.2f 6", x, y + at, 7 * side);
    text_put(out, "\" class=\"leader\"/>\n");
}

/* A flat spiral: a joint that gives way in turning. */
static void put_coil(text *out, double x, double y, double side, double deep)
{
    const double out_x = x + 8 * side;
    text_format(out, "<path d=\"M%.2f %.2f", x, y);
    for (int i = 1; i <= 30; i++) {
        const double turn = 0.42 * i, radius = 0.26 * i;
        text_format(out, "L%.2f %.2f", x + side * radius * cos(turn), y - radius * sin(turn));
    }
    text_put(out, "\" class=\"plain\"/>\n");
    put_plate(out, out_x + 2 * side, y, deep / 2 + 9);
}

void joint_symbol(text *out, joint_kind kind, double x, double y, double side, double deep)
{
    switch (kind) {
        case JOINT_PIN: put_pin(out, x, y); break;
        case JOINT_WELD: put_beads(out, x, y, side, deep); break;
        case JOINT_WALL: put_wall(out, x, y, side, deep); break;
        case JOINT_SPRING: put_coil(out, x, y, side, deep); break;
        case JOINT_FREE: break;
    }
}

static void put_head(text *out, double x, double y, double ux, double uy)
{
    const double bx = x - 7 * ux, by = y - 7 * uy;
    text_format(out, "<path d=\"M%.2f %.2fL%.2f %.2fL%.2f %.2fZ\" class=\"head\"/>\n", x, y, bx - 3 * uy, by + 3 * ux, bx + 3 * uy, by - 3 * ux);
}

void drawn_arrow(text *out, double x1, double y1, double x2, double y2)
{
    const double length = hypot(x2 - x1, y2 - y1);
    if (!(length > 0)) return;
    const double ux = (x2 - x1) / length, uy = (y2 - y1) / length;
    text_format(out, "<path d=\"M%.2f %.2fL%.2f %.2f\" class=\"plain\"/>", x1, y1, x2 - 6 * ux, y2 - 6 * uy);
    put_head(out, x2, y2, ux, uy);
}

void turning_arrow(text *out, double x, double y, double radius, double way, double side)
{
    const double quarter = 0.78539816339744831, middle = side > 0 ? 0 : 4 * quarter; /* of the opening, seen from the centre */
    const double from = middle + way * quarter, to = middle - way * quarter + way * 8 * quarter;
    const double tip_x = x + radius * cos(to), tip_y = y + radius * sin(to);
    text_format(out, "<path d=\"M%.2f %.2fA%.2f %.2f 0 1 %d %.2f %.2f\" class=\"plain\"/>", x + radius * cos(from), y + radius * sin(from), radius,
                radius, way > 0 ? 1 : 0, tip_x, tip_y);
    put_head(out, tip_x, tip_y, -way * sin(to), way * cos(to));
}
