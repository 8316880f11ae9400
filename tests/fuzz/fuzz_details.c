/* Details of a small case, or S-N curves, from any bytes: read, checked, and written in every format and on a page. The first byte picks
 * which, and the units. */
#include "feed.h"

#include "cases/detail/curve_table.h"
#include "cases/detail/life_table.h"
#include "program/case_check.h"
#include "program/exit_status.h"
#include "report/json/json.h"
#include "report/page/detail/detail_card.h"
#include "report/page/detail/life_page.h"
#include "report/text/check_text.h"
#include "report/text/detail_text.h"
#include "report/text/life_text.h"
#include "study/member_details.h"
#include "table/writer.h"
#include "working/detail_working.h"

#include <gsl/gsl_errno.h>
#include <math.h>

enum { DETAILS_MOST = 6, CURVES_MOST = 4 };

static const rbow_material steel = {"4130", 0, INFINITY, 29e6, 11e6, 0.283, 75e3, 75e3, 95e3, 60e3, 79.5e3,
                                    RBOW_CURVE_JOHNSON, ""};
static const run_facts facts = {.version = "0", .materials = "", .materials_sha256 = ""};
static const source_line at_line = {"fuzz", 1};

/* Forced, bowed and twisted, with a weld zone; its directions are known, so that a check is quick. */
static rbow_member small_member(void)
{
    rbow_member m = rbow_member_default();
    m.od = 1.25;
    m.wall = 0.058;
    m.length = 30;
    m.end_a = m.end_b = RBOW_FIXED;
    m.compression = 2500;
    m.torque = 300;
    m.bow = 0.03;
    m.miss_a = 0.1;
    m.bow_clock = 1;
    m.miss_a_clock = m.miss_b_clock = m.eccentricity_clock = 0;
    m.weld_zone = 1;
    m.factor = 1.5;
    return m;
}

/* ---- details --------------------------------------------------------------------------------------------------------------- */

typedef struct listed {
    detail_row rows[DETAILS_MOST];
    const detail_row *at[DETAILS_MOST];
    size_t count;
} listed;

static void take_detail(const void *record, void *context)
{
    listed *l = context;
    bool missing;
    detail_row r = *(const detail_row *)record;
    if (l->count == DETAILS_MOST || detail_size_fault(&r, &missing) != NULL || fabs(r.rosettes - round(r.rosettes)) > 0) return;
    r.of = r.sn = "";
    r.name = "<detail>";
    r.note = "a & b";
    l->rows[l->count] = r;
    l->at[l->count] = &l->rows[l->count];
    l->count++;
}

static void write_card(text *page, const load_case *c, const detail_answer *d, unit_system units)
{
    const page_head head = {.title = "Details", .units = units, .facts = &facts};
    const rbow_member taken = detail_member_taken(&c->member, &steel, &d->result);
    const detail_worked worked = {.of = d->of, .name = d->name, .note = d->note, .detail = &d->detail, .member = &taken, .material = &steel,
                                  .result = &d->result, .run = d->run};
    detail_state states[DETAIL_STATES];
    working w = {.count = 0};
    for (int i = 0; i < DETAIL_STATES; i++)
        states[i].status = rbow_member_forces(&taken, &steel, detail_state_factor(&d->result, i), d->detail.at, &states[i].forces);
    const bool worked_out = detail_working_of(&w, &d->detail, &taken, &steel, &d->result, units);
    page_detail_card(page, &head, &worked, states, worked_out ? &w : NULL);
    working_free(&w);
}

static void write_details(const load_case *c, const checked *answer, const rbow_detail_result *each, unit_system units)
{
    text said = {0}, page = {0};
    detail_answer details[DETAILS_MOST];
    char remarks[DETAILS_MOST][DETAIL_REMARKS_ROOM];
    const size_t count = c->details->count;
    for (size_t i = 0; i < count; i++) {
        details[i] = case_detail_answer(c, i, each, remarks[i]);
        csv_row(&said, &case_details_list, &details[i], units);
        json_row(&said, &case_details_list, &details[i], units);
        write_card(&page, c, &details[i], units);
    }
    const screen s = {.width = units == UNITS_SI ? SCREEN_LEAST : SCREEN_WIDTH, .units = units, .colour = units == UNITS_SI};
    details_text(&said, details, count, false, &s);
    csv_row(&said, &check_list, &answer->row, units);
    json_row(&said, &check_list, &answer->row, units);
    check_text(&said, &answer->row, 1, details, count, true, &(advice){.count = 0}, &s);
    ck_written(&said, &page);
}

