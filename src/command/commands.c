#include "command/commands.h"

#include "command/frame/cut.h"
#include "program/say.h"
#include "table/names.h"

#include <string.h>

const command commands[] = {
    {.name = "new",
     .summary = "write a file of load cases to start from",
     .operands = "FILE | --frame FOLDER | --details FILE",
     .text = "Writes a table with the most common columns, their units and two example rows, to be edited in a "
             "spreadsheet or a text editor. FILE - is standard output. With --frame it writes the three tables of a small "
             "frame, joints.csv, tubes.csv and loads.csv, in a new or empty folder. With --details it writes a table of "
             "details on the tubes of these load cases, with both a table on the tubes of this frame: new --details --frame FOLDER/details.csv. An "
             "existing file is not overwritten. "
             "'railbow columns' explains each column.",
     .example = "railbow new frame.csv",
     .takes = TAKES_NEW,
     .run = command_new},
    {.name = "check",
     .summary = "the margin of every load case in a CSV file, or of every tube of a frame",
     .operands = "FILE... | FOLDER",
     .text = "Reads load cases (see 'railbow columns'), one in each row. For each case it reports whether the tube "
             "holds, the margin, the check that governs, and how much margin the forced fit costs. FOLDER is a frame: its "
             "tables joints.csv, tubes.csv and loads.csv. The command finds the force in every tube from the loads of each "
             "run on the whole frame, with what was forced in, and checks every tube. --tube and --part then pick tubes by "
             "their name and part: the frame is solved whole, and only these tubes are judged. --arch RUN also tells where to weld each joint, so that the joints are at their drawn places when that run acts at "
             "load factor 1. 'railbow help frame' explains frames. --details names a table of holes, ring welds, sleeves, sockets and "
             "plain places on the tubes ('railbow columns' lists its columns; a frame's folder may hold it as details.csv). Each is held "
             "against its own limits at the same load factors, in its own worst case; the margin of a tube is then the lowest of its own and "
             "its details', and governs gives the detail's name. --of details writes a row for each detail. Where something is short, text, JSON "
             "and page also say which single change makes the worst case or tube hold: a smaller miss, gap or bow, or another size. In JSON, "
             "cut_short is true where not every change was tried.",
     .example = "railbow check --format text nose.csv",
     .takes = TAKES_OUTPUT | TAKES_FRAME | TAKES_DETAILS | TAKES_MATERIALS | TAKES_FACTOR | TAKES_REPORT | TAKES_SHEETS | TAKES_VIEW | TAKES_LIVE | TAKES_JOBS,
     .run = command_check},
    {.name = "explain",
     .summary = "the working of one load case, or of one tube of a frame, from its inputs to its margin",
     .operands = "FILE CASE | FOLDER TUBE RUN",
     .text = "Prints the inputs of the case, then every step: the formula, the formula with its numbers, the result "
             "and the source of the formula. The page that check writes with --report shows the same working. CASE is "
             "the name of one row; without it the command lists the names in the file. The exit status is that of "
             "check: it is 2 also if another row of the file has an error. Of a frame it prints the working of one tube in one run: "
             "loads and supports of the whole frame in balance, the movements of the tube's joints, its axial force, the slopes and forces "
             "at its ends, then the same steps as of a load case. --report also writes a page with the tube in the frame.",
     .example = "railbow explain nose.csv 'new rail - forced 1/2'",
     .takes = TAKES_TEXT | TAKES_DETAILS | TAKES_MATERIALS | TAKES_FACTOR | TAKES_REPORT | TAKES_VIEW,
     .run = command_explain},
    {.name = "compare",
     .summary = "which tube to choose: every case with every wall",
     .operands = "FILE... | FOLDER",
     .text = "Checks every load case with every wall (and outside diameter) that is given. It reports first the "
             "lightest tube that holds in all cases, then the results of each case. The stiffness of an end that is "
             "given as a word is calculated for each tube; a stiffness that is given as a number stays. Cases with the "
             "same part are one tube: it weighs once, and its pick is the lightest tube that holds in all of them. The "
             "exit status is 0 if at least one tube holds in all cases. FOLDER is a frame: each wall for all its tubes, then the "
             "pick: the lightest set with one wall for each part that holds, and which tube stops the next lighter one. Up to 20 000 "
             "sets are all gone through. Beyond that the pick comes from a descent, and the text says so: from the heaviest set that "
             "holds one part at a time gets thinner, the most weight first. The exit status is 0 if a set holds.",
     .example = "railbow compare nose.csv --walls 0.049,0.058,0.065",
     .takes = TAKES_OUTPUT | TAKES_DETAILS | TAKES_MATERIALS | TAKES_FACTOR | TAKES_WALLS | TAKES_REPORT | TAKES_JOBS,
     .run = command_compare},
    {.name = "sweep",
     .summary = "the margin over a range of one column, or of two",
     .operands = "FILE... | FOLDER",
     .text = "Checks every case for each value of a column, from FROM to TO in steps of STEP. TO is included if a "
             "step meets it. Two --vary options give every combination of two columns. A direction that is varied "
             "counts as known, even where the file says any. The text begins with all cases, the worst first. FOLDER is a frame: the column "
             "is one of the tube or joint that --tube or --joint names, or of the loads of --run, and each value gives the lowest margin of "
             "all tubes in all runs. --case and --part then pick the tubes that are judged; the frame is still solved whole.",
     .example = "railbow sweep rail.csv --vary miss_a=0:0.5:0.0625",
     .takes = TAKES_OUTPUT | TAKES_DETAILS | TAKES_MATERIALS | TAKES_FACTOR | TAKES_PLACE | TAKES_VARY | TAKES_REPORT | TAKES_JOBS,
     .run = command_sweep},
    {.name = "limit",
     .summary = "how far a column may go before a case falls short",
     .operands = "FILE... | FOLDER",
     .text = "Searches from --from to --to for the first value at which the margin falls below --margin, even if the "
             "margin rises again beyond it. A value that the model cannot take ends the range. The result includes "
             "the room: the distance from the present value to the limit. If the present value lies outside the "
             "range, the case is also checked as it stands. If the case as it stands contradicts the limit, the range "
             "is too wide, and that is an error. A direction that is not known is taken at its worst, and the text "
             "names it; a direction that is varied counts as known. The exit status is 1 if a present value is past its "
             "limit, or if a case is short at the start of the range or as it stands. FOLDER is a frame: the column is one of the "
             "tube or joint that --tube or --joint names, or of the loads of --run. The limit is the first value at which any tube falls "
             "short, and the answer names that tube. The search takes 200 even steps and the dips between them.",
     .example = "railbow limit rail.csv --find miss_a --to 1in",
     .takes = TAKES_OUTPUT | TAKES_DETAILS | TAKES_MATERIALS | TAKES_FACTOR | TAKES_PLACE | TAKES_LIMIT | TAKES_REPORT | TAKES_JOBS,
     .run = command_limit},
    {.name = "index",
     .summary = "the best orientation of the tube's own bow, or of all bows of a frame",
     .operands = "FILE... | FOLDER",
     .text = "Turns the tube about its axis, so that its bow points to one clock after another while misses "
             "and loads stay. It reports the clocks with the largest and the smallest margin, to 0.1 degree, and the margin "
             "that turning the tube gains. Cases with the same part are one tube, which has one clock: the first rows "
             "give each part the clock with which the lowest margin of its cases is largest. Other directions that "
             "are not known are at their worst at each clock. FOLDER is a frame: the command turns the bows of its tubes one "
             "after another, from the worst tube on, in steps of 15 degrees and then 1 degree, and keeps what raises the lowest margin of the frame, "
             "until a round over all tubes raises it by less than 0.0001. That is a descent: another set of clocks may be better. The exit "
             "status is 1 if a case, or the frame, is short with the bows as marked.",
     .example = "railbow index nose.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_REPORT | TAKES_JOBS,
     .run = command_index},
    {.name = "scatter",
     .summary = "how the tolerances of the columns spread the margin, of load cases or of a frame",
     .operands = "FILE... | FOLDER",
     .text = "Checks each case with many sets of values that lie within the tolerances. It reports the share of them "
             "that is short, the spread of the margin, and the column that contributes most to it. The text begins with "
             "all cases, the worst first. A direction that is not known is at its worst in every sample. The tolerance file "
             "has the columns column, minus, plus, unit (a unit or %) and shape; see 'railbow columns'. For up to 40 "
             "columns the samples follow Sobol's sequence; for more they are random. FOLDER is a frame: the columns are those of "
             "joints.csv and tubes.csv, and every joint and tube draws its own; a column name in the file picks some. The margin is the lowest "
             "of all tubes in all runs. A drawn place of a joint moves it before anything is built. A miss whose clock the frame does not give "
             "points anywhere. --of tubes gives how often each tube is the worst, --of samples each sample; parts of the samples "
             "(--samples 1:2048 and 2049:4096) together are the same as all. The exit status is 1 if any sample is short.",
     .example = "railbow scatter rail.csv --tolerances tolerances.csv",
     .takes = TAKES_OUTPUT | TAKES_DETAILS | TAKES_MATERIALS | TAKES_FACTOR | TAKES_SCATTER | TAKES_REPORT | TAKES_JOBS,
     .run = command_scatter},
    {.name = "life",
     .summary = "how many runs the welds, holes and splices last, and whether a forced fit matters",
     .operands = "FILE... | FOLDER",
     .text = "Estimates the runs of the car until a detail cracks, from the stress that each load adds and takes away. --details names "
             "the table of details: which weld, hole, sleeve, socket or place of which case or part; see 'railbow columns'. The load cases of one "
             "part are one tube under the loads of a run: each comes as often as its column cycles says (default once) and swings "
             "between the load factors cycle_low and cycle_high (default 0 and 1). The damages of all loads add up. The S-N curve is that of the detail's "
             "column sn, else the usual one of its kind. At a weld only the range of stress counts; in metal the mean stress counts, too, and "
             "with it what was locked in. runs_unforced is the life without misses and gap. The text begins with what cracks first and "
             "says whether the forced fit matters there. A range beyond yield has no number. A life is an estimate, right to "
             "orders of magnitude, and no substitute for inspection; welds are taken as free of cracks. FOLDER is a frame: its details.csv has the details, and "
             "each run of loads.csv its cycles. A short life is no verdict: the exit status is 0, and 2 if a detail has no number.",
     .example = "railbow life life.csv --details life_details.csv",
     .takes = TAKES_OUTPUT | TAKES_DETAILS | TAKES_LIFE | TAKES_MATERIALS | TAKES_FACTOR | TAKES_REPORT | TAKES_JOBS,
     .run = command_life},
    {.name = "inspect",
     .summary = "gauge readings on tubes against a specification",
     .operands = "READINGS",
     .text = "Fits an off-centre bore to the wall readings round a tube, and reports the thinnest wall and where it "
             "is. Every reading counts; where one place was read twice, the worse reading decides. A reading that cannot be, "
             "such as a wall of more than half the diameter, makes the verdict recheck. The verdict takes the uncertainty of the gauge into account: below, unread (with what to read "
             "next), recheck or meets. With --cases it also reports the margins of the load cases of that part, as "
             "drawn and as measured. The exit status is 0 if every tube meets the specification and no load case is "
             "short as measured, 1 if not, and 2 if a tube has too few readings.",
     .example = "railbow inspect --spec spec.csv readings.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_INSPECT | TAKES_REPORT,
     .run = command_inspect},
    {.name = "release",
     .summary = "the forced fit of a rail, from its movement when it was cut",
     .operands = "FILE...",
     .text = "Calculates the locked-in force and moments from the distance that the two faces moved when a rail was "
             "cut through. It reports the share of yield that they used, and the misses that a straight new rail "
             "between the same joints would meet. If the angle between the stubs was not read, the answer is the "
             "smallest forced fit that explains the movement.",
     .example = "railbow release cuts.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_REPORT | TAKES_JOBS,
     .run = command_release},
    {.name = "cut",
     .summary = "how the faces part if a tube of a frame is cut, and what was locked in there",
     .operands = "FOLDER --tube NAME --at V",
     .text = "Cuts tubes of a frame through. It reports how the face on the B side then stands, seen from the face on the A "
             "side: how far across, at what angle, and whether the cut opens or closes on the saw; with --of joints how far each "
             "joint moves. Nothing acts but what is locked in; --run adds a run at load factor 1, such as the weight on its "
             "supports. What is left of a tube is two stubs that carry their own loads; the rest of the frame is solved again. "
             "Several cuts are made together. A piece that comes off lies where the sum of squares of its joints' movements "
             "is least, since nothing holds it; with --run it would fall, which is an error. Both ends of the tube must hold a "
             "moment. A bow without a clock counts upward. With the readings of a cut that was made (--moved, --opened, --turned) the answer is what was locked in: the "
             "tube with the misses and the gap that part its faces so, put back into the whole frame. If the angle was not "
             "read, it is the smallest forced fit that explains the movement. Misses and gap of this tube in the table do not count; those of the other tubes do.",
     .example = "railbow cut frame --tube 'rail UL 2' --at 12in",
     .takes = TAKES_OUTPUT | TAKES_CUT | TAKES_MATERIALS | TAKES_REPORT | TAKES_JOBS,
     .run = command_cut},
    {.name = "pull",
     .summary = "how far to pull a horn so that it stays in line",
     .operands = "FILE...",
     .text = "A horn is pulled sideways at its end and let go. The command reports how far the end can go and spring "
             "back completely, how far it must go so that the set remains, and the strain and stress that this "
             "leaves.",
     .example = "railbow pull --steps 4 horns.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_STEPS | TAKES_REPORT | TAKES_JOBS,
     .run = command_pull},
    {.name = "sight",
     .summary = "miss of a socket and bow of a tube, from a bar or a string",
     .operands = "FILE",
     .text = "Reads offsets, up and to the right as seen from A toward B, at stations along a bar in a socket or a string along a tube, and "
             "fits the straight line or the bow that comes closest. Of a socket it reports the miss: the slope of the bar times the distance "
             "to the landing. The reference line must be parallel to the line from the socket's centre at A to the landing; how far "
             "it lies from A does not matter. For a socket at joint B measure station and landing from B, keep right as seen from A toward B, and "
             "type the miss as miss_b. Of a tube it reports the bow against the chord from the first to the last station, and the shape "
             "that fits best. The error is that of the readings, at 95 %. The text says what to type into a load case. The exit status is 0 if the "
             "readings of every line lie on their fit, within their errors, 1 if some do not (recheck), and 2 if a line has too few readings. A "
             "miss that is not significant is no failure.",
     .example = "railbow sight sight.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_REPORT,
     .run = command_sight},
    {.name = "sticks",
     .summary = "what to cut from which stick",
     .operands = "PARTS",
     .text = "Reads the parts to be cut and, with --stock, the sticks there are, and plans each size by itself: the fewest sticks, then "
             "the least length of sticks, so that short ones are used up first, then the largest single remainder. Each piece comes whole from one "
             "stick, and pieces that fill a stick need one cut fewer than there are pieces. A piece of a bowed stick has the bow times "
             "(length/stick) squared, that of an arc (common practice, no source); the straightest sticks go to the parts that need them. Up to 60 pieces of a size "
             "all plans are searched; beyond that, and where the search takes too long, the text says so and gives a lower bound. "
             "Weights are those of --material. The exit status is 2 if a part fits no stick, or if there are too few.",
     .example = "railbow sticks sticks_parts.csv --stock sticks_stock.csv",
     .takes = TAKES_OUTPUT | TAKES_STICKS | TAKES_MATERIALS | TAKES_MATERIAL | TAKES_REPORT,
     .run = command_sticks},
    {.name = "section",
     .summary = "section properties of tubes",
     .operands = "SIZE... | --ods LIST --walls LIST",
     .text = "A size is outside diameter x wall: 1.25x0.058 (inch) or 32mmx1.5mm.",
     .example = "railbow section 1.25x0.049 1.25x0.058 1.25x0.065",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_MATERIAL | TAKES_WALLS,
     .run = command_section},
    {.name = "cases",
     .summary = "load cases, or the tubes of a frame, as they are read: every column, defaults filled in",
     .operands = "FILE... | FOLDER",
     .text = "Reads load cases as every command does and prints each column with the value that is meant, whatever units and "
             "notation the file has. --row, --case and --part choose, --set changes. The CSV is a file of load cases again; JSON also has "
             "the line of each. The exit status is 0, or 2 if a row has an error. --report draws each case, without a verdict. FOLDER is a frame: "
             "the command prints its tubes, with the length from joint to joint, and --report draws the frame from the side, from above and "
             "from the front, without margins: look at it before you check it. The tubes that --case and --part pick bear their names. "
             "--view adds a view from any direction: the azimuth turns the frame about its upright axis, so that its nose comes toward the viewer, "
             "the elevation raises the viewer. 0,0 is from the right side, 0,90 from above, 90,0 from the front.",
     .example = "railbow cases --format text rail.csv",
     .takes = TAKES_OUTPUT | TAKES_MATERIALS | TAKES_FACTOR | TAKES_REPORT | TAKES_VIEW | TAKES_JOBS,
     .run = command_cases},
    {.name = "columns",
     .summary = "every column of every table: unit, default and meaning",
     .operands = "",
     .text = "Lists the columns of load cases, materials and results, and the units that a header may name.",
     .example = "railbow columns",
     .takes = 0,
     .run = command_columns},
    {.name = "help",
     .summary = "this text, the help of one command, of frames, or the words of the trade",
     .operands = "[COMMAND | frame | words]",
     .text = "Explains what a command does, its options, and the columns that it reads and writes, with an example. "
             "'railbow help frame' explains how a whole frame is given and what is worked out, 'railbow help words' the words of the trade.",
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
