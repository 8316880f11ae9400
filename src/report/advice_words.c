#include "report/advice_words.h"

#include "report/values.h"

#include <math.h>
#include <string.h>

typedef struct change_words {
    const char *alone;          /* where the tube is known */
    const char *before, *after; /* around the name of the tube */
} change_words;

enum { TRIM = ADVICE_OD + 1, CHANGES };

static const change_words words_of[CHANGES] = {
    [ADVICE_MISS_A] = {"pull A to within ", "pull A of ", " to within "},
    [ADVICE_MISS_B] = {"pull B to within ", "pull B of ", " to within "},
    [ADVICE_GAP] = {"close the gap to ", "close the gap of ", " to "},
    [ADVICE_BOW] = {"straighten the bow to ", "straighten the bow of ", " to "},
    [ADVICE_WALL] = {"fit a wall of ", "fit ", " with a wall of "},
    [ADVICE_OD] = {"fit an outside diameter of ", "fit ", " with an outside diameter of "},
    [TRIM] = {"trim the tube until it is too long by no more than ", "trim ", " until it is too long by no more than "},
};

static void put_name(text *out, const char *name)
{
    text_quote(out, name, strlen(name));
}

/* Given: tube  to be changed; NULL where it is known */
static void put_change(text *out, int column, double to, const char *tube, unit_system units)
{
    const change_words *w = &words_of[column == ADVICE_GAP && to < 0 ? TRIM : column];
    const double size = fabs(to);
    text_put(out, tube != NULL ? w->before : w->alone);
    if (tube != NULL) {
        put_name(out, tube);
        text_put(out, w->after);
    }
    if (column == ADVICE_MISS_A || column == ADVICE_MISS_B)
        put_length(out, size, units, ROUND_DOWN);
    else if (column == ADVICE_WALL || column == ADVICE_OD)
        put_value(out, size, DIM_LENGTH, units);
    else
        put_quantity(out, size, DIM_LENGTH, units, ROUND_DOWN);
}

/* ---- of a load case ---------------------------------------------------------------------------------------- */

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
                      "together, a larger diameter, a shorter tube, ");
        text_put(out, a->detailed ? "stronger details, or less load." : "or less load.");
        return;
    }
    text_put(out, "To make it hold: ");
    for (size_t i = 0; i < a->count; i++) {
        if (i > 0) text_put(out, a->count > 2 ? ", or " : " or ");
        put_change(out, a->rows[i].column, a->rows[i].to, NULL, units);
    }
    text_put(out, a->count == 1 ? ". This is enough for it." : ". Each of these alone is enough for it.");
    if (!a->searched) text_put(out, " Smaller misses, gap and bow were not looked for: too many directions are not known.");
    if (others > 0)
        text_format(out, " Then check again: %zu other case%s short, too.", others, others == 1 ? " is" : "s are");
}

/* ---- of a frame -------------------------------------------------------------------------------------------- */

static void put_still_short(text *out, const frame_advice_row *r)
{
    put_name(out, r->still_short);
    text_put(out, r->fell ? " falls short" : " is still short");
}

/* "'rail LL 2' is still short then" */
static void put_not_enough(text *out, const frame_advice *a)
{
    const frame_advice_row *first = &a->rows[0], *second = &a->rows[1];
    text_put(out, a->count == 1 ? "This is not enough for the frame: " : "Neither is enough for the frame: ");
    if (a->count == 1 || (strcmp(first->still_short, second->still_short) == 0 && first->fell == second->fell)) {
        put_still_short(out, first);
        text_put(out, " then.");
        return;
    }
    text_put(out, "after the first ");
    put_still_short(out, first);
    text_put(out, ", after the second ");
    put_still_short(out, second);
    text_char(out, '.');
}

static void put_none(text *out, const frame_advice *a)
{
    text_put(out, "No single change was found that makes ");
    put_name(out, a->tube);
    text_put(out, " hold and no other tube short. Tried, each alone: every miss and gap in the frame and the bow of this tube brought close to none, ");
    text_put(out, a->detailed ? "and every heavier stock wall." : "every heavier stock wall, and the next three larger diameters.");
    text_put(out, " What is left: several changes together, stiffer neighbours");
    text_put(out, a->detailed ? ", stronger details, or less load." : ", or less load.");
}

void put_frame_advice(text *out, const frame_advice *a, unit_system units)
{
    if (a->lost) {
        out->failed = true;
        return;
    }
    if (a->tube == NULL) return;
    if (a->count == 0) put_none(out, a);
    else text_put(out, "To make it hold: ");
    for (size_t i = 0; i < a->count; i++) {
        if (i > 0) text_put(out, " or ");
        put_change(out, a->rows[i].column, a->rows[i].to, a->rows[i].changed, units);
    }
    if (a->count > 0) text_put(out, ". ");
    if (a->count > 0 && a->rows[0].enough) text_put(out, a->count == 1 ? "This is enough for the frame." : "Each of these alone is enough for the frame.");
    else if (a->count > 0) put_not_enough(out, a);
    if (a->cut_short) text_put(out, " Not every change was tried: the frame has too many tubes, misses or runs.");
}
