/* The page of an answer: one HTML file that opens from a disk, needs nothing else, and prints. */
#ifndef RAILBOW_REPORT_PAGE_PAGE_H
#define RAILBOW_REPORT_PAGE_PAGE_H

#include "report/facts.h"
#include "table/text.h"
#include "table/unit.h"

typedef struct page_head page_head;
struct page_head {
    const char *title, *by, *note, *date; /* NULL for none */
    size_t refused;                       /* rows without an answer                      */
    bool faults;                          /* something kept a verdict from being given   */
    bool working;                         /* shown and printed */
    bool all_sheets;                      /* each case has one, not the short and the tightest alone */
    bool alone;                           /* one case: its charts have many stops */
    const char *tolerance;                /* what the numbers are good for; NULL: those of a check; "": not said */
    unit_system units;
    const run_facts *facts;
    const char *record; /* heading of the list of what went in; NULL: "What was checked" */
    const char *policy; /* what the page may do; NULL: not said */
    void (*tail)(text *out, const page_head *head); /* adds what stands at the end of the body; NULL for nothing */
};

void page_open(text *out, const page_head *head);
void page_close(text *out, const page_head *head);

#endif
