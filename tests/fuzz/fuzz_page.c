/* Hostile text and numbers through the page that --report writes: the page's own tags stay balanced and nothing of the
 * text becomes a tag of its own. */
#include "feed.h"

#include "report/page/card.h"
#include "report/page/front.h"

#include <math.h>
#include <railbow/detail.h>

static size_t count_of(const text *page, const char *what)
{
    size_t count = 0;
    for (const char *at = page->at; (at = strstr(at, what)) != NULL; at += strlen(what)) count++;
    return count;
}

static size_t tags_of(const char *name, const char *note, const check_row *numbers, const picture *p, working *w)
{
    text out = {0};
    check_row row = *numbers;
    row.given.name = name, row.given.note = note, row.given.material = name;
    row.governs = note;
    row.result.remarks = RBOW_REMARK_SLENDER | RBOW_REMARK_STIFF_ENDS;
    check_row rows[] = {row, row};
    rows[1].detail = (governing_detail){.governs = true, .kind = RBOW_DETAIL_HOLE, .mode = RBOW_DETAIL_BY_YIELD, .factor = 1, .required = 1.5};
    const char *words[] = {name, note};
    const run_facts facts = {.version = name, .words = words, .word_count = 2, .inputs = words, .input_count = 2,
                             .materials = name, .materials_sha256 = note};
    const page_head head = {.title = name, .by = note, .note = name, .date = note, .units = UNITS_US, .facts = &facts};
    page_open(&out, &head);
    size_t order[] = {0, 1};
    page_front(&out, &head, rows, &(sheets){.order = order, .cases = 2, .count = 1}, &(advice){.count = 0});
    page_card(&out, &head, &row, 1, p, w);
    page_close(&out, &head);
    const size_t tags = count_of(&out, "<");
    if (memchr(out.at, '\0', out.length) != NULL || count_of(&out, "<script>x") > 0) abort();
    text_free(&out);
    return tags;
}

static double number_of(const uint8_t *data, size_t size, size_t i)
{
    double value = 0;
    if ((i + 1) * sizeof value <= size) memcpy(&value, data + i * sizeof value, sizeof value);
    return value;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static picture p;
    static working w;
    char *first = malloc(size + 2), *plain = malloc(size + 2);
    if (first == NULL || plain == NULL) abort();
    if (size > 0) memcpy(first, data, size);
    first[size] = first[size + 1] = '\0';
    const char *second = first + strlen(first) + 1;
    if (second > first + size) second = first + size;
    memset(plain, 'x', size + 1);
    plain[strlen(first)] = '\0';
    const char *other = *second != '\0' ? "x" : "";

    check_row row = {.given.member = {.od = 1.25, .wall = 0.05, .factor = 1, .factor_yield = 1, .length = 30}};
    row.result.margin = number_of(data, size, 1);
    row.result.slenderness = number_of(data, size, 2);
    row.result.column_load = number_of(data, size, 3);
    p.curves[0].name = "johnson";
    p.curve_count = 1;
    p.length = number_of(data, size, 4);
    p.states[PICTURE_LOADED].moment[7] = number_of(data, size, 5);
    p.states[PICTURE_LOADED].up[9] = number_of(data, size, 6);
    p.slenderness[3] = number_of(data, size, 7);
    if (tags_of(first, second, &row, &p, &w) != tags_of(plain, other, &row, &p, &w)) abort();
    free(first);
    free(plain);
    return 0;
}
