/* The joints of a frame as tables in its text. */
#ifndef RAILBOW_REPORT_TEXT_FRAME_FRAME_JOINT_TEXT_H
#define RAILBOW_REPORT_TEXT_FRAME_FRAME_JOINT_TEXT_H

#include "cases/frame_results.h"
#include "report/screen.h"
#include "table/text.h"

/* For each run that has an answer: the movements of the joints, and the forces and moments of the supports. */
void frame_joints_text(text *out, const frame_answers *a, const screen *s);

#endif
