#include "report/page/shop/shop_pages.h"

#include "cases/field_lines.h"
#include "report/html.h"
#include "report/page/parts.h"
#include "report/values.h"

#include <math.h>
#include <stdlib.h>

static const double degree = 3.14159265358979323846 / 180;

/* Returned: whether every tube meets the specification and no load case falls short as measured. */
static bool say_verdict(text *out, const inspect_row *rows, size_t count)
{
    size_t tubes = 0, of[4] = {0}, fallen = 0;
    for (size_t i = 0; i < count; i++) {
        fallen += rows[i].margin_measured < 0 && *rows[i].name != '\0';
        if (rows[i].repeated) continue;
        tubes++;
        of[rows[i].verdict]++;
    }
    text_format(out, "%zu of %zu tubes meet%s the spec", of[INSPECT_MEETS], tubes, of[INSPECT_MEETS] == 1 ? "s" : "");
    if (of[INSPECT_BELOW] > 0) text_format(out, "; %zu below it", of[INSPECT_BELOW]);
    if (of[INSPECT_RECHECK] > 0) text_format(out, "; %zu to recheck", of[INSPECT_RECHECK]);
    if (of[INSPECT_UNREAD] > 0) text_format(out, "; %zu not read enough", of[INSPECT_UNREAD]);
    if (fallen > 0) text_format(out, "; %zu load case%s short as measured", fallen, fallen == 1 ? " is" : "s are");
    text_char(out, '.');
    return of[INSPECT_MEETS] == tubes && fallen == 0;
}

/* The ring with its bore off centre, as the fit has it; the offset is drawn so large that it can be seen. */
static void put_ring(text *out, const inspect_row *r, unit_system units)
{
    const double x = 110, y = 108, outer = 80, mean = 26; /* of the wall as drawn */
    const double thin = (r->bore.mean - r->bore.least) / r->bore.mean, offset = fmin(0.8, 6 * thin) * mean;
    const double bx = x + offset * sin(r->bore.thin_clock), by = y - offset * cos(r->bore.thin_clock), inner = outer - mean;
    const bool below = r->verdict == INSPECT_BELOW;
    text words = {0};
    text_format(out, "<path d=\"M%.1f %.1fa%.1f %.1f 0 1 0 %.1f 0a%.1f %.1f 0 1 0 %.1f 0ZM%.1f %.1fa%.1f %.1f 0 1 0 %.1f 0a%.1f %.1f 0 1 0 %.1f 0Z\" "
                     "class=\"steel\"/>\n", x - outer, y, outer, outer, 2 * outer, outer, outer, -2 * outer, bx - inner, by, inner, inner, 2 * inner, inner,
                inner, -2 * inner);
    text_format(out, "<path d=\"M%.1f %.1fL%.1f %.1f\" class=\"%s\"/>\n", x + (outer - mean - 6) * sin(r->bore.thin_clock),
                y - (outer - mean - 6) * cos(r->bore.thin_clock), x + (outer + 10) * sin(r->bore.thin_clock), y - (outer + 10) * cos(r->bore.thin_clock),
                below ? "mark" : "plain");
    chart_words(out, x, y - outer - 12, "middle", "tick", "0");
    chart_words(out, 214, 80, "start", "bold", "thinnest by the fit");
    put_decimals(&words, shown(r->bore.least, DIM_LENGTH, units), units == UNITS_US ? 4 : 3, ROUND_NEAREST);
    text_format(&words, " %s at %.0f°", unit_name(DIM_LENGTH, units), r->bore.thin_clock / degree);
    chart_words(out, 214, 98, "start", below ? "red bold" : "", page_said(&words));
    text_clear(&words);
    chart_words(out, 214, 124, "start", "bold", "mean wall");
    put_decimals(&words, shown(r->bore.mean, DIM_LENGTH, units), units == UNITS_US ? 4 : 3, ROUND_NEAREST);
    text_format(&words, " %s", unit_name(DIM_LENGTH, units));
    chart_words(out, 214, 142, "start", "", page_said(&words));
    text_free_part(&words, out);
}

static const char *word_of(const inspect_row *r)
{
    static const char *const words[] = {[INSPECT_MEETS] = "✓ meets the spec", [INSPECT_RECHECK] = "? recheck", [INSPECT_UNREAD] = "? not read enough",
                                        [INSPECT_BELOW] = "✗ BELOW the spec"};
    return words[r->verdict];
}

