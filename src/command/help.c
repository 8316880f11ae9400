#include "command/commands.h"

#include "cases/table_list.h"
#include "program/exit_status.h"
#include "program/output.h"
#include "program/say.h"
#include "report/caution.h"
#include "report/lines.h"
#include "report/text/table_text.h"

#include <string.h>

static void say_program(text *out)
{
    text_put(out, "railbow: structural check of chromoly tube: buckling, bow, forced fit, and the margin to yield\n\n"
                  "Usage: railbow COMMAND [options] FILE...\n\nCommands:\n");
    for (size_t i = 0; i < command_count; i++)
        text_format(out, "  %-10s %s\n", commands[i].name, commands[i].summary);
    text_put(out, "\n'railbow help COMMAND' tells more; 'railbow --version' which one this is.\n"
                  "\nExit status: 0 every case holds, 1 at least one is short, 2 something kept a verdict from\n"
                  "being given.\n\n");
}

/* The tables that a command has for itself; load cases and materials are the business of many. */
static void say_columns(text *out, const command *c)
{
    tables all;
    tables_fill(&all);
    if ((c->takes & TAKES_FACTOR) != 0)
        text_put(out, "'railbow columns' lists the columns of the load cases that it reads.\n\n");
    for (size_t i = 0; i < all.count; i++)
        if (all.at[i].command != NULL && strcmp(all.at[i].command, c->name) == 0) table_text(out, &all.at[i]);
}

static void say_command(text *out, const command *c)
{
    text_format(out, "railbow %s: %s\n\nUsage: railbow %s%s%s%s\n\n", c->name, c->summary, c->name,
                c->takes != 0 ? " [options]" : "", *c->operands != '\0' ? " " : "", c->operands);
    wrap(out, c->text, 0);
    text_put(out, "\nOptions:\n");
    options_say(out, c->takes);
    text_format(out, "\nExample: %s\n\n", c->example);
    say_columns(out, c);
}

int command_help(const options *o)
{
    output out;
    text t = {0};
    const char *name = o->operand_count > 0 ? o->operands[0] : NULL;
    const command *c = name != NULL ? command_find(name) : NULL;
    if (o->operand_count > 1) {
        say("help: takes one command, but has '%s' too; see 'railbow help'", o->operands[1]);
        return NO_VERDICT;
    }
    if (name != NULL && c == NULL) {
        command_refuse(name);
        return NO_VERDICT;
    }
    const options plain = {0};
    if (!output_open(&out, &plain)) return NO_VERDICT;
    if (c != NULL)
        say_command(&t, c);
    else
        say_program(&t);
    wrap(&t, caution, 0);
    const bool written = output_text(&out, &t);
    text_free(&t);
    return output_close(&out, true) && written ? ALL_HOLD : NO_VERDICT;
}
