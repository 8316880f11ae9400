#include "command/commands.h"

#include "cases/case_table.h"
#include "cases/detail/detail_table.h"
#include "command/frame/new_frame.h"
#include "table/starter.h"
#include "program/exit_status.h"
#include "program/output.h"
#include "program/say.h"

#include <string.h>

static const starter starters[] = {
    {"case", {"upper rail|new rail"}},
    {"od", {"1.25|1.25", "32|32"}},
    {"wall", {"0.058|0.058", "1.5|1.5"}},
    {"material", {"4130|4130"}},
    {"length", {"42|24", "1070|610"}},
    {"end_a", {"welded|welded"}},
    {"end_b", {"welded|welded"}},
    {"compression", {"2600|4600", "11600|20500"}},
    {"spread_load", {"1.5|", "0.25|"}},
    {"spread_clock", {"180|"}},
    {"point_load", {"|150", "|670"}},
    {"point_at", {"|12", "|305"}},
    {"point_clock", {"|180"}},
    {"vertical_g", {"1|4"}},
    {"bow", {"0.03|0.025", "0.75|0.6"}},
    {"bow_clock", {"90|180"}},
    {"miss_a", {"|0.0625", "|1.5"}},
    {"miss_a_clock", {"|180"}},
    {"weld_zone", {"1|1", "25|25"}},
    {"factor", {"1.5|1.5"}},
    {"note", {"air load on the panel|socket off by a sixteenth"}},
};

/* Comment lines have no commas, semicolons or quotes: a spreadsheet then keeps each in one cell and saves it unchanged. */
static const starter_table load_cases = {
    .list = &case_list,
    .front = "# Load cases for railbow: each row is one tube under one load. Units are in brackets. An empty cell takes the default.\n"
             "# To see what each column means: railbow columns. To check the rows: railbow check.\n",
    .starters = starters,
    .count = sizeof starters / sizeof *starters,
    .rows = 2,
};

/* Sizes fit both the tubes of these load cases and those of the small frame. */
static const starter details[] = {
    {"case", {"upper rail|upper rail|upper rail"}},
    {"tube", {"rail UL|rail UL|rail UR"}},
    {"detail", {"line hole|splice|weld at A"}},
    {"kind", {"hole|sleeve|ring weld"}},
    {"at", {"12|24|a", "300|600|a"}},
    {"hole", {"0.25||", "6||"}},
    {"walls", {"1||"}},
    {"hole_clock", {"90||"}},
    {"throat", {"||0.041", "||1.06"}},
    {"sleeve_od", {"|1.125|", "|28.5|"}},
    {"sleeve_wall", {"|0.058|", "|1.5|"}},
    {"overlap", {"|2|", "|50|"}},
    {"rosettes", {"|2|"}},
    {"rosette", {"|0.375|", "|10|"}},
    {"butt", {"|yes|"}},
    {"note", {"brake line|where the old rail was cut|a fillet as high as the wall: 0.707 of it"}},
};

static const starter_table details_of_cases = {
    .list = &case_detail_list,
    .front = "# Details on the tubes of railbow's load cases: holes and welds and joints. case names a load case or its part.\n"
             "# at: distance from A or a or b for a joint. To check them: railbow check --details and this file and the load cases.\n",
    .starters = details,
    .count = sizeof details / sizeof *details,
    .rows = 3,
};

static const starter_table details_of_frame = {
    .list = &frame_detail_list,
    .front = "# Details on the tubes of a frame for railbow: holes and welds and joints. As details.csv in its folder they are read with it.\n"
             "# at: distance from A or a or b for a joint. To see what each column means: railbow columns.\n",
    .starters = details,
    .count = sizeof details / sizeof *details,
    .rows = 3,
};

static const starter_table *table_of(const options *o)
{
    if (!o->new_details) return &load_cases;
    return o->frame ? &details_of_frame : &details_of_cases;
}

int command_new(const options *o)
{
    if (o->operand_count != 1) {
        say(o->frame && !o->new_details ? "new: name one folder to write the frame in; see 'railbow help new'"
                     : "new: name one file to write, or - for standard output; see 'railbow help new'");
        return NO_VERDICT;
    }
    output out;
    text t = {0};
    const char *file = o->operands[0];
    const bool standard = strcmp(file, "-") == 0;
    const options plain = {0};
    if (o->frame && !o->new_details) return new_frame(o, file);
    if (!(standard ? output_open(&out, &plain) : output_open_fresh(&out, file))) return NO_VERDICT;
    starter_write(&t, table_of(o), o->all, o->units);
    bool fine = output_text(&out, &t);
    fine = output_close(&out, fine) && fine;
    text_free(&t);
    return fine ? ALL_HOLD : NO_VERDICT;
}
