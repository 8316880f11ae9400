#include "report/page/tube_marks.h"

#include "report/chart/marks.h"

static void take(const picture *p, chart_mark marks[CHART_MARKS_MOST])
{
    for (size_t i = 0; i < p->mark_count && i < CHART_MARKS_MOST; i++) marks[i] = (chart_mark){p->marks[i].at, p->marks[i].name, p->marks[i].holds};
}

void page_marks(text *out, const picture *p, double left, double width, double y)
{
    chart_mark marks[CHART_MARKS_MOST];
    take(p, marks);
    if (p->mark_count > 0) chart_marks(out, marks, p->mark_count, left, width, p->length, y);
}

void page_mark_list(text *out, const picture *p)
{
    chart_mark marks[CHART_MARKS_MOST];
    take(p, marks);
    if (p->mark_count == 0) return;
    text_char(out, ' ');
    chart_mark_list(out, marks, p->mark_count);
}
