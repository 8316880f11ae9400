/* What acts at a place of a tube of a frame. */
#ifndef RAILBOW_DETAIL_FRAME_FORCES_H
#define RAILBOW_DETAIL_FRAME_FORCES_H

#include "detail/model.h"
#include "frame/path.h"

/* Run, fit and bows as they are set; a factor of any sign. Status: RBOW_OK | RBOW_UNSTABLE */
rbow_status rbow_frame_forces_signed(rbow_frame_solver *s, double factor, size_t tube, double at, rbow_section_forces *f);

#endif
