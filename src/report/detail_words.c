#include "report/detail_words.h"

#include "cases/detail/detail_sentences.h"
#include "report/values.h"

#include <math.h>

void put_detail_limit(text *out, const governing_detail *d, double margin)
{
    if (isinf(d->factor)) {
        text_put(out, "no run load brings it to a limit.");
        return;
    }
    text_put(out, detail_limit_words[d->mode]);
    if (!(d->factor > 0)) {
        text_put(out, " with no run load at all; a load factor of ");
        put_required(out, d->required);
        text_put(out, " is required.");
        return;
    }
    text_put(out, " at ");
    put_factor(out, d->factor);
    text_put(out, " times the run load; ");
    put_required(out, d->required);
    text_put(out, " is required: margin ");
    put_percent(out, margin);
    text_char(out, '.');
}
