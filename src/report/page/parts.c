#include "report/page/parts.h"

#include "report/caution.h"
#include "report/chart/stops.h"
#include "report/html.h"
#include "report/lines.h"
#include "report/values.h"

#include <math.h>
#include <string.h>

/* ---- tables ----------------------------------------------------------------------------------------- */

/* A column's name in words, so that a table can break it. */
static void put_words(text *out, const char *name)
{
    for (; *name != '\0'; name++) text_char(out, *name == '_' ? ' ' : *name);
}

static void put_label(text *out, const field *f, unit_system units)
{
    const unit *u = unit_shown(f->dimension, units);
    put_words(out, f->name);
    if (u == NULL) return;
    text_put(out, ", ");
    html_unit(out, u->name);
}

static void put_head(text *out, const field *f, unit_system units)
{
    text_format(out, "<th scope=\"col\"%s>", f->kind == FIELD_NUMBER ? " class=\"n\"" : "");
    put_label(out, f, units);
    text_put(out, "</th>");
}

/* What the sentence and the drawings give in per cent stands in the table so, too: margins, their deviation, shares. */
static bool is_share(const field *f)
{
    return f->dimension == DIM_NONE
        && (strstr(f->name, "margin") != NULL || strstr(f->name, "share") != NULL || strncmp(f->name, "short_", 6) == 0
            || strcmp(f->name, "stiffness_change") == 0);
}

static bool is_signed(const field *f)
{
    return strcmp(f->name, "stiffness_change") == 0
        || (strstr(f->name, "margin") != NULL && strcmp(f->name, "margin_sd") != 0 && strcmp(f->name, "spread of margin") != 0);
}

static void put_plain_number(text *out, const field *f, double value)
{
    if (is_share(f) && isfinite(value))
        text_format(out, is_signed(f) ? "%+.2f %%" : "%.2f %%", 100 * value);
    else
        put_number(out, value, 5);
}

/* A verdict has its mark, so that nobody needs colours to tell them apart. */
static const char *mark_of(const field *f, const char *word)
{
    if (strcmp(f->name, "verdict") != 0) return "";
    return strcmp(word, "holds") == 0 ? "✓ " : strcmp(word, "short") == 0 ? "✗ " : "";
}

static void put_cell(text *out, const field *f, const void *record, unit_system units, bool first)
{
    const char *word = field_text(f, record);
    first = first && !(word != NULL && *word == '\0'); /* a heading without a word is none */
    const char *name = first ? "th" : "td";
    text_format(out, "<%s%s", name, first ? " scope=\"row\"" : " data-label=\"");
    if (!first) put_label(out, f, units);
    text_format(out, "%s%s>", first ? "" : "\"", f->kind == FIELD_NUMBER ? " class=\"n\"" : f->kind == FIELD_TEXT ? " class=\"t\"" : "");
    if (word != NULL) {
        text_put(out, mark_of(f, word));
        html_text(out, word);
    } else {
        put_plain_number(out, f, shown(field_get(f, record), f->dimension, units));
    }
    text_format(out, "</%s>", name);
}

/* So many columns have room for whole words on a desk and on paper; of more, words break. */
enum { WHOLE_MOST = 14 };

void page_table(text *out, const field_list *list, const void *records, size_t count, unit_system units,
                const char *caption_words)
{
    if (count == 0) return;
    text_format(out, "<table class=\"stack list%s\">", list->count <= WHOLE_MOST ? " whole" : "");
    html_element(out, "caption", NULL, caption_words);
    text_put(out, "\n<thead><tr>");
    for (size_t i = 0; i < list->count; i++) put_head(out, &list->fields[i], units);
    text_put(out, "</tr></thead>\n<tbody>\n");
    for (size_t k = 0; k < count; k++) {
        text_put(out, "<tr>");
        for (size_t i = 0; i < list->count; i++)
            put_cell(out, &list->fields[i], (const char *)records + k * list->record_size, units, i == 0);
        text_put(out, "</tr>\n");
    }
    text_put(out, "</tbody></table>\n");
}

/* ---- sentence, value and figure ----------------------------------------------------------------------------- */

const char *page_said(const text *t)
{
    return t->at != NULL ? t->at : "";
}

