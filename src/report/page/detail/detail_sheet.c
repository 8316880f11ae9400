#include "report/page/detail/detail_sheet.h"

#include "report/html.h"
#include "report/page/parts.h"
#include "report/values.h"

void open_detail(text *out, const detail_worked *d, double high, const char *what)
{
    text title = {0};
    text_format(&title, "%s: %s", d->name, what);
    text_format(out, "<svg viewBox=\"0 0 %d %g\" role=\"img\" aria-label=\"", DETAIL_WIDTH, high);
    html_text(out, page_said(&title));
    text_put(out, "\"><title>");
    html_text(out, page_said(&title));
    text_put(out, "</title>\n");
    text_free_part(&title, out);
}

void put_size(text *out, double own, unit_system units)
{
    page_value(out, own, DIM_LENGTH, units, 4);
}

void put_tube(text *out, const char *name, double od, double wall, unit_system units)
{
    text_format(out, "%s ", name);
    put_number(out, shown(od, DIM_LENGTH, units), 5);
    text_put(out, " × ");
    put_size(out, wall, units);
}
