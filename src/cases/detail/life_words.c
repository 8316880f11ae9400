#include "cases/detail/life_words.h"

#include <math.h>

static double two_digits(double number)
{
    const double scale = pow(10, floor(log10(number)) - 1);
    return scale >= 1 ? round(number / scale) * scale : round(number / scale) / (1 / scale);
}

void life_put_number(text *out, double number)
{
    if (isnan(number)) {
        text_put(out, "no number");
        return;
    }
    if (isinf(number)) {
        text_put(out, "no end");
        return;
    }
    const double rounded = two_digits(number);
    if (rounded < 0.1) text_put(out, "under 0.1");
    else if (rounded < 10) text_format(out, "%.1f", rounded);
    else if (rounded < 999999.5) text_format(out, "%.0f", rounded); /* in one piece, as every other number */
    else if (rounded < 9999999) text_format(out, "%.1f million", rounded / 1e6);
    else if (rounded < 999999999) text_format(out, "%.0f million", rounded / 1e6);
    else text_put(out, "over 1000 million");
}

void life_put_runs(text *out, double runs)
{
    if (isnan(runs)) text_put(out, "no number");
    else if (isinf(runs)) text_put(out, "no end by its curve");
    else if (runs < 1) text_put(out, "less than one run");
    else {
        text_put(out, runs < 1e9 ? "about " : "");
        life_put_number(out, runs);
        text_put(out, " runs");
    }
}

void life_put_cost(text *out, const life_row *r)
{
    const double cost = r->result.forced_costs;
    if (!r->forced) text_put(out, "not forced");
    else if (isnan(cost)) text_put(out, "-");
    else if (isinf(cost)) text_put(out, "all");
    else if (cost < 0.995) text_put(out, "lengthens it");
    else if (cost < 1.005) text_put(out, "nothing");
    else if (cost >= 1000) text_put(out, "over 1000 x");
    else text_format(out, cost >= 10 ? "%.0f x" : cost >= 2 ? "%.1f x" : "%.2f x", cost);
}

/* ---- does the forced fit matter? ------------------------------------------------------------------------- */

/* What the forced fit does to a life that it changes. */
static void put_change(text *out, const life_row *r)
{
    const double cost = r->result.forced_costs;
    if (isinf(cost)) text_put(out, "The forced fit decides there: without it the curve knows no end.");
    else if (cost > 0.95 && cost < 1.05) text_put(out, "The forced fit does not matter there.");
    else if (cost >= 2) text_put(out, "The forced fit matters there");
    else if (cost >= 1) text_put(out, "The forced fit matters little there");
    else text_put(out, "The forced fit happens to lengthen the life there");
    if (isinf(cost) || (cost > 0.95 && cost < 1.05)) return;
    text_put(out, " (without it: ");
    life_put_runs(out, r->result.runs_unforced);
    text_put(out, ").");
}

/* Of a life that has no number. */
static void put_unknown(text *out, const life_row *r)
{
    text_put(out, "Without the forced fit: ");
    if (isnan(r->result.runs_unforced)) text_put(out, "no number either");
    else life_put_runs(out, r->result.runs_unforced);
    text_char(out, '.');
}

void life_put_forced(text *out, const life_row *r)
{
    const bool weld = r->sn->kind == RBOW_SN_WELD;
    if (!r->forced) {
        text_put(out, "Nothing is forced there: no miss and no gap is given.");
        return;
    }
    if (isnan(r->result.runs)) put_unknown(out, r);
    else if (isnan(r->result.forced_costs)) text_put(out, "The forced fit does not matter there.");
    else put_change(out, r);
    text_put(out, weld ? " At a weld only the range of stress counts, since the weld holds residual stress up to yield anyway: what is locked "
                         "in acts only as far as the push amplifies it."
                       : " This is metal, not a weld: what is locked in shifts the mean stress, and that counts.");
}

void life_put_loads(text *out, const life_told *t)
{
    if (t->picked)
        text_put(out, "Only the load cases that --case picks count here: a part that has others lasts less long than this says.");
    else if (!t->of_frame && life_loads_are_single(t->rows, t->count))
        text_put(out, "Each life here is of one load case alone. Give the load cases of one tube the same part: their damages then add up.");
}

/* "a sleeve that carries alone" */
static void put_kind(text *out, const life_row *r)
{
    const rbow_detail *d = &r->given;
    text_format(out, "a %s", rbow_detail_kind_name(d->kind));
    if (d->kind == RBOW_DETAIL_SLEEVE) text_put(out, d->butt ? " over a butt weld" : " that carries alone");
    if (d->kind == RBOW_DETAIL_PLACE || d->kind == RBOW_DETAIL_HOLE)
        text_put(out, r->sn->kind == RBOW_SN_WELD ? " in a weld zone" : " outside the weld zones");
}

void life_put_curve(text *out, const life_row *r)
{
    text_format(out, "Curve %s", r->sn->name);
    if (r->usual) {
        text_put(out, ", which is usual for ");
        put_kind(out, r);
        text_put(out, " (common practice, no source: name another in the column sn)");
    }
    text_put(out, r->sn->kind == RBOW_SN_WELD ? ": a weld curve, over the range of stress." : ": a metal curve, with the mean stress.");
}
