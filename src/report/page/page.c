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

/* A page that is only looked at opens no connection and runs nothing. */
static const char still_policy[] = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

void page_open(text *out, const page_head *head)
{
    const char *title = head->title != NULL ? head->title : "Tube check";
    text_put(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
                  "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
                  "<meta name=\"color-scheme\" content=\"light dark\"/>\n<meta name=\"generator\" content=\"railbow\"/>\n");
    text_format(out, "<meta http-equiv=\"Content-Security-Policy\" content=\"%s\"/>\n", head->policy != NULL ? head->policy : still_policy);
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

/* What somebody needs to do it again, or to see that it was done on these files: pairs of a name and a value, and room to sign. */
static void put_pair(text *out, const char *name, const char *value, const char *digest)
{
    html_element(out, "dt", NULL, name);
    text_put(out, "<dd>");
    html_text(out, value);
    if (*digest != '\0') {
        text_put(out, "<br/><span class=\"digest\">SHA-256 ");
        html_text(out, digest);
        text_put(out, "</span>");
    }
    text_put(out, "</dd>\n");
}

static void put_command(text *out, const run_facts *facts)
{
    text words = {0};
    for (size_t i = 0; i < facts->word_count; i++) {
        if (i > 0) text_char(&words, ' ');
        put_word(&words, facts->words[i]);
    }
    put_pair(out, "Command", text_string(&words, &out->failed), "");
    text_free_part(&words, out);
}

static void put_record(text *out, const page_head *head)
{
    const run_facts *facts = head->facts;
    text_put(out, "<section class=\"record\">\n");
    html_element(out, "h2", NULL, head->record != NULL ? head->record : "What was checked");
    text_put(out, "\n<p class=\"soft\">Who has the same files, with the same SHA-256, gets the "
                  "same numbers from this command and version.</p>\n<dl>\n");
    put_pair(out, "Program", "railbow", "");
    put_pair(out, "Version", facts->version, "");
    put_command(out, facts);
    for (size_t i = 0; i < facts->input_count; i++)
        put_pair(out, "Input", facts->inputs[i], facts->sha256_of != NULL ? facts->sha256_of(facts->inputs[i]) : "");
    if (facts->materials != NULL) put_pair(out, "Materials", facts->materials, facts->materials_sha256);
    if (facts->curves != NULL) put_pair(out, "S-N curves", facts->curves, facts->curves_sha256);
    const char *good = head->tolerance != NULL ? head->tolerance : "closed forms to nine digits, load factors and margins to seven, clocks to 0.1°";
    if (*good != '\0') put_pair(out, "Good to", good, "");
    put_pair(out, "Clocks", "as seen from joint A toward B: 0° is up, 90° to the right", "");
    text_put(out, "</dl>\n<p class=\"sign\"><span>Checked by</span><span>Date</span></p>\n</section>\n");
}

void page_close(text *out, const page_head *head)
{
    put_record(out, head);
    text_put(out, "</main>\n<footer>");
    html_element(out, "p", NULL, caution);
    text_put(out, "</footer>\n");
    if (head->tail != NULL) head->tail(out, head);
    text_put(out, "</body>\n</html>\n");
}
