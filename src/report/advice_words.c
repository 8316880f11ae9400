#include "report/advice_words.h"

#include "report/values.h"

#include <math.h>

static void put_change(text *out, const advice_row *r, unit_system units)
{
    static const char *const squeezed = "trim the tube until it is too long by no more than ";
    static const char *const begins[ADVICE_COLUMNS] = {
        [ADVICE_MISS_A] = "pull A to within ",
        [ADVICE_MISS_B] = "pull B to within ",
        [ADVICE_GAP] = "close the gap to ",
        [ADVICE_BOW] = "straighten the bow to ",
        [ADVICE_WALL] = "fit a wall of ",
    };
    const double to = fabs(r->to);
    text_put(out, r->column == ADVICE_GAP && r->to < 0 ? squeezed : begins[r->column]);
    if (r->column == ADVICE_MISS_A || r->column == ADVICE_MISS_B)
        put_length(out, to, units, ROUND_DOWN);
    else if (r->column == ADVICE_WALL)
        put_value(out, to, DIM_LENGTH, units);
    else
        put_quantity(out, to, DIM_LENGTH, units, ROUND_DOWN);
}

void put_advice(text *out, const advice *a, size_t others, unit_system units)
{
    if (a->lost) {
        out->failed = true;
        return;
    }
    if (a->count == 0 && !a->searched) {
        text_put(out, "No stock wall makes it hold. So many directions are not known that nothing else was tried: give the clocks that you know.");
        return;
    }
    if (a->count == 0) {
        text_put(out, "No single change makes it hold: no smaller miss, gap or bow, and no stock wall. What is left: several changes "
                      "together, a larger diameter, a shorter tube, or less load.");
        return;
    }
    text_put(out, "To make it hold: ");
    for (size_t i = 0; i < a->count; i++) {
        if (i > 0) text_put(out, a->count > 2 ? ", or " : " or ");
        put_change(out, &a->rows[i], units);
    }
    text_put(out, a->count == 1 ? ". This is enough for it." : ". Each of these alone is enough for it.");
    if (!a->searched) text_put(out, " Smaller misses, gap and bow were not looked for: too many directions are not known.");
    if (others > 0)
        text_format(out, " Then check again: %zu other case%s short, too.", others, others == 1 ? " is" : "s are");
}
