/* What the texts are told of the output that they go to. */
#ifndef RAILBOW_PROGRAM_SCREEN_OF_H
#define RAILBOW_PROGRAM_SCREEN_OF_H

#include "program/output.h"
#include "program/refused.h"
#include "report/screen.h"

/* faults: some rows have no answer, or not everything could be read. refused: which rows; NULL where that is not known.
 * words: takes what the screen says of them; to be freed after the screen was used. */
screen screen_of(const output *out, bool faults, const refused_rows *refused, text *words);

#endif
