/* Tubes and joints on a drawing of a frame, and the key to their lines. */
#ifndef RAILBOW_REPORT_PAGE_FRAME_LINES_H
#define RAILBOW_REPORT_PAGE_FRAME_LINES_H

#include "report/page/frame/frame_paper.h"

/* A tube as drawn. Its element bears the name of the tube as data-tube, and as data-label the words that stand beside it.
 * Given: style  class of its line; title  what a pointer on it reads; label  NULL for none */
void frame_tube_line(const frame_paper *v, const frame_model *m, size_t tube, const char *style, const char *title, const char *label);

/* Its middle. */
void frame_tube_middle(const frame_model *m, size_t tube, double middle[RBOW_AXES]);

/* Every joint: a dot, and a square where a support holds it. */
void frame_joint_marks(const frame_paper *v, const frame_model *m);

/* "--- what the line means", in a paragraph of the class `keys`. */
void frame_key_line(text *out, const char *style, const char *meaning);

#endif
