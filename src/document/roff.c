#define _POSIX_C_SOURCE 200809L /* popen */
#include "document/roff.h"

#include "program/exit_status.h"
#include "program/say.h"
#include "table/utf8.h"

#include <railbow/version.h>

#include <stdio.h>
#include <string.h>
#include <sys/wait.h>

void roff_title(text *out, const char *name, int section)
{
    text_put(out, ".\\\" Made of the program's own lists while it was built.\n");
    text_format(out, ".TH %s %d \"\" \"railbow %s\" \"railbow\"\n", name, section, RBOW_VERSION);
}

void roff_section(text *out, const char *name)
{
    text_format(out, ".SH %s\n", name);
}

/* A character of UTF-8 by its number. */
static void put_character(text *out, const char *bytes, size_t n)
{
    unsigned long code = (unsigned char)bytes[0] & (0xFFU >> (n + 1));
    for (size_t i = 1; i < n; i++) code = code << 6 | ((unsigned char)bytes[i] & 0x3FU);
    text_format(out, "\\[u%04lX]", code);
}

static void put_letter(text *out, char c)
{
    switch (c) {
        case '\\': text_put(out, "\\(rs"); break;
        case '-': text_put(out, "\\-"); break;
        case '\'': text_put(out, "\\(aq"); break;
        case '"': text_put(out, "\\(dq"); break;
        case '^': text_put(out, "\\(ha"); break;
        case '~': text_put(out, "\\(ti"); break;
        case '`': text_put(out, "\\(ga"); break;
        default: text_char(out, c);
    }
}

/* An option is not to be broken at a line's end. */
static bool begins_option(const char *all, const char *at)
{
    return strncmp(at, "--", 2) == 0 && (at == all || strchr(" (", at[-1]) != NULL);
}

void roff_words(text *out, const char *words)
{
    const char *all = words;
    for (size_t left = strlen(words), n; left > 0; words += n, left -= n) {
        n = utf8_character(words, left);
        if (begins_option(all, words)) text_put(out, "\\%");
        if (n > 1)
            put_character(out, words, n);
        else
            put_letter(out, *words);
        if (n == 0) n = 1;
    }
}

void roff_paragraph(text *out, const char *words)
{
    text_put(out, ".PP\n\\&");
    roff_words(out, words);
    text_char(out, '\n');
}

void roff_entry(text *out, const char *tag, const char *meaning)
{
    text_put(out, ".TP\n.B \"");
    roff_words(out, tag);
    text_put(out, "\"\n\\&");
    roff_words(out, meaning);
    text_char(out, '\n');
}

void roff_lines(text *out, const char *lines)
{
    text_put(out, ".PP\n.EX\n");
    while (*lines != '\0') {
        const size_t length = strcspn(lines, "\n");
        text line = {0};
        text_add(&line, lines, length);
        text_put(out, "\\&");
        roff_words(out, text_string(&line, &out->failed));
        text_char(out, '\n');
        text_free(&line);
        lines += length + (lines[length] == '\n');
    }
    text_put(out, ".EE\n");
}

/* Adds what a shell command writes. Returned: false where it was no answer. */
static bool run(text *out, const char *command)
{
    char bytes[4096];
    FILE *from = popen(command, "r");
    if (from == NULL) return false;
    for (size_t n; (n = fread(bytes, 1, sizeof bytes, from)) > 0;) text_add(out, bytes, n);
    const int status = pclose(from);
    return WIFEXITED(status) && WEXITSTATUS(status) <= SOME_SHORT;
}

bool roff_example(text *out, const char *program, const char *command)
{
    text typed = {0}, lines = {0};
    text_format(&typed, "'%s'%s", program, command + strlen("railbow"));
    text_format(&lines, "$ %s\n", command);
    const bool fine = run(&lines, text_string(&typed, &out->failed));
    if (!fine) say("%s: could not be run for the manual", text_string(&typed, &out->failed));
    roff_lines(out, text_string(&lines, &out->failed));
    text_free(&typed);
    text_free(&lines);
    return fine;
}
