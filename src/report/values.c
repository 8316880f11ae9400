#include "report/values.h"

#include "table/number.h"

#include <math.h>

void put_number(text *out, double value, int digits)
{
    char written[NUMBER_ROOM];
    if (isnan(value)) {
        text_put(out, "-");
    } else if (isinf(value)) {
        text_put(out, value > 0 ? "no limit" : "-no limit");
    } else {
        number_write_digits(written, value, digits);
        text_put(out, written);
    }
}

void put_percent(text *out, double share)
{
    if (isinf(share))
        text_put(out, "no limit");
    else if (share > 99.99)
        text_put(out, "over 9999 %");
    else
        text_format(out, "%+.1f %%", 100 * share);
}

void put_factor(text *out, double factor)
{
    if (isinf(factor))
        text_put(out, "no limit");
    else if (factor > 999)
        text_put(out, "over 999");
    else
        text_format(out, "%.2f", factor);
}

const char *unit_name(dimension d, unit_system units)
{
    const unit *u = unit_shown(d, units);
    return u != NULL ? u->name : "";
}

double shown(double value, dimension d, unit_system units)
{
    const unit *u = unit_shown(d, units);
    return u != NULL ? unit_from_own(u, value) : value;
}

void put_value(text *out, double value, dimension d, unit_system units)
{
    put_number(out, shown(value, d, units), 6);
    text_format(out, "%s%s", d != DIM_NONE ? " " : "", unit_name(d, units));
}
