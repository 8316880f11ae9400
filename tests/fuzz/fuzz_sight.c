/* Readings of bar and string, and parts and sticks, from any bytes: fitted, planned and written. The first byte picks which; a
 * zero byte stands between parts and sticks. */
#include "feed.h"

#include "report/json/json.h"
#include "report/page/shop/sight_page.h"
#include "report/page/shop/sticks_page.h"
#include "report/text/shop/sight_text.h"
#include "report/text/shop/sticks_text.h"
#include "study/cutting.h"
#include "study/sighting.h"
#include "table/writer.h"

#include <railbow/tube.h>

#include <gsl/gsl_errno.h>
#include <math.h>

enum { READINGS_MOST = 24, PIECES_MOST = 14 };

static const run_facts facts = {.version = "0", .materials = "", .materials_sha256 = ""};

/* ---- readings ---------------------------------------------------------------------------------------------------------------- */

typedef struct sighted {
    rbow_sight_reading at[READINGS_MOST];
    size_t count;
    double landing;
} sighted;

static void take_reading(const void *record, void *context)
{
    const sight_reading_row *r = record;
    sighted *s = context;
    if (s->count == READINGS_MOST) return;
    s->at[s->count++] = r->reading;
    if (!isnan(r->landing)) s->landing = r->landing;
}

static void sight_and_write(const sighted *s, int kind, unit_system units)
{
    sight_row row = {.line = "<line>", .kind = kind, .at = s->at, .count = s->count, .landing = s->landing};
    text said = {0}, page = {0};
    if (sight_line(&row) != RBOW_OK) return;
    if (!isfinite(row.found.size) || !(row.found.error >= 0) || !(row.found.size >= 0)) abort();
    sight_text(&said, &row, 1, &(screen){.width = SCREEN_LEAST, .units = units, .colour = true});
    csv_row(&said, &sight_list, &row, units);
    json_row(&said, &sight_list, &row, units);
    page_sight(&page, &(page_head){.units = units, .facts = &facts}, &row, 1);
    ck_written(&said, &page);
}

/* ---- parts and sticks ---------------------------------------------------------------------------------------------------------- */

typedef struct planned {
    part_row parts[PIECES_MOST];
    stock_row stock[PIECES_MOST];
    size_t part_count, stock_count;
    stick_row rows[4 * PIECES_MOST];
    size_t count;
} planned;

static void take_part(const void *record, void *context)
{
    planned *p = context;
    rbow_section section;
    part_row part = *(const part_row *)record;
    if (p->part_count == PIECES_MOST || rbow_section_of(part.od, part.wall, &section) != RBOW_OK) return;
    part.part = "<part>";
    part.count = 1;
    p->parts[p->part_count++] = part;
}

static void take_stock(const void *record, void *context)
{
    planned *p = context;
    stock_row stock = *(const stock_row *)record;
    if (p->stock_count == PIECES_MOST) return;
    stock.stick = "<stick>";
    stock.count = fmin(floor(stock.count), 5);
    p->stock[p->stock_count++] = stock;
}

static void take_piece(void *context, const stick_row *piece)
{
    planned *p = context;
    if (!(piece->cut_to > piece->cut_from) && piece->cut_from < 1e15) abort();
    if (piece->cut_to > piece->stick_length * (1 + 1e-9) + 1e-6) abort();
    if (p->count == 4 * PIECES_MOST) return;
    p->rows[p->count] = *piece;
    p->rows[p->count++].stick = "<stick 1>";
}

static void refuse_part(void *context, const part_row *part, cutting_fault fault, size_t pieces, double best)
{
    (void)context, (void)part, (void)fault, (void)best;
    if (pieces == 0) abort();
}

static void plan_and_write(planned *p, unit_system units)
{
    text said = {0}, page = {0};
    const cutting_task task = {.parts = p->parts, .part_count = p->part_count, .stock = p->stock, .stock_count = p->stock_count, .kerf = 0.0625,
                               .density = 0.283, .context = p, .take = take_piece, .refuse = refuse_part};
    if (!cut_sticks(&task)) abort();
    sticks_text(&said, p->rows, p->count, task.kerf, &(screen){.width = SCREEN_WIDTH, .units = units});
    for (size_t i = 0; i < p->count; i++) csv_row(&said, &stick_list, &p->rows[i], units), json_row(&said, &stick_list, &p->rows[i], units);
    if (p->count > 0) page_sticks(&page, &(page_head){.units = units, .facts = &facts}, p->rows, p->count, task.kerf);
    ck_written(&said, &page);
}

/* -------------------------------------------------------------------------------------------------------------------------------- */

static void fuzz_readings(const uint8_t *data, size_t size, unit_system units)
{
    sight_reading_row prototype;
    sighted s = {.landing = 30};
    field_defaults(&sight_reading_list, &prototype);
    feed_table(&sight_reading_list, &prototype, data, size, take_reading, &s);
    sight_and_write(&s, SIGHT_SOCKET, units);
    sight_and_write(&s, SIGHT_TUBE, units);
}

static void fuzz_sticks(const uint8_t *data, size_t size, unit_system units)
{
    part_row part;
    stock_row stick;
    planned p = {.count = 0};
    const uint8_t *zero = memchr(data, 0, size);
    const size_t first = zero != NULL ? (size_t)(zero - data) : size, rest = zero != NULL ? size - first - 1 : 0;
    field_defaults(&part_list, &part);
    field_defaults(&stock_list, &stick);
    feed_table(&part_list, &part, data, first, take_part, &p);
    feed_table(&stock_list, &stick, data + size - rest, rest, take_stock, &p);
    plan_and_write(&p, units);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    gsl_set_error_handler_off();
    if (size < 2) return 0;
    const unit_system units = (data[0] & 2) != 0 ? UNITS_SI : UNITS_US;
    if ((data[0] & 1) == 0) fuzz_readings(data + 1, size - 1, units);
    else fuzz_sticks(data + 1, size - 1, units);
    return 0;
}
