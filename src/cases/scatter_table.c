#include "cases/scatter_table.h"

#include "cases/field_lines.h"

#include <math.h>

static const field scatter_fields[] = {
    TEXT(scatter_row, "case", name, "name of the row"),
    NUMBER(scatter_row, "samples", margins.samples, DIM_NONE, "number of samples"),
    NUMBER(scatter_row, "refused", margins.refused, DIM_NONE, "samples that the model refuses"),
    NUMBER(scatter_row, "short_share", margins.short_share, DIM_NONE, "share of the other samples that is short"),
    NUMBER(scatter_row, "short_low", margins.short_low, DIM_NONE, "lower end of its 95 % interval (Wilson)"),
    NUMBER(scatter_row, "short_high", margins.short_high, DIM_NONE, "upper end of that interval"),
    NUMBER(scatter_row, "margin_mean", margins.mean, DIM_NONE, "mean of the finite margins"),
    NUMBER(scatter_row, "margin_sd", margins.sd, DIM_NONE, "standard deviation of the finite margins"),
    NUMBER(scatter_row, "margin_p01", margins.p01, DIM_NONE, "1 % of the finite margins lie below"),
    NUMBER(scatter_row, "margin_p05", margins.p05, DIM_NONE, "5 % lie below"),
    NUMBER(scatter_row, "margin_p50", margins.p50, DIM_NONE, "half of them lie below"),
    NUMBER(scatter_row, "margin_p95", margins.p95, DIM_NONE, "95 % lie below"),
    TEXT(scatter_row, "driver", driver, "column that contributes most to the spread of the margin"),
    NUMBER(scatter_row, "driver_share", driver_share, DIM_NONE, "its first-order share of the margin's variance"),
};
const field_list scatter_list = FIELD_LIST("scatter", scatter_fields, scatter_row);

void scatter_fill_bars(scatter_row *answer, const double margins[], size_t count)
{
    if (count == 0) return;
    answer->low = margins[0];
    answer->high = margins[count - 1];
    double width = (answer->high - answer->low) / SCATTER_BARS;
    if (answer->low < 0 && answer->high > 0) { /* 0 is a boundary between bars */
        width = (answer->high - answer->low) / (SCATTER_BARS - 1);
        answer->low = width * floor(answer->low / width);
        answer->high = answer->low + SCATTER_BARS * width;
    }
    for (size_t i = 0; i < count; i++) {
        const double at = width > 0 ? (margins[i] - answer->low) / width : 0;
        answer->bars[at < SCATTER_BARS ? (int)at : SCATTER_BARS - 1]++;
    }
}
