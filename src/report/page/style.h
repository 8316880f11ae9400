/* The style sheet of every page. */
#ifndef RAILBOW_REPORT_PAGE_STYLE_H
#define RAILBOW_REPORT_PAGE_STYLE_H

extern const char page_style[];

#endif
