/* The answer about one detail and its working, for a terminal. */
#ifndef RAILBOW_REPORT_TEXT_DETAIL_WORKING_TEXT_H
#define RAILBOW_REPORT_TEXT_DETAIL_WORKING_TEXT_H

#include "report/screen.h"
#include "table/text.h"
#include "working/detail_working.h"

/* The verdict in words, what the remarks mean, and every step. */
void detail_working_text(text *out, const detail_worked *d, const working *w, const screen *s);

#endif
