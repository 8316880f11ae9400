#include "report/page/page.h"

#include "report/caution.h"
#include "report/html.h"
#include "report/page/style.h"

static void put_about(text *out, const page_head *head)
{
    const char *parts[] = {head->by, head->date};
    const char *before[] = {"By ", ""};
    bool any = false;
    for (size_t i = 0; i < 2; i++) {
        if (parts[i] == NULL) continue;
        text_put(out, any ? " · " : "<p class=\"about\">");
        text_put(out, before[i]);
        html_text(out, parts[i]);
        any = true;
    }
    if (any) text_put(out, "</p>\n");
    if (head->note == NULL) return;
    html_element(out, "p", "about", head->note);
    text_char(out, '\n');
}

void page_open(text *out, const page_head *head)
{
    const char *title = head->title != NULL ? head->title : "Tube check";
    text_put(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
                  "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
                  "<meta name=\"color-scheme\" content=\"light dark\"/>\n<meta name=\"generator\" content=\"railbow\"/>\n");
    html_element(out, "title", NULL, title);
    text_format(out, "\n<style>\n%s</style>\n</head>\n<body>\n<header>\n", page_style);
    html_element(out, "h1", NULL, title);
    text_char(out, '\n');
    put_about(out, head);
    text_put(out, "</header>\n<main>\n");
}

void page_close(text *out)
{
    text_put(out, "</main>\n<footer>");
    html_element(out, "p", NULL, caution);
    text_put(out, "<p>Made with railbow. Clocks are seen from joint A toward B: 0 is up, 90 to the right.</p>"
                  "</footer>\n</body>\n</html>\n");
}
