/* The answer of release in words. */
#ifndef RAILBOW_REPORT_TEXT_RELEASE_TEXT_H
#define RAILBOW_REPORT_TEXT_RELEASE_TEXT_H

#include "cases/release_table.h"
#include "report/screen.h"
#include "table/text.h"

void release_text(text *out, const release_row *rows, size_t count, const screen *s);

#endif
