#include "report/page/section_drawing.h"

#include "report/chart/chart.h"
#include "report/page/parts.h"

static void ring(text *out, double x, double y, double outer, double inner, const char *style)
{
    const double radii[] = {outer, inner};
    text_put(out, "<path d=\"");
    for (size_t i = 0; i < 2; i++)
        if (radii[i] > 0)
            text_format(out, "M%.3f %.3fa%.3f %.3f 0 1 0 %.3f 0a%.3f %.3f 0 1 0 %.3f 0Z", x - radii[i], y, radii[i], radii[i],
                        2 * radii[i], radii[i], radii[i], -2 * radii[i]);
    text_format(out, "\" class=\"%s\"/>\n", style);
}

/* A drawn length that is round in the unit shown. */
static void scale_bar(text *out, double scale, unit_system units, double x, double y)
{
    const unit *u = unit_shown(DIM_LENGTH, units);
    const double round[] = {unit_to_own(u, units == UNITS_SI ? 10 : 0.5), 0};
    const double width = round[0] * scale;
    text_format(out, "<path d=\"M%.2f %.2fv-6M%.2f %.2fh%.2fM%.2f %.2fv-6\" class=\"plain\"/>\n", x, y, x, y - 3, width, x + width, y);
    chart_words(out, x + width + 6, y + 1, "start", "tick", units == UNITS_SI ? "10 mm" : "0.5 in");
}

static void section_words(text *out, double x, double y, const char *name, double od, double wall, unit_system units)
{
    text line = {0};
    chart_words(out, x, y, "middle", "bold", name);
    page_value(&line, od, DIM_LENGTH, units, 5);
    text_put(&line, " × ");
    page_value(&line, wall, DIM_LENGTH, units, 4);
    chart_words(out, x, y + 15, "middle", "", page_said(&line));
    text_free_part(&line, out);
}

void page_section_drawing(text *out, const check_row *r, const picture *p, unit_system units)
{
    const bool dressed = p->weld_zone > 0;
    const double scale = 120 / r->given.member.od, left = dressed ? 0.25 * FIGURE_WIDTH : 0.5 * FIGURE_WIDTH, right = 0.75 * FIGURE_WIDTH, middle = 76;
    text_put(out, "<figure><h3>Section</h3>");
    chart_open(out, FIGURE_WIDTH, 200, "Cross-section of the tube, to scale", "");
    ring(out, left, middle, scale * r->given.member.od / 2, scale * (r->given.member.od / 2 - r->given.member.wall), "steel");
    section_words(out, left, 160, "tube", r->given.member.od, r->given.member.wall, units);
    if (dressed) {
        const double od = p->weld_size.od, wall = p->weld_size.wall;
        if (p->dressed > 0) ring(out, right, middle, scale * r->given.member.od / 2, 0, "dashed");
        ring(out, right, middle, scale * od / 2, scale * (od / 2 - wall), "weld");
        section_words(out, right, 160, "weld zone", od, wall, units);
    }
    scale_bar(out, scale, units, 2, 196);
    chart_close(out);
    text_put(out, "<figcaption>");
    if (dressed) {
        text_put(out, "Within ");
        page_value(out, p->weld_zone, DIM_LENGTH, units, 4);
        text_put(out, p->free_b ? " of joint A the metal is softer" : " of each joint the metal is softer");
        if (p->dressed > 0) {
            text_put(out, " and the weld was dressed by ");
            page_value(out, p->dressed, DIM_LENGTH, units, 3);
            text_put(out, " (dashed: before)");
        }
        text_put(out, ". ");
    }
    text_put(out, "Area ");
    page_value(out, r->result.section.area, DIM_AREA, units, 5);
    text_put(out, ", section modulus ");
    page_value(out, r->result.section.section_modulus, DIM_SECTION_MODULUS, units, 5);
    text_put(out, ", weight ");
    page_value(out, r->result.weight, DIM_MASS, units, 4);
    text_put(out, ".</figcaption></figure>\n");
}
