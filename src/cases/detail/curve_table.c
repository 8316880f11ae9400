#include "cases/detail/curve_table.h"

#include "cases/field_lines.h"
#include "table/text.h"

#include <math.h>
#include <string.h>

#define PAIR(value, word) {word, value},

static const field_word kind_words[] = {RBOW_SN_KIND_LIST(PAIR){NULL, 0}};
static const field_word unit_words[] = {{"psi", 0}, {"ksi", 1}, {"MPa", 2}, {"GPa", 3}, {NULL, 0}};

/* A number that may be left out; NaN then. */
#define OPEN(name_, least_, most_, rule_, meaning_)                                                            \
    {.name = #name_, .kind = FIELD_NUMBER, .offset = offsetof(curve_row, curve.name_), .fallback = NAN,        \
     .least = least_, .most = most_, .rule = rule_, .fallback_text = "none", .meaning = meaning_}

static const field curve_fields[] = {
    NEEDED_TEXT(curve_row, "curve", curve.name, "name that a detail's sn uses; no two may be alike"),
    {.name = "kind", .kind = FIELD_WORD, .offset = offsetof(curve_row, curve.kind), .rule = FIELD_REQUIRED, .words = kind_words,
     .fallback_text = "", .meaning = "weld: over the range of stress, the mean plays no part; metal: over S_eq, which has the mean in it"},
    OPEN(log_a1, -INFINITY, INFINITY, 0, "of weld: N = 10^log_a1 range^-m1 up to the knee"),
    OPEN(m1, 0, INFINITY, FIELD_ABOVE, "of weld: that slope"),
    OPEN(log_a2, -INFINITY, INFINITY, 0, "of weld: N = 10^log_a2 range^-m2 beyond the knee; empty: the first branch goes on"),
    OPEN(m2, 0, INFINITY, FIELD_ABOVE, "of weld: that slope"),
    OPEN(knee_cycles, 0, INFINITY, FIELD_ABOVE, "of weld: cycles at which the branches meet"),
    OPEN(cutoff_cycles, 0, INFINITY, FIELD_ABOVE, "of weld: cycles beyond which there is no end of life; empty: none"),
    OPEN(a1, -INFINITY, INFINITY, 0, "of metal: log10 N = a1 + a2 log10(S_eq - a4), S_eq = S_max (1 - R)^a3"),
    OPEN(a2, -INFINITY, 0, FIELD_BELOW, "of metal: the slope"),
    OPEN(a3, 0, 1, 0, "of metal: how much the mean stress counts"),
    OPEN(a4, 0, INFINITY, 0, "of metal: S_eq at and below which there is no end of life"),
    {.name = "stress_unit", .kind = FIELD_WORD, .offset = offsetof(curve_row, stress_unit), .rule = FIELD_REQUIRED,
     .words = unit_words, .fallback_text = "", .meaning = "unit of the stresses in the row: psi, ksi, MPa or GPa"},
    OPEN(deviation, 0, INFINITY, 0, "of metal: standard deviation of log10 N, two are taken off; empty: not known, a mean curve"),
    {.name = "source", .kind = FIELD_TEXT, .offset = offsetof(curve_row, curve.source), .fallback_text = "",
     .meaning = "source of the numbers"},
};
const field_list curve_list = FIELD_LIST("S-N curve", curve_fields, curve_row);

/* ---- what is wrong beyond single cells ------------------------------------------------------------------ */

typedef enum part { WELD_NEEDS, WELD_MAY, METAL_NEEDS, METAL_MAY } part;

static const struct {
    const char *column;
    part part;
} parts[] = {
    {"log_a1", WELD_NEEDS}, {"m1", WELD_NEEDS}, {"log_a2", WELD_MAY}, {"m2", WELD_MAY}, {"knee_cycles", WELD_MAY},
    {"cutoff_cycles", WELD_MAY}, {"a1", METAL_NEEDS}, {"a2", METAL_NEEDS}, {"a3", METAL_NEEDS}, {"a4", METAL_NEEDS},
    {"deviation", METAL_MAY},
};

static bool is_given(const curve_row *row, const char *column)
{
    return !isnan(field_get(field_find(&curve_list, column), row));
}

static const char *wrong_part(const curve_row *row, text *why)
{
    const bool weld = row->curve.kind == RBOW_SN_WELD;
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        const bool given = is_given(row, parts[i].column), of_weld = parts[i].part == WELD_NEEDS || parts[i].part == WELD_MAY;
        const bool needed = parts[i].part == (weld ? WELD_NEEDS : METAL_NEEDS);
        if (given && of_weld != weld)
            text_format(why, "belongs to curves of kind %s: leave it empty", weld ? "metal" : "weld");
        else if (!given && needed)
            text_format(why, "is empty, but a curve of kind %s needs it", weld ? "weld" : "metal");
        else
            continue;
        return parts[i].column;
    }
    return NULL;
}

/* Three numbers that make the second branch: all or none. */
static const char *half_branch(const curve_row *row, text *why)
{
    static const char *const three[] = {"log_a2", "m2", "knee_cycles"};
    size_t given = 0, missing = 0;
    for (size_t i = 0; i < 3; i++)
        if (is_given(row, three[i])) given++;
        else missing = i;
    if (given == 0 || given == 3) return NULL;
    text_put(why, "is empty, but log_a2, m2 and knee_cycles go together: give all three or none");
    return three[missing];
}

/* A digit that is wrong in a branch shows at the knee. Rounding of log a to three decimals moves the cycles by 0.3 %. */
static const char *split_knee(const curve_row *row, text *why)
{
    const rbow_sn_curve *c = &row->curve;
    const double log_range = (c->log_a1 - log10(c->knee_cycles)) / c->m1, cycles = pow(10, c->log_a2 - c->m2 * log_range);
    const double ratio = cycles / c->knee_cycles;
    if (isnan(c->log_a2) || (ratio > 0.99 && ratio < 1.01)) return NULL;
    text_format(why, "the branches do not meet at the knee: at %.4g %s the first gives %.4g cycles, the second %.4g (1 %% is allowed)",
                pow(10, log_range), unit_words[row->stress_unit].word, c->knee_cycles, cycles);
    return "log_a2";
}

const char *curve_fault(curve_row *row, text *why)
{
    const char *unit_name = unit_words[row->stress_unit].word;
    row->curve.stress_unit = unit_find(DIM_STRESS, unit_name, strlen(unit_name))->factor;
    const char *at = wrong_part(row, why);
    if (at == NULL && row->curve.kind == RBOW_SN_WELD) at = half_branch(row, why);
    return at == NULL && row->curve.kind == RBOW_SN_WELD ? split_knee(row, why) : at;
}
