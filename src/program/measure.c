#include "program/measure.h"

#include "program/say.h"
#include "table/number.h"
#include "table/shop_length.h"
#include "table/text.h"
#include "table/written_number.h"

#include <stdlib.h>
#include <math.h>
#include <string.h>

static size_t without_blanks(const char *at, size_t length)
{
    while (length > 0 && at[length - 1] == ' ') length--;
    return length;
}

static bool has_unit_behind(measure *m, const unit *u)
{
    const size_t name = strlen(u->name);
    if (m->length <= name || memcmp(m->at + m->length - name, u->name, name) != 0) return false;
    return written_number_read(m->at, without_blanks(m->at, m->length - name), u, false, &m->value);
}

/* Feet and inches by their marks; a fraction alone takes its unit later. */
static bool is_shop_length(measure *m)
{
    shop_length length;
    if (!shop_length_read(m->at, m->length, &length)) return false;
    m->has_unit = length.is_marked;
    m->value = length.value;
    return true;
}

bool measure_read(const char *at, size_t length, dimension d, measure *m)
{
    const unit *u;
    while (length > 0 && *at == ' ') at++, length--;
    *m = (measure){.at = at, .length = without_blanks(at, length)};
    if (written_number_read(m->at, m->length, NULL, false, &m->value)) return true;
    m->has_unit = true;
    for (size_t i = 0; (u = unit_at(d, i)) != NULL; i++)
        if (has_unit_behind(m, u)) return true;
    return d == DIM_LENGTH && is_shop_length(m);
}

bool measure_in(const measure *m, const unit *u, double *value)
{
    if (m->has_unit) *value = m->value;
    return (m->has_unit || written_number_read(m->at, m->length, u, false, value)) && isfinite(*value);
}

const char *measure_advice(const char *at, size_t length)
{
    if (comma_is_ambiguous(at, length)) return "the comma could be a thousands separator or a decimal comma: write 1250 or 1.250";
    return memchr(at, ',', length) != NULL ? "use a decimal point" : NULL;
}

/* "1,250" in a list: two values or one. */
static bool is_either(const char *list, const char *at, size_t length)
{
    const char *next = at + length;
    if (*next != ',') return false;
    const size_t digits = strspn(next + 1, "0123456789");
    return (next[1 + digits] == ',' || next[1 + digits] == '\0') && (at == list || at[-1] == ',')
        && comma_is_ambiguous(at, length + 1 + digits);
}

static bool refuse_item(const char *option, const char *at, size_t length, dimension d)
{
    text names = {0};
    unit_say_names(&names, d);
    say("--%s: '%.*s' is not a number above 0, alone or with its unit: %s", option, (int)length, at, names.failed ? "" : names.at);
    text_free(&names);
    return false;
}

static bool take_item(measures *m, const char *option, const char *list, const char *at, size_t length, dimension d)
{
    measure *item = &m->at[m->count];
    double value = 0;
    if (is_either(list, at, length)) {
        say("--%s: '%.*s' may be one number or two: write each with its unit, or 1250, 1.250", option,
            (int)(length + 1 + strspn(at + length + 1, "0123456789")), at);
        return false;
    }
    if (!measure_read(at, length, d, item) || !measure_in(item, unit_at(d, 0), &value) || !(value > 0))
        return refuse_item(option, at, length, d);
    if (m->count > 0 && item->has_unit != m->have_units) {
        say("--%s: '%s': either every value has its unit, or none", option, list);
        return false;
    }
    m->have_units = item->has_unit;
    m->count++;
    return true;
}

bool measures_read(measures *m, const char *option, const char *list, dimension d)
{
    *m = (measures){.at = malloc((strlen(list) + 1) * sizeof *m->at)}; /* more than there can be commas */
    if (m->at == NULL) {
        say("out of memory");
        return false;
    }
    for (const char *at = list;; at++) {
        const size_t length = strcspn(at, ",");
        if (!take_item(m, option, list, at, length, d)) return false;
        at += length;
        if (*at == '\0') return true;
    }
}

size_t measures_values(const char *option, const char *list, dimension d, double values[], size_t most)
{
    measures listed;
    size_t count = 0;
    if (measures_read(&listed, option, list, d))
        for (; count < listed.count && count < most; count++) values[count] = listed.at[count].value;
    measures_free(&listed);
    return count;
}

void measures_free(measures *m)
{
    free(m->at);
    *m = (measures){0};
}
