#include "report/page/detail/life_page.h"

void page_life(text *out, const page_head *head, const life_told *t)
{
    (void)head;
    (void)t;
    text_put(out, "");
}
