/* Loads and supports on the drawings of a frame. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_LOADS_H
#define RAILBOW_REPORT_PAGE_FRAME_LOADS_H

#include "report/page/frame/frame_paper.h"
#include "table/unit.h"

/* The forces of a run and those of the supports as arrows; their lengths go with the root of the force. */
void frame_loads_put(const frame_paper *v, const frame_answers *a, size_t run);

/* The scale of the arrows in words, and what they do not show. */
void frame_loads_caption(text *out, const frame_answers *a, size_t run, unit_system units);

#endif
