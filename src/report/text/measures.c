#include "report/text/measures.h"

#include "report/values.h"
#include "table/number.h"

#include <math.h>

void put_measure(text *out, double value, dimension d, unit_system units)
{
    const unit *u = unit_shown(d, units);
    const double number = unit_from_own(u, value);
    if (fabs(number) >= 1000)
        text_format(out, "%.0f", number);
    else
        put_number(out, number, 4);
    text_format(out, " %s", u->name);
}

static const double degree = 3.14159265358979323846 / 180;

void put_clock(text *out, double clock)
{
    if (!isnan(clock)) text_format(out, " toward clock %.0f", clock / degree);
}

void add_measure(grid *g, double value, dimension d, unit_system units, int digits)
{
    if (isnan(value)) {
        grid_cell(g, TONE_PLAIN, "-");
        return;
    }
    char cell[NUMBER_ROOM];
    const double number = unit_from_own(unit_shown(d, units), value);
    number_write_digits(cell, number, digits);
    grid_cell(g, TONE_PLAIN, cell);
}
