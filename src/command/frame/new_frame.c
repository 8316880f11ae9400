#define _POSIX_C_SOURCE 200809L
#include "command/frame/new_frame.h"

#include "table/starter.h"
#include "program/drafts.h"
#include "program/exit_status.h"
#include "program/frame/frame_read.h"
#include "program/say.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- the frame: one bay of four rails on a bulkhead, with a ring at its front ------------------------------- */

static const starter joints[] = {
    {"joint", {"bulkhead UL|bulkhead UR|bulkhead LL|bulkhead LR|ring UL|ring UR|ring LL|ring LR"}},
    {"x", {"0|0|0|0|36|36|36|36", "0|0|0|0|900|900|900|900"}},
    {"y", {"12|-12|12|-12|9|-9|9|-9", "300|-300|300|-300|225|-225|225|-225"}},
    {"z", {"24|24|6|6|20|20|8|8", "600|600|150|150|500|500|200|200"}},
    {"held", {"fixed|fixed|fixed|fixed||||"}},
    {"mass", {"||||||40|40", "||||||18|18"}},
    {"note", {"||||||wheel carrier|wheel carrier"}},
};

static const starter tubes[] = {
    {"tube", {"rail UL|rail UR|rail LL|rail LR|ring top|ring bottom|ring left|ring right|brace left|brace right|brace top"}},
    {"part", {"rail|rail|rail|rail|ring|ring|ring|ring|brace|brace|brace"}},
    {"from", {"bulkhead UL|bulkhead UR|bulkhead LL|bulkhead LR|ring UL|ring LL|ring LL|ring LR|bulkhead LL|bulkhead LR|bulkhead UL"}},
    {"to", {"ring UL|ring UR|ring LL|ring LR|ring UR|ring LR|ring UL|ring UR|ring UL|ring UR|ring UR"}},
    {"od", {"1.25|1.25|1.25|1.25|1|1|1|1|1|1|1", "32|32|32|32|25|25|25|25|25|25|25"}},
    {"wall", {"0.058|0.058|0.058|0.058|0.049|0.049|0.049|0.049|0.049|0.049|0.049",
              "1.5|1.5|1.5|1.5|1.25|1.25|1.25|1.25|1.25|1.25|1.25"}},
    {"material", {"4130|4130|4130|4130|4130|4130|4130|4130|4130|4130|4130"}},
    {"bow", {"0.03|0.03|0.03|0.03|||||||", "0.75|0.75|0.75|0.75|||||||"}},
    {"miss_a", {"|0.0625|||||||||", "|1.5|||||||||"}},
    {"miss_a_clock", {"|180|||||||||"}},
    {"weld_zone", {"1|1|1|1|1|1|1|1|1|1|1", "25|25|25|25|25|25|25|25|25|25|25"}},
    {"note", {"|socket points a sixteenth low|||||||||"}},
};

static const starter loads[] = {
    {"run", {"push|push|push|at rest|gust|gust"}},
    {"joint", {"ring LL|ring LR|||ring UL|"}},
    {"force_x", {"-1500|-1500||||", "-6700|-6700||||"}},
    {"force_y", {"||||-250|", "||||-1100|"}},
    {"vertical_g", {"||1|1||1"}},
    {"factor", {"1.5|||1.5|1.5|"}},
    {"note", {"push at the left wheel|at the right wheel|weight|weight|wind from the left|weight"}},
};

#define STARTERS(list) list, sizeof list / sizeof *list

static const starter_table starter_tables[FRAME_TABLES] = {
    [FRAME_JOINTS] = {&joint_list,
                      "# Joints of a frame for railbow: x is forward and y to the left and z up. Units are in brackets.\n"
                      "# held: fixed or pinned or some of x y z rx ry rz. Empty: not held. To see all columns: railbow columns.\n",
                      STARTERS(joints), 8},
    [FRAME_TUBES] = {&frame_tube_list,
                     "# Tubes of a frame for railbow: each runs from joint A (from) to joint B (to). Clocks are seen from A toward B.\n"
                     "# An empty cell takes the default: ends are rigid. To check the frame: railbow check and the folder's name.\n",
                     STARTERS(tubes), 11},
    [FRAME_LOADS] = {&frame_load_list,
                     "# Loads of a frame for railbow: rows with the same run act together. A row acts on a joint or a tube.\n"
                     "# With neither it gives the g that act on all weight: vertical_g 1 is the weight at rest.\n",
                     STARTERS(loads), 6},
};

/* ---- its files --------------------------------------------------------------------------------------------- */

/* Opens all three before anything is written. Returned: how many are open. */
static int open_files(output files[FRAME_TABLES], const frame_tables *t)
{
    int open = 0;
    while (open < FRAME_TABLES && output_open_fresh(&files[open], t->paths[open])) open++;
    return open;
}

static bool write_files(output files[FRAME_TABLES], const options *o)
{
    bool fine = true;
    for (int i = 0; i < FRAME_TABLES; i++) {
        text t = {0};
        starter_write(&t, &starter_tables[i], o->all, o->units);
        fine = fine && output_text(&files[i], &t);
        text_free(&t);
    }
    return fine;
}

/* All of them, or none. */
static bool close_files(output files[FRAME_TABLES], int open, bool keep, const frame_tables *t)
{
    int kept = 0;
    for (int i = 0; i < open; i++) {
        keep = output_close(&files[i], keep) && keep;
        kept += keep;
    }
    for (int i = 0; i < kept && !keep; i++) unlink(t->paths[i]);
    return keep;
}

static bool write_in(const frame_tables *t, const options *o)
{
    output files[FRAME_TABLES];
    const int open = open_files(files, t);
    const bool written = open == FRAME_TABLES && write_files(files, o);
    return close_files(files, open, written, t);
}

int new_frame(const options *o, const char *folder)
{
    frame_tables t;
    if (strcmp(folder, "-") == 0) {
        say("new: a frame is a folder with three tables and does not go to standard output: name the folder");
        return NO_VERDICT;
    }
    char *made = strdup(folder);
    bool fine = made != NULL && frame_tables_name(&t, folder);
    if (made == NULL) say("out of memory");
    const bool is_new = fine && mkdir(folder, 0777) == 0;
    if (is_new) {
        draft_expect(made);
    } else if (fine && !is_folder(folder)) {
        say("%s: cannot make this folder: %s", folder, strerror(errno));
        fine = false;
    }
    fine = fine && write_in(&t, o);
    if (is_new && !fine) rmdir(folder);
    if (is_new) draft_forget(made);
    if (made != NULL) frame_tables_close(&t);
    free(made);
    return fine ? ALL_HOLD : NO_VERDICT;
}
