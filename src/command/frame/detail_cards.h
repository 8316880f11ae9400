/* The details of a frame on a page: each in its worst run, with its working. */
#ifndef RAILBOW_COMMAND_FRAME_DETAIL_CARDS_H
#define RAILBOW_COMMAND_FRAME_DETAIL_CARDS_H

#include "program/frame/frame_solve.h"
#include "report/page/page.h"

/* The weakest first; nothing without details. Given: s  solved for the model. A long list stops after some, unless every sheet of the
 * page is asked for. */
void put_detail_cards(text *out, const page_head *head, const frame_build *b, const frame_solved *s);

#endif
