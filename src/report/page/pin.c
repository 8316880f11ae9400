#include "report/page/pin.h"

#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>

void page_pin(text *out, double x, double y, int way)
{
    const double head = way * PIN_DEEP, side = 5.2, waist = way * (PIN_DEEP - 3.2);
    text_format(out, "<path d=\"M%.2f %.2fL%.2f %.2fA6 6 0 1 %d %.2f %.2fZ\" class=\"pin\"/><circle cx=\"%.2f\" cy=\"%.2f\" r=\"2.2\" class=\"pin-eye\"/>\n", x,
                y, x - side, y + waist, way < 0 ? 1 : 0, x + side, y + waist, x, y + head);
}

void page_pin_words(text *out, const char *governs, double at, double length, unit_system units)
{
    text_put(out, "governs: ");
    page_short_name(out, governs, 18);
    if (isnan(at)) {
        text_put(out, ", at no single place");
    } else if (at <= 0 || at >= length) {
        text_put(out, at <= 0 ? " at A" : " at B");
    } else {
        text_put(out, " at ");
        page_value(out, at, DIM_LENGTH, units, 3);
    }
}
