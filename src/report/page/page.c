#include "report/page/page.h"

#include "report/caution.h"
#include "report/html.h"
#include "report/page/style.h"

#include <string.h>

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
    if (head->policy != NULL) text_format(out, "<meta http-equiv=\"Content-Security-Policy\" content=\"%s\"/>\n", head->policy);
    html_element(out, "title", NULL, title);
    text_format(out, "\n<style>\n%s</style>\n</head>\n<body>\n<header>\n", page_style);
    html_element(out, "h1", NULL, title);
    text_char(out, '\n');
    put_about(out, head);
    text_put(out, "</header>\n<main>\n");
}

/* A word as a shell would need it. */
static void put_word(text *out, const char *word)
{
    const bool plain = *word != '\0'
        && strspn(word, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./:=,+%@") == strlen(word);
    if (!plain) text_put(out, "\"");
    text_put(out, word);
    if (!plain) text_put(out, "\"");
}

/* What somebody needs to do it again: program, command, files, and which materials table it was. */
static void put_origin(text *out, const run_facts *facts)
{
    text words = {0};
    text_format(&words, "Made by railbow %s with the command: ", facts->version);
    for (size_t i = 0; i < facts->word_count; i++) {
        if (i > 0) text_char(&words, ' ');
        put_word(&words, facts->words[i]);
    }
    for (size_t i = 0; i < facts->input_count; i++) {
        text_put(&words, i == 0 ? ". Read: " : ", ");
        text_put(&words, facts->inputs[i]);
    }
    text_format(&words, ". Materials: %s, SHA-256 %s.", facts->materials, facts->materials_sha256);
    html_element(out, "p", "origin", text_string(&words, &out->failed));
    text_free_part(&words, out);
}

void page_close(text *out, const page_head *head)
{
    text_put(out, "</main>\n<footer>");
    html_element(out, "p", NULL, caution);
    text_put(out, "<p>Clocks are seen from joint A toward B: 0 is up, 90 to the right.</p>");
    put_origin(out, head->facts);
    text_put(out, "</footer>\n");
    if (head->tail != NULL) head->tail(out, head);
    text_put(out, "</body>\n</html>\n");
}