static void put_tube(text *out, const inspect_row *r, unit_system units)
{
    text heading = {0}, words = {0};
    text_format(&heading, "%s, %s: %s", r->tag, r->part, word_of(r));
    text_format(&words, "%s.", *r->reason != '\0' ? r->reason : "Nothing to remark");
    if (!isnan(r->bore.thin_clock)) {
        page_begin_figure(out, page_said(&heading), 204, "The tube with its bore off centre; wall and offset are not to scale");
        put_ring(out, r, units);
        text_put(&words, " Wall and offset are not to scale.");
        page_end_figure(out, page_said(&words));
    } else {
        page_words_figure(out, page_said(&heading), page_said(&words));
    }
    text_free_part(&heading, out);
    text_free_part(&words, out);
}

/* What a page has room for; the reason stands under the drawing, and CSV has the rest. */
static const field_word verdicts[] = {{"✓ meets", INSPECT_MEETS}, {"? recheck", INSPECT_RECHECK}, {"? not read enough", INSPECT_UNREAD},
                                      {"✗ BELOW", INSPECT_BELOW}, {NULL, 0}};
static const field fields[] = {
    TEXT(inspect_row, "tag", tag, ""),
    TEXT(inspect_row, "part", part, ""),
    WORD(inspect_row, "verdict", verdict, verdicts, ""),
    NUMBER(inspect_row, "mean diameter", od_mean, DIM_LENGTH, ""),
    NUMBER(inspect_row, "least diameter", od_least, DIM_LENGTH, ""),
    NUMBER(inspect_row, "largest diameter", od_most, DIM_LENGTH, ""),
    NUMBER(inspect_row, "mean wall", bore.mean, DIM_LENGTH, ""),
    NUMBER(inspect_row, "least wall read", wall_least, DIM_LENGTH, ""),
    NUMBER(inspect_row, "thinnest by the fit", bore.least, DIM_LENGTH, ""),
    NUMBER(inspect_row, "at clock", bore.thin_clock, DIM_ANGLE, ""),
    NUMBER(inspect_row, "bow", bow, DIM_LENGTH, ""),
};
static const field_list tubes_list = FIELD_LIST("inspection", fields, inspect_row);

static const field case_fields[] = {
    TEXT(inspect_row, "load case", name, ""),
    TEXT(inspect_row, "tag", tag, ""),
    TEXT(inspect_row, "part", part, ""),
    NUMBER(inspect_row, "margin as planned", margin_nominal, DIM_NONE, ""),
    NUMBER(inspect_row, "margin as measured", margin_measured, DIM_NONE, ""),
};
static const field_list load_cases_list = FIELD_LIST("load cases as measured", case_fields, inspect_row);

static bool is_tube(const inspect_row *r)
{
    return !r->repeated;
}

static bool is_load_case(const inspect_row *r)
{
    return *r->name != '\0';
}

/* The rows that belong in a table. */
static void put_table(text *out, const field_list *list, const inspect_row *rows, size_t count, bool (*belongs)(const inspect_row *), unit_system units,
                      const char *caption)
{
    inspect_row *chosen = malloc((count + 1) * sizeof *chosen);
    size_t n = 0;
    if (chosen == NULL) {
        out->failed = true;
        return;
    }
    for (size_t i = 0; i < count; i++)
        if (belongs(&rows[i])) chosen[n++] = rows[i];
    page_table(out, list, chosen, n, units, caption);
    free(chosen);
}

void page_inspect(text *out, const page_head *head, const inspect_row *rows, size_t count, bool with_cases)
{
    text said = {0};
    const bool fine = say_verdict(&said, rows, count);
    page_plain_sentence(out, fine, &said);
    page_refused(out, head);
    text_put(out, "<div class=\"figures\">\n");
    for (size_t i = 0; i < count; i++)
        if (!rows[i].repeated) put_tube(out, &rows[i], head->units);
    text_put(out, "</div>\n");
    put_table(out, &tubes_list, rows, count, is_tube, head->units, "Readings against the spec");
    if (with_cases)
        put_table(out, &load_cases_list, rows, count, is_load_case, head->units,
                  "Load cases; margins as measured take the mean diameter and the thinnest wall all round");
    text_free_part(&said, out);
}
