#include "report/chart/marks.h"

#include "report/chart/chart.h"
#include "report/html.h"

#include <math.h>
#include <stdio.h>

enum { NUMBER_WIDE = 15 };

static size_t drawn(size_t count)
{
    return count < CHART_MARKS_MOST ? count : CHART_MARKS_MOST;
}

/* The marks in the order of their places. */
static void put_in_order(const chart_mark marks[], size_t count, size_t order[CHART_MARKS_MOST])
{
    for (size_t i = 0; i < count; i++) {
        size_t k = i;
        for (; k > 0 && marks[order[k - 1]].at > marks[i].at; k--) order[k] = order[k - 1];
        order[k] = i;
    }
}

void chart_marks(text *out, const chart_mark marks[], size_t count, double left, double width, double length, double y)
{
    size_t order[CHART_MARKS_MOST];
    double x[CHART_MARKS_MOST], number[CHART_MARKS_MOST];
    const size_t n = drawn(count);
    const double gap = n > 1 ? fmin(NUMBER_WIDE, width / (double)(n - 1)) : NUMBER_WIDE;
    put_in_order(marks, n, order);
    for (size_t i = 0; i < n; i++) x[i] = number[i] = left + width * marks[order[i]].at / length;
    chart_spread(number, n, gap, left, left + width);
    for (size_t i = 0; i < n; i++) {
        const chart_mark *m = &marks[order[i]];
        char words[24];
        snprintf(words, sizeof words, "%zu", order[i] + 1);
        if (fabs(number[i] - x[i]) > 1)
            text_format(out, "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" class=\"leader\"/>\n", x[i], y - 4, number[i], y - 12);
        text_format(out, "<path d=\"M%.2f %.2fl4.5 4.5l-4.5 4.5l-4.5 -4.5Z\" class=\"%s\"/>\n", x[i], y - 4.5, m->holds ? "dot" : "dot-red");
        chart_words(out, number[i], y - 14, "middle", m->holds ? "halo bold" : "halo bold red", words);
    }
}

void chart_mark_list(text *out, const chart_mark marks[], size_t count)
{
    for (size_t i = 0; i < drawn(count); i++) {
        text_format(out, i == 0 ? "Details: %zu " : ", %zu ", i + 1);
        html_text(out, marks[i].name);
        if (!marks[i].holds) text_put(out, " (short)");
    }
    if (count > CHART_MARKS_MOST) text_format(out, " and %zu more", count - CHART_MARKS_MOST);
    if (count > 0) text_char(out, '.');
}