void page_column_name(text *out, const field *f, unit_system units)
{
    text_format(out, "%s%s%s", f->name, f->dimension != DIM_NONE ? ", " : "", unit_name(f->dimension, units));
}

void page_caution(text *out)
{
    html_element(out, "p", "about", assumptions);
    html_element(out, "p", "about", caution);
    text_char(out, '\n');
}

void page_verdict(text *out, bool fine, const text *sentence)
{
    text_format(out, "<p class=\"verdict %s\">", fine ? "holds" : "short");
    html_text(out, page_said(sentence));
    text_put(out, "</p>\n");
}

void page_finding(text *out, bool fault, const text *sentence)
{
    html_element(out, "p", fault ? "verdict short" : "verdict", page_said(sentence));
    text_char(out, '\n');
}

void page_sentence(text *out, bool fine, const text *sentence)
{
    page_verdict(out, fine, sentence);
    page_caution(out);
}

void page_frame_sentence(text *out, bool fine, const text *sentence)
{
    page_verdict(out, fine, sentence);
    html_element(out, "p", "about", frame_assumptions);
    html_element(out, "p", "about", caution);
    text_char(out, '\n');
}

void page_plain_sentence(text *out, bool fine, const text *sentence)
{
    page_verdict(out, fine, sentence);
    html_element(out, "p", "about", caution);
    text_char(out, '\n');
}

static void begin_study(text *out, const char *heading)
{
    text_put(out, "<figure class=\"study\">");
    html_element(out, "h2", NULL, heading);
}

void page_begin_figure(text *out, const char *heading, double high, const char *title)
{
    begin_study(out, heading);
    chart_open(out, FIGURE_WIDTH, high, title, "");
}

void page_begin_chart(text *out, const char *heading, double high, const char *title)
{
    begin_study(out, heading);
    chart_open_stops(out, FIGURE_WIDTH, high, title);
}

void page_end_figure(text *out, const char *words)
{
    chart_close(out);
    html_element(out, "figcaption", NULL, words);
    text_put(out, "</figure>\n");
}

void page_short_name(text *out, const char *name, size_t most)
{
    shorten(out, name, most);
}

void page_words_figure(text *out, const char *heading, const char *words)
{
    begin_study(out, heading);
    html_element(out, "p", NULL, words);
    text_put(out, "</figure>\n");
}

void page_stretch(double value, double *low, double *high)
{
    if (!isfinite(value)) return;
    *low = fmin(*low, value);
    *high = fmax(*high, value);
}

void page_margin_range(chart *c, double low, double high)
{
    if (!(high >= low)) low = high = 0;
    const double top = fmin(fmax(high, 0), fmax(3, 1.5 * low)), span = fmax(top - fmin(low, 0), 0.1);
    const double step = chart_ticks_in(0, 100 * span, 6).step;
    c->y_low = step * floor(100 * fmin(low, 0) / step);
    c->y_high = fmax(step, step * ceil(100 * top / step));
}

void page_value(text *out, double own, dimension d, unit_system units, int digits)
{
    const unit *u = unit_shown(d, units);
    put_number(out, u != NULL && isfinite(own) ? unit_from_own(u, own) : own, digits);
    if (u == NULL || !isfinite(own)) return;
    text_char(out, ' ');
    html_unit(out, u->name);
}

void page_quantity(text *out, double own, dimension d, unit_system units)
{
    put_bare(out, own, d, units, ROUND_NEAREST);
    text_char(out, ' ');
    html_unit(out, unit_name(d, units));
}

void page_begin_numbers(text *out)
{
    text_put(out, "<details><summary>All numbers</summary>\n");
}

void page_end_numbers(text *out)
{
    text_put(out, "</details>\n");
}

void page_refused(text *out, const page_head *head)
{
    if (head->refused == 1)
        text_put(out, "<p><strong>One row could not be checked and is not on this page:</strong> the messages of the run "
                      "name it.</p>\n");
    else if (head->refused > 1)
        text_format(out, "<p><strong>%zu rows could not be checked and are not on this page:</strong> the messages of the "
                         "run name them.</p>\n", head->refused);
    else if (head->faults)
        text_put(out, "<p><strong>Not everything could be read:</strong> the messages of the run say what.</p>\n");
}
