#include "document/document.h"

#include "command/commands.h"
#include "command/frame/frame_notes.h"
#include "command/words.h"
#include "document/roff.h"
#include "report/caution.h"

#include <string.h>

static void put_commands(text *out)
{
    roff_section(out, "COMMANDS");
    for (size_t i = 0; i < command_count; i++) {
        const command *c = &commands[i];
        text usage = {0};
        text_format(&usage, "railbow %s%s %s", c->name, c->takes != 0 ? " [options]" : "", c->operands);
        text_format(out, ".SS %s\n", c->name);
        roff_entry(out, text_string(&usage, &out->failed), c->summary);
        roff_paragraph(out, c->text);
        text options_known = {0};
        option_shown o;
        for (size_t k = 0; options_at(c->takes, k, &o); k++) {
            text_format(&options_known, "%s--%s", k > 0 ? ", " : "Options: ", o.name);
        }
        roff_paragraph(out, text_string(&options_known, &out->failed));
        text_free(&options_known);
        roff_paragraph(out, "Example, in the folder of the example cases:");
        roff_lines(out, c->example);
        text_free(&usage);
    }
}

static bool has(const command *c, const option_shown *o)
{
    option_shown other;
    for (size_t i = 0; options_at(c->takes, i, &other); i++)
        if (other.meaning == o->meaning) return true;
    return false;
}

static void put_option(text *out, const option_shown *o)
{
    text tag = {0}, meaning = {0};
    size_t count = 0;
    if (o->letter != 0) text_format(&tag, "-%c, ", o->letter);
    text_format(&tag, "--%s", o->name);
    if (o->value != NULL) text_format(&tag, " %s", o->value);
    text_format(&meaning, "%s (", o->meaning);
    for (size_t i = 0; i < command_count; i++) count += has(&commands[i], o);
    const char *comma = "";
    for (size_t i = 0; i < command_count && count < command_count; i++) {
        if (!has(&commands[i], o)) continue;
        text_format(&meaning, "%s%s", comma, commands[i].name);
        comma = ", ";
    }
    text_put(&meaning, count < command_count ? ")" : "every command)");
    roff_entry(out, text_string(&tag, &out->failed), text_string(&meaning, &out->failed));
    text_free(&tag);
    text_free(&meaning);
}

/* Each option once, at the first command that has it. */
static void put_options(text *out)
{
    roff_section(out, "OPTIONS");
    for (size_t i = 0; i < command_count; i++) {
        option_shown o;
        for (size_t k = 0; options_at(commands[i].takes, k, &o); k++) {
            bool said = false;
            for (size_t before = 0; before < i && !said; before++) said = has(&commands[before], &o);
            if (!said) put_option(out, &o);
        }
    }
}

static const struct {
    const char *purpose, *command;
} worked[] = {
    {"Write a file to start from, and edit it in a spreadsheet or a text editor.", "railbow new frame.csv"},
    {"Does every tube hold?", "railbow check --format text frame.csv"},
    {"How far may the socket be out of line before the new rail falls short?",
     "railbow limit --format text --find miss_a --to 1in frame.csv"},
    {"Is another wall enough?", "railbow compare --format text --walls 0.049,0.058,0.065 frame.csv"},
    {"Write a whole frame to start from.", "railbow new --frame nose"},
    {"Does every tube of it hold, and how much is locked in where one was forced?", "railbow check --format text nose"},
    {"How stiff is a tube with the next wall?", "railbow section --format text 1.25x0.058 1.25x0.065"},
};

static void put_glossary(text *out)
{
    roff_section(out, "WORDS");
    for (size_t i = 0; i < glossary_count; i++) roff_entry(out, glossary[i].word, glossary[i].meaning);
}

static void put_frame(text *out)
{
    roff_section(out, "FRAMES");
    for (size_t i = 0; i < frame_note_count; i++) roff_entry(out, frame_notes[i].subject, frame_notes[i].note);
}

static bool put_examples(text *out, const char *program)
{
    bool fine = true;
    roff_section(out, "EXAMPLES");
    for (size_t i = 0; i < sizeof worked / sizeof *worked; i++) {
        roff_paragraph(out, worked[i].purpose);
        fine = roff_example(out, program, worked[i].command) && fine;
    }
    return fine;
}

static void put_many(text *out)
{
    roff_section(out, "MANY ROWS");
    roff_paragraph(out, "For check the rows of load cases do not depend on each other. GNU parallel (1) gives blocks of them to several runs, with --sshlogin "
                        "on several machines, each with the header; awk keeps the first header of the answers. The joined answer is that of one "
                        "run, byte for byte. The header must be the first line of the file, and no cell may have a line break. The line that a "
                        "message names is counted in its block. The exit status is that of awk: the verdict of each case stands in its row.");
    roff_lines(out, "parallel --pipe --header 1 -N 5000 --keep-order \\\n"
                    "  railbow check - --format csv <cases.csv |\n"
                    "  awk 'NR == 1 { head = $0; print } $0 != head'\n");
    roff_paragraph(out, "So are the samples of a frame: --samples FROM:TO takes a part of them.");
    roff_lines(out, "parallel --keep-order railbow scatter frame --tolerances tolerances.csv \\\n"
                    "  --of samples --format csv --samples '{}' ::: 1:2048 2049:4096 |\n"
                    "  awk 'NR == 1 { head = $0; print } $0 != head'\n");
}

bool manual_program(text *out, const char *program)
{
    roff_title(out, "RAILBOW", 1);
    roff_section(out, "NAME");
    text_put(out, "railbow \\- structural check of chromoly tube: buckling, bow, forced fit, and the margin to yield\n");
    roff_section(out, "SYNOPSIS");
    text_put(out, ".B railbow\n.I COMMAND\n.RI [ options ]\n.IR FILE ...\n.PP\n"
                  ".B railbow help\n.RI [ COMMAND \" | \" frame \" | \" words ]\n");
    roff_section(out, "DESCRIPTION");
    roff_paragraph(out, "railbow checks whether the chromoly (4130) tubes of a frame hold their loads. It reads a table of "
                        "load cases, one in each row. For each case it reports the margin against yield and buckling, "
                        "the check that governs, where along the tube, and how much margin a forced fit costs. The "
                        "command check also takes the folder of a whole frame, with a table of its joints, one of its tubes and "
                        "one of the loads on it: it finds the force in every tube itself.");
    text_put(out, "The columns of the tables are described in\n.BR railbow\\-cases (5).\n");
    put_commands(out);
    put_options(out);
    put_frame(out);
    put_glossary(out);
    const bool fine = put_examples(out, program);
    put_many(out);
    roff_section(out, "EXIT STATUS");
    roff_entry(out, "0", "every case holds");
    roff_entry(out, "1", "at least one is short");
    roff_entry(out, "2", "an error prevented a verdict: in the command line, a file, a row, or while writing");
    roff_section(out, "FILES");
    roff_entry(out, "share/railbow/materials/steel_tube.csv", "the materials; every row names its source");
    roff_entry(out, "share/railbow/cases/", "example load cases and example tables of measurements");
    roff_entry(out, "share/railbow/railbow.schema.json", "the JSON schema of every answer with --format json");
    roff_section(out, "CAUTION");
    roff_paragraph(out, caution);
    roff_section(out, "SEE ALSO");
    text_put(out, ".BR railbow\\-cases (5)\n");
    return fine;
}
