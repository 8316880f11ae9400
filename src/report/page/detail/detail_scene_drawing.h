/* The section along a sleeve, a socket or a ring weld, and its weld enlarged. */
#ifndef RAILBOW_REPORT_PAGE_DETAIL_DETAIL_SCENE_DRAWING_H
#define RAILBOW_REPORT_PAGE_DETAIL_DETAIL_SCENE_DRAWING_H

#include "table/text.h"
#include "table/unit.h"
#include "working/detail_working.h"

void draw_scene(text *out, const detail_worked *d, unit_system units);

#endif
