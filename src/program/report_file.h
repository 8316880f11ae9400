/* The page that --report names, as every command begins and ends it. */
#ifndef RAILBOW_PROGRAM_REPORT_FILE_H
#define RAILBOW_PROGRAM_REPORT_FILE_H

#include "program/case_run.h"
#include "report/page/page.h"

page_head report_head(const case_run *run, const output *page, int status);

/* Writes a page whose middle is `body`, and empties it. Returned: false after a message. */
bool report_write(output *page, const page_head *head, text *body);

#endif
