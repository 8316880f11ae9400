#include "report/page/frame/frame_sides.h"

#include "report/html.h"
#include "report/page/parts.h"

static const struct {
    const char *name, *heading;
    frame_direction from;
} sides[FRAME_SIDES] = {
    [FRAME_SIDE] = {"side", "From the right side", {0, 0}},
    [FRAME_TOP] = {"top", "From above", {0, 90}},
    [FRAME_FRONT] = {"front", "From the front", {90, 0}},
    [FRAME_ANGLE] = {"angle", "At an angle", {41, 25}},
};

/* name: for scripts, which find the view by it. */
static void put_view(const frame_paper *v, const char *name, const char *heading, frame_put *put, const void *context)
{
    text_format(v->out, "<figure data-view=\"%s\">", name);
    html_element(v->out, "h3", NULL, heading);
    chart_open(v->out, FIGURE_WIDTH, v->high, heading, "The tubes of the frame and its supports");
    put(v, context);
    chart_close(v->out);
    text_put(v->out, "</figure>\n");
}

void frame_sides_put(text *out, const frame_model *m, size_t first, size_t count, frame_put *put, const void *context)
{
    for (size_t i = first; i < first + count; i++) {
        const frame_paper v = frame_paper_for(out, m, sides[i].from);
        put_view(&v, sides[i].name, sides[i].heading, put, context);
    }
}

void frame_turned_put(text *out, const frame_model *m, frame_direction from, frame_put *put, const void *context)
{
    const frame_paper v = frame_paper_square(out, m, from);
    text heading = {0};
    text_format(&heading, "From azimuth %.6g°, elevation %.6g°", from.azimuth, from.elevation);
    put_view(&v, "turned", page_said(&heading), put, context);
    text_free_part(&heading, out);
}
