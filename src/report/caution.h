/* What every answer says at its end, and what every answer about load cases, and about a frame, assumes. */
#ifndef RAILBOW_REPORT_CAUTION_H
#define RAILBOW_REPORT_CAUTION_H

extern const char caution[], assumptions[], frame_assumptions[];

/* The same of lives: what every life is, and what it assumes. */
extern const char life_caution[], life_assumptions[], frame_life_assumptions[];

/* Of a cut whose angle was not read. The answer of least energy is not that of the least stress. */
extern const char unread_angle[];

#endif
