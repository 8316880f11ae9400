#include "study/frame_target.h"

rbow_status frame_try(const frame_problem *p, const frame_target targets[], const double values[], size_t count, double most,
                      frame_lowest *lowest)
{
    frame_problem tried;
    rbow_status status = frame_problem_copy(&tried, p) ? RBOW_OK : RBOW_NO_MEMORY;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < targets[i].count && status == RBOW_OK; k++)
            status = frame_parameter_set(&tried, targets[i].at[k], values[i]);
    if (status == RBOW_OK) status = frame_problem_margin(&tried, most, lowest);
    frame_problem_close(&tried);
    return status;
}
