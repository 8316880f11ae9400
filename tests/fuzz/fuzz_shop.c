/* What comes from the shop, from any bytes: gauge readings, specs, cuts and pulls; what is fitted to them, worked out
 * and written. The first byte picks the table. */
#include "feed.h"

#include "cases/inspect_table.h"
#include "cases/pull_table.h"
#include "cases/release_table.h"
#include "report/json/json.h"
#include "report/text/inspect_text.h"
#include "report/text/pull_text.h"
#include "report/text/release_text.h"
#include "table/writer.h"

#include <railbow/readings.h>

#include <gsl/gsl_errno.h>
#include <math.h>

enum { ROWS_MOST = 20 };

typedef struct bore {
    rbow_wall_reading walls[ROWS_MOST];
    size_t count;
} bore;

static void write_out(const field_list *list, const void *row, text *words)
{
    text out = {0};
    for (unit_system units = UNITS_US; units <= UNITS_SI; units++) {
        csv_row(&out, list, row, units);
        json_row(&out, list, row, units);
    }
    if (memchr(out.at, '\0', out.length) != NULL || (words->length > 0 && memchr(words->at, '\0', words->length) != NULL)) abort();
    text_free(&out);
    text_free(words);
}

static void take_reading(const void *record, void *context)
{
    const reading_row *r = record;
    bore *b = context;
    text words = {0};
    const inspect_row row = {.tag = r->tag, .part = r->part, .od_mean = r->reading, .bore = {.mean = r->reading, .thin_clock = r->clock},
                             .reason = r->part, .name = r->tag};
    inspect_text(&words, &row, 1, &(screen){.width = SCREEN_WIDTH, .units = UNITS_US, .colour = true});
    write_out(&inspect_cases_list, &row, &words);
    if (r->measure != MEASURE_WALL || isnan(r->clock) || b->count == ROWS_MOST) return;
    b->walls[b->count++] = (rbow_wall_reading){r->clock, r->reading};
    rbow_bore fit;
    if (rbow_bore_fit(b->walls, b->count, &fit) == RBOW_OK && !(isfinite(fit.mean) && fit.offset >= 0)) abort();
}

static void take_spec(const void *record, void *context)
{
    (void)record, (void)context;
}

static void take_cut(const void *record, void *context)
{
    const cut_row *c = record;
    rbow_cut cut = c->cut;
    rbow_released r;
    text words = {0};
    (void)context;
    cut.elastic_modulus = 29e6;
    if (rbow_release(&cut, &r) != RBOW_OK) return;
    if (!isfinite(r.fit_stress) || !(r.moment_a >= 0)) abort();
    const release_row row = {.name = c->name, .found = r};
    release_text(&words, &row, 1, &(screen){.width = SCREEN_LEAST, .units = UNITS_SI});
    write_out(&release_list, &row, &words);
}

static void take_pull(const void *record, void *context)
{
    const pull_row *p = record;
    rbow_pull pull = p->pull;
    rbow_pulled r;
    text words = {0};
    (void)context;
    pull.elastic_modulus = 29e6;
    pull.yield = 75e3;
    if (rbow_pull_straight(&pull, &r) != RBOW_OK) return;
    if (!r.beyond && !(r.travel >= pull.set)) abort();
    const pulled_row row = {.name = p->name, .set = pull.set, .found = r};
    pull_text(&words, &row, 1, &(screen){.width = SCREEN_WIDTH, .units = UNITS_US});
    write_out(&pulled_list, &row, &words);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const struct {
        const field_list *list;
        void (*take)(const void *, void *);
    } tables[] = {{&reading_list, take_reading}, {&cut_list, take_cut}, {&pull_list, take_pull}, {&spec_list, take_spec}};
    union {
        reading_row reading;
        cut_row cut;
        pull_row pull;
        spec_row spec;
    } prototype;
    bore b = {.count = 0};
    gsl_set_error_handler_off();
    if (size == 0) return 0;
    const size_t which = data[0] % (sizeof tables / sizeof *tables);
    field_defaults(tables[which].list, &prototype);
    feed_table(tables[which].list, &prototype, data + 1, size - 1, tables[which].take, &b);
    return 0;
}
