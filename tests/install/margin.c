/* The example of DEVELOPERS.md: a program of somebody else's that links the library. */
#include <gsl/gsl_errno.h>
#include <railbow/railbow.h>
#include <stdio.h>

int main(void)
{
    gsl_set_error_handler_off();
    const rbow_material steel = {
        .name = "4130", .elastic_modulus = 29e6, .density = 0.283, .yield = 75e3, .compression_yield = 75e3,
        .weld_yield = 60e3, .column_intercept = 79.5e3, .column_curve = RBOW_CURVE_JOHNSON,
    };
    rbow_member rail = rbow_member_default(); /* pinned, no load, load factor 1.5 */
    rail.od = 1.25;
    rail.wall = 0.058;
    rail.length = 36;
    rail.compression = 4000;
    rail.bow = 0.03;

    rbow_result result;
    const rbow_status status = rbow_member_check(&rail, &steel, &result);
    if (status != RBOW_OK) {
        printf("%s %s\n", rbow_status_input(status), rbow_status_text(status));
        return 1;
    }
    printf("margin %+.3f, peak moment %.1f in-lbf\n", result.margin, result.peak_moment);
    return 0;
}
