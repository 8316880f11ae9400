/* What the page of a frame says under its verdict, in sentences. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_FINDINGS_H
#define RAILBOW_REPORT_PAGE_FRAME_FINDINGS_H

#include "cases/frame_results.h"
#include "table/text.h"

/* Where the worst tube is at its limit, what is locked in and what it costs, how stiff the joints are, the weight and the
 * remarks. At least one run has an answer. */
void frame_findings(text *out, const frame_answers *a, unit_system units);

#endif