/* The case has the lowest margin of its tube and its details. */
static void look_at(const checked *answer, const rbow_detail_result *each, size_t count)
{
    double least = answer->row.tube.margin;
    for (size_t i = 0; i < count; i++) {
        if (!(each[i].margin >= -1) || (each[i].verdict == RBOW_HOLDS) != (each[i].margin >= 0)) abort();
        least = fmin(least, each[i].margin);
    }
    if (answer->row.result.margin < least || answer->row.result.margin > least) abort();
}

static void fuzz_details(const uint8_t *data, size_t size, unit_system units)
{
    detail_row prototype;
    listed l = {.count = 0};
    checked answer;
    rbow_detail_result each[DETAILS_MOST];
    text complaints = {0};
    char file[] = "steel";
    const materials m = {.file = file, .list = &steel, .count = 1};
    field_defaults(&case_detail_list, &prototype);
    feed_table(&case_detail_list, &prototype, data, size, take_detail, &l);
    const member_details details = {l.at, l.count, "details"};
    const load_case c = {.name = "<case>", .note = "", .part = "", .material = "4130", .member = small_member(), .details = &details};
    const int status = check_case(&m, &c, &at_line, &answer, each, &complaints);
    if (complaints.failed || (status == NO_VERDICT) != (complaints.length > 0)) abort();
    text_free(&complaints);
    if (status == NO_VERDICT) return;
    look_at(&answer, each, l.count);
    write_details(&c, &answer, each, units);
}

/* ---- curves ---------------------------------------------------------------------------------------------------------------- */

typedef struct curve_set {
    rbow_sn_curve at[CURVES_MOST];
    size_t count;
} curve_set;

static void take_curve(const void *record, void *context)
{
    curve_set *set = context;
    text why = {0};
    curve_row r = *(const curve_row *)record;
    const bool fine = curve_fault(&r, &why) == NULL;
    if (fine != (why.length == 0)) abort();
    text_free(&why);
    if (!fine || set->count == CURVES_MOST) return;
    r.curve.name = "<curve>";
    r.curve.source = "";
    set->at[set->count++] = r.curve;
}

/* Returned: false where the library refuses the curve. */
static bool lasts(const rbow_sn_curve *curve, const rbow_detail *detail, double high, rbow_life_result *r)
{
    const rbow_member m = small_member();
    const rbow_life_row row = {&m, 1, 0, high};
    if (rbow_life_of(detail, &row, 1, &steel, curve, r) != RBOW_OK) return false;
    if (r->runs < 0) abort();
    return true;
}

/* More of the load never lasts longer; on a curve of metal the mean stress may. */
static void life_by(const rbow_sn_curve *curve, unit_system units)
{
    text said = {0}, page = {0};
    char remarks[LIFE_REMARKS_ROOM];
    life_place order[1];
    rbow_life_result half;
    life_row row = {.of = "<part>", .detail = "<detail>", .curve = curve->name, .most = "<case>", .remarks = remarks, .sn = curve,
                    .loads = 1, .given = rbow_detail_default()};
    row.given.kind = curve->kind == RBOW_SN_WELD ? RBOW_DETAIL_RING_WELD : RBOW_DETAIL_HOLE;
    row.given.at = 12;
    row.given.hole = 0.2;
    if (!lasts(curve, &row.given, 1, &row.result)) return;
    if (lasts(curve, &row.given, 0.5, &half) && half.runs < row.result.runs * (1 - 1e-9) && curve->kind == RBOW_SN_WELD) abort();
    row.unforced = row.result;
    life_remarks_write(remarks, &row);
    life_rank(&row, 1, order);
    const life_told told = {.rows = &row, .count = 1, .order = order, .curves = "<curves>"};
    life_text(&said, &told, &(screen){.width = SCREEN_LEAST, .units = units});
    csv_row(&said, &life_list, &row, units);
    json_row(&said, &life_list, &row, units);
    page_life(&page, &(page_head){.title = "Life", .units = units, .facts = &facts}, &told);
    ck_written(&said, &page);
}

static void fuzz_curves(const uint8_t *data, size_t size, unit_system units)
{
    curve_row prototype;
    curve_set set = {.count = 0};
    field_defaults(&curve_list, &prototype);
    feed_table(&curve_list, &prototype, data, size, take_curve, &set);
    for (size_t i = 0; i < set.count; i++) life_by(&set.at[i], units);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    gsl_set_error_handler_off();
    if (size < 2) return 0;
    const unit_system units = (data[0] & 2) != 0 ? UNITS_SI : UNITS_US;
    if ((data[0] & 1) == 0) fuzz_details(data + 1, size - 1, units);
    else fuzz_curves(data + 1, size - 1, units);
    return 0;
}
