/* A materials table from any bytes, and a plain tube checked with each of its rows. */
#include "feed.h"

#include "cases/case_table.h"
#include "cases/material_table.h"

#include <gsl/gsl_errno.h>
#include <math.h>

static void check_one(const void *record, void *context)
{
    size_t *count = context;
    rbow_material k = *(const rbow_material *)record;
    rbow_member m = rbow_member_default();
    rbow_status faults[40];
    rbow_result r;
    if (++*count > 20) return;
    if (isnan(k.compression_yield)) k.compression_yield = k.yield;
    if (isnan(k.weld_yield)) k.weld_yield = k.yield;
    if (isnan(k.column_intercept)) k.column_intercept = k.compression_yield;
    m.od = 1.25, m.wall = 0.058, m.length = 30, m.compression = 1000, m.end_a = RBOW_WELDED, m.bow = 0.05;
    m.weld_zone = 1, m.miss_a = 0.1;
    const size_t wrong = rbow_member_faults(&m, &k, faults, 40);
    const rbow_status status = rbow_member_check(&m, &k, &r);
    if (wrong > 0 && status != faults[0]) abort();
    if (status == RBOW_OK && (isnan(r.margin) || r.margin < -1)) abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    rbow_material prototype;
    size_t count = 0;
    gsl_set_error_handler_off();
    field_defaults(&material_list, &prototype);
    feed_table(&material_list, &prototype, data, size, check_one, &count);
    return 0;
}
