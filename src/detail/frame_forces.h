/* What acts at a place of a tube of a frame. */
#ifndef RAILBOW_DETAIL_FRAME_FORCES_H
#define RAILBOW_DETAIL_FRAME_FORCES_H

#include "detail/model.h"
#include "frame/path.h"

/* Run, fit and bows as they are set; a factor of any sign; the side as in rbow_forces_of. Status: RBOW_OK | RBOW_UNSTABLE */
rbow_status rbow_frame_forces_signed(rbow_frame_solver *s, double factor, size_t tube, double at, place_side side, rbow_section_forces *f);

#endif
