/* The signs of joints on a drawing of a tube: pin, weld, wall, spring; a free end has none. */
#ifndef RAILBOW_REPORT_PAGE_JOINT_SYMBOLS_H
#define RAILBOW_REPORT_PAGE_JOINT_SYMBOLS_H

#include "table/text.h"

typedef enum joint_kind { JOINT_PIN, JOINT_WELD, JOINT_WALL, JOINT_SPRING, JOINT_FREE } joint_kind;

enum { JOINT_DEEP = 18 }; /* how far a sign reaches out beyond the tube's end, in drawing units */

/* word: of the end as files have it; NULL for a stiffness. */
joint_kind joint_kind_of(const char *word);

/* What the sign means, for the caption: "pinned", "held by a spring". */
const char *joint_words(joint_kind kind);

/* At the end (x, y) of a tube of so much depth on the drawing; side: -1 at its left end, +1 at its right end. */
void joint_symbol(text *out, joint_kind kind, double x, double y, double side, double deep);

/* From tail to tip, with a filled head. */
void drawn_arrow(text *out, double x1, double y1, double x2, double y2);

/* An arrow that turns about (x, y), three quarters of a circle; way: +1 with the clock on the paper, -1 against it. side: where
 * its opening is, -1 left, +1 right. */
void turning_arrow(text *out, double x, double y, double radius, double way, double side);

#endif
