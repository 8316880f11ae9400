/* Load cases from any bytes: read, checked, and written in every format. */
#include "feed.h"

#include "program/case_check.h"
#include "program/exit_status.h"
#include "report/text/check_text.h"
#include "report/json/json.h"
#include "table/writer.h"

#include <gsl/gsl_errno.h>
#include <math.h>

static const rbow_material steel = {"4130", 0, INFINITY, 29e6, 11e6, 0.283, 75e3, 75e3, 95e3, 60e3, 79.5e3,
                                    RBOW_CURVE_JOHNSON, ""};

static void check_one(const void *record, void *context)
{
    size_t *count = context;
    checked answer;
    text said = {0}, out = {0};
    char file[] = "steel";
    const materials m = {.file = file, .list = &steel, .count = 1};
    const source_line at = {"fuzz", 1};
    if (++*count > 20) return;
    if (check_case(&m, record, &at, &answer, NULL, &said) == NO_VERDICT) {
        if (said.length == 0) abort();
    } else {
        for (unit_system units = UNITS_US; units <= UNITS_SI; units++) {
            csv_row(&out, &check_list, &answer.row, units);
            json_row(&out, &check_list, &answer.row, units);
            check_text(&out, &answer.row, 1, NULL, 0, false, &(advice){.count = 0}, &(screen){.width = SCREEN_WIDTH, .units = units, .colour = units == UNITS_SI});
        }
        if (memchr(out.at, '\0', out.length) != NULL) abort();
    }
    text_free(&said);
    text_free(&out);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    load_case prototype;
    size_t count = 0;
    gsl_set_error_handler_off();
    field_defaults(&case_list, &prototype);
    feed_table(&case_list, &prototype, data, size, check_one, &count);
    return 0;
}
