#include "command/commands.h"

#include "program/say.h"
#include "table/names.h"

#include <string.h>

const command commands[] = {
    {.name = "new",
     .summary = "a file of load cases to begin with",
     .operands = "FILE",
     .text = "Writes a table with the commonest columns, their units and two example rows, for a spreadsheet or an "
             "editor; FILE - is stdout. A file that is there already stays as it is. 'railbow columns' tells what each "
             "column means.",
     .example = "railbow new frame.csv",
     .takes = TAKES_NEW,
     .run = command_new},
    {.name = "check",
     .summary = "margins of every load case in a CSV file",
     .operands = "FILE...",
     .text = "Reads load cases (see 'railbow columns'), one a row, and answers for each: does the tube hold, with "
             "which margin, what governs, and what does its forced fit cost.",
     .example = "railbow check --format text nose.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_REPORT | TAKES_JOBS,
     .run = command_check},
    {.name = "explain",
     .summary = "the working of one load case, from its inputs to its margin",
     .operands = "FILE CASE",
     .text = "Prints what the case says, then every step: the formula, the same with its numbers, the result, and where "
             "the formula comes from; the page that check writes with --report shows the same. CASE is the name of one "
             "row; without it the names are told. Exit status as in check: 2 also when another row of the file is bad.",
     .example = "railbow explain nose.csv 'new rail - forced 1/2'",
     .takes = TAKES_TEXT | TAKES_MATERIALS | TAKES_FACTOR,
     .run = command_explain},
    {.name = "compare",
     .summary = "which tube: every case with every wall",
     .operands = "FILE...",
     .text = "Tries every load case with every wall (and outside diameter) named, and answers first which tube holds "
             "for the whole frame, then for each case. Ends given as words are worked out anew for each tube; "
             "stiffness numbers stay. Exit status 0 when some one tube holds in all cases.",
     .example = "railbow compare nose.csv --walls 0.049,0.058,0.065",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_WALLS | TAKES_REPORT | TAKES_JOBS,
     .run = command_compare},
    {.name = "sweep",
     .summary = "the margin over a range of one column, or two",
     .operands = "FILE...",
     .text = "Checks every case again for each value of a column, FROM and, where the steps reach it, TO included. "
             "Two --vary make a grid.",
     .example = "railbow sweep nose.csv --vary miss_a=0:0.5:0.0625",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_VARY | TAKES_REPORT | TAKES_JOBS,
     .run = command_sweep},
    {.name = "limit",
     .summary = "how far a column may go before a case falls short",
     .operands = "FILE...",
     .text = "Goes from --from to --to and finds the first value at which the margin falls under --margin, even where "
             "the margin rises again behind it. A value that the model refuses ends the range. Says what room the "
             "present value has; a present value outside the range is checked as it is. Exit status 1 when a present value is "
             "past its limit or a case is short, from the start or as it is.",
     .example = "railbow limit nose.csv --find miss_a --to 1in",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_LIMIT | TAKES_REPORT | TAKES_JOBS,
     .run = command_limit},
    {.name = "index",
     .summary = "which way to turn the tube's own bow",
     .operands = "FILE...",
     .text = "Turns the bow alone round the clock (misses and loads stay) and gives the clocks with the largest and the "
             "smallest margin, to 0.1 degree, and what turning wins. Exit status 1 when a case is short as marked.",
     .example = "railbow index nose.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_REPORT | TAKES_JOBS,
     .run = command_index},
    {.name = "scatter",
     .summary = "how sure: the margin when columns vary within their tolerances",
     .operands = "FILE...",
     .text = "Tries each case with many sets of values drawn within the tolerances and gives the share that is short, "
             "the spread of the margin, and which column drives it. The tolerance file has the columns column, minus, "
             "plus, unit (a unit or %) and shape; see 'railbow columns'. The samples are quasi-random: Sobol's sequence up "
             "to 40 columns; beyond that they are random. Exit status 1 when any sample is short.",
     .example = "railbow scatter nose.csv --tolerances tolerances.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_SCATTER | TAKES_REPORT | TAKES_JOBS,
     .run = command_scatter},
    {.name = "inspect",
     .summary = "gauge readings on tubes against a spec",
     .operands = "READINGS",
     .text = "Fits an off-centre bore to wall readings round the clock, gives the thinnest wall anywhere and where it is, "
             "and a verdict with the gauge's uncertainty: below, unread (says what to read next), recheck, or meets. With "
             "--cases also the margins of the load cases of that part, as drawn and as measured. Exit status 0 when "
             "every tube meets the spec and no load case is short as measured, 1 when not, 2 when one is not read enough.",
     .example = "railbow inspect --spec spec.csv readings.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_INSPECT,
     .run = command_inspect},
    {.name = "release",
     .summary = "what the movement at a cut says about what was locked in",
     .operands = "FILE...",
     .text = "From how far the two faces moved when a rail was cut through: the force and moments that were locked in, "
             "how much of yield that was, and what a straight new rail between the same joints would have to be forced by. "
             "Without the angle between the stubs the answer is the least that explains the movement.",
     .example = "railbow release cuts.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_JOBS,
     .run = command_release},
    {.name = "pull",
     .summary = "how far to pull a horn so that it stays where it is wanted",
     .operands = "FILE...",
     .text = "A stub held at its root is pulled sideways and let go: how far it may go and spring back whole, how far it "
             "must go to stay moved by the set asked for, and what strain and stress that leaves.",
     .example = "railbow pull --steps 4 horns.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_STEPS | TAKES_JOBS,
     .run = command_pull},
    {.name = "section",
     .summary = "section properties of tubes",
     .operands = "SIZE... | --ods LIST --walls LIST",
     .text = "Sizes are outside diameter x wall: 1.25x0.058 (inch) or 32mmx1.5mm.",
     .example = "railbow section 1.25x0.049 1.25x0.058 1.25x0.065",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_MATERIAL | TAKES_WALLS,
     .run = command_section},
    {.name = "columns",
     .summary = "every column that is read or written: unit, default, meaning",
     .operands = "",
     .text = "Load cases, materials and results, and the units that a header may name.",
     .example = "railbow columns",
     .takes = 0,
     .run = command_columns},
    {.name = "help",
     .summary = "this text, or that of one command",
     .operands = "[COMMAND]",
     .text = "What a command does, its options, an example, and the columns that it reads and writes.",
     .example = "railbow help check",
     .takes = 0,
     .run = command_help},
};
const size_t command_count = sizeof commands / sizeof *commands;

const command *command_find(const char *name)
{
    for (size_t i = 0; i < command_count; i++)
        if (strcmp(commands[i].name, name) == 0) return &commands[i];
    return NULL;
}

void command_refuse(const char *name)
{
    nearest_name n = nearest_to(name);
    for (size_t i = 0; i < command_count; i++) nearest_try(&n, commands[i].name);
    if (n.best != NULL) say("there is no command '%s'; did you mean '%s'?", name, n.best);
    else say("there is no command '%s'; see 'railbow help'", name);
}
