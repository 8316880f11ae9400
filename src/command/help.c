#include "command/commands.h"

#include "cases/list/table_list.h"
#include "command/frame/frame_notes.h"
#include "command/words.h"
#include "program/exit_status.h"
#include "program/output.h"
#include "program/say.h"
#include "program/screen_of.h"
#include "report/text/cells.h"
#include "report/text/table_text.h"

#include <string.h>

static void say_program(text *out, const screen *s)
{
    put_sentence(out, "railbow: structural check of chromoly tube: buckling, bow, forced fit, and the margin to yield", 0, s);
    text_put(out, "\nUsage: railbow COMMAND [options] FILE...\n\nCommands:\n");
    for (size_t i = 0; i < command_count; i++) {
        text line = {0};
        text_format(&line, "  %-10s %s", commands[i].name, commands[i].summary);
        put_lines(out, &line, 13, s);
    }
    text_char(out, '\n');
    put_sentence(out, "'railbow help COMMAND' explains one command, 'railbow help frame' a whole frame, 'railbow help words' the words of the "
                      "trade. "
                      "'railbow --version' prints the version.", 0, s);
    text_char(out, '\n');
    put_sentence(out, "Exit status: 0 if every case holds, 1 if at least one is short, 2 if an error prevented a verdict.", 0, s);
}

enum { WORD_COLUMN = 16 }; /* where meanings begin */

static void say_meaning(text *out, const char *word, const char *meaning, const screen *s)
{
    text line = {0};
    text_format(&line, "%-*s%s", (int)WORD_COLUMN, word, meaning);
    put_lines(out, &line, WORD_COLUMN, s);
}

static void say_words(text *out, const screen *s)
{
    text_put(out, "railbow help words: the words of the trade that railbow uses\n\n");
    for (size_t i = 0; i < glossary_count; i++) say_meaning(out, glossary[i].word, glossary[i].meaning, s);
}

static void say_frame(text *out, const screen *s)
{
    text_put(out, "railbow help frame: how a whole frame is given, and what is worked out\n\n");
    for (size_t i = 0; i < frame_note_count; i++) say_meaning(out, frame_notes[i].subject, frame_notes[i].note, s);
}

/* The tables that one command alone reads or writes. Load cases and materials serve several commands. */
static void say_columns(text *out, const command *c, const screen *s)
{
    tables all;
    tables_fill(&all);
    if ((c->takes & TAKES_FACTOR) != 0)
        put_sentence(out, "\n'railbow columns' lists the columns of the load cases that this command reads.", 0, s);
    for (size_t i = 0; i < all.count; i++)
        if (all.at[i].command != NULL && strcmp(all.at[i].command, c->name) == 0) {
            text_char(out, '\n');
            table_text(out, &all.at[i], s);
        }
}

static void say_usage(text *out, const command *c, const screen *s)
{
    text summary = {0}, usage = {0};
    text_format(&summary, "railbow %s: %s", c->name, c->summary);
    put_lines(out, &summary, 4, s);
    text_format(&usage, "Usage: railbow %s%s%s%s", c->name, c->takes != 0 ? " [options]" : "", *c->operands != '\0' ? " " : "",
                c->operands);
    text_char(out, '\n');
    put_lines(out, &usage, 4, s);
    text_char(out, '\n');
}

static void say_command(text *out, const command *c, const screen *s)
{
    text example = {0};
    say_usage(out, c, s);
    put_sentence(out, c->text, 0, s);
    text_put(out, "\nOptions:\n");
    options_say(out, c->takes, prose_width(s));
    text_format(&example, "Example: %s", c->example);
    text_char(out, '\n');
    put_lines(out, &example, 4, s);
    say_columns(out, c, s);
}

int command_help(const options *o)
{
    output out;
    text t = {0}, screen_words = {0};
    const char *name = o->operand_count > 0 ? o->operands[0] : NULL;
    const command *c = name != NULL ? command_find(name) : NULL;
    const bool words = name != NULL && strcmp(name, words_topic) == 0, frame = name != NULL && strcmp(name, frame_topic) == 0;
    if (o->operand_count > 1) {
        say("help: takes one command, but '%s' follows it; see 'railbow help'", o->operands[1]);
        return NO_VERDICT;
    }
    if (name != NULL && c == NULL && !words && !frame) {
        command_refuse(name);
        return NO_VERDICT;
    }
    const options plain = {0};
    if (!output_open(&out, &plain)) return NO_VERDICT;
    const screen s = screen_of(&out, false, NULL, &screen_words);
    if (words)
        say_words(&t, &s);
    else if (frame)
        say_frame(&t, &s);
    else if (c != NULL)
        say_command(&t, c, &s);
    else
        say_program(&t, &s);
    put_end(&t, &s);
    const bool written = output_text(&out, &t);
    text_free(&t);
    text_free(&screen_words);
    return output_close(&out, true) && written ? ALL_HOLD : NO_VERDICT;
}
