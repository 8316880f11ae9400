/* The readings of one tube against its specification: the fit of its bore, and a verdict with reasons. */
#ifndef RAILBOW_STUDY_INSPECTION_H
#define RAILBOW_STUDY_INSPECTION_H

#include "study/readings.h"

/* Every reading counts: the least and the most decide, and of a wall that was read twice at one clock the least. A reading
 * that cannot be makes the tube one to recheck, and the bore is then not fitted.
 * Returned: tube  means and extremes, the fit, and the verdict; no load case yet
 *           false where memory ran out */
bool inspect_tube(const tube_readings *t, inspect_row *tube, text *reasons);

#endif
