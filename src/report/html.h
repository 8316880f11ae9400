/* What users wrote, made safe for a page that is HTML and XML at once. */
#ifndef RAILBOW_REPORT_HTML_H
#define RAILBOW_REPORT_HTML_H

#include "table/text.h"

/* Adds a text with its markup escaped; controls show as escapes (text_add_printable), what XML does
 * not allow is left out, what is not UTF-8 shows as
 * the replacement character. Safe between tags and in quoted attributes. */
void html_text(text *out, const char *string);

/* The name of a unit with its powers raised: in^2 as in². */
void html_unit(text *out, const char *name);

/* One element of text with a class (NULL for none): <p class="...">...</p>. */
void html_element(text *out, const char *name, const char *style, const char *string);

#endif
