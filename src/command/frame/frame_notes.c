#include "command/frame/frame_notes.h"

#include "cases/remark_list.h"

const char frame_topic[] = "frame";

const frame_note frame_notes[] = {
    {"tables", "A frame is a folder with three tables. joints.csv has a row for each joint: its place, and what supports hold there. "
               "tubes.csv has a row for each tube: from joint A (from) to joint B (to), its size, its bow and how it was forced. "
               "loads.csv has the loads: rows with the same run act together. A row acts on one joint or on one tube; with neither it gives "
               "the g that act on all weight. 'railbow new --frame FOLDER' writes a small frame, and 'railbow help check' lists "
               "every column with its unit and default. 'railbow cases FOLDER --report FILE' draws the frame before anything is checked."},
    {"directions", "x is forward, y to the left, z up. Forces and spread loads act along these axes, moments and turns about them, "
                   "right-hand. vertical_g acts downward, forward_g forward and left_g to the left. A spread load is given "
                   "for each inch along the tube, whatever its slope."},
    {"clocks", "A clock of a tube is seen from its joint A toward its joint B. 0 is up: the direction across the tube that is nearest "
               "to +z. On a tube within 0.1 deg of vertical, 0 is forward (+x). 90 is to the right."},
    {"joints", "A joint moves and turns as one piece with the tubes that are rigid to it. An end that is pinned takes no moment "
               "about any axis. The other tubes hold the ends of a tube, so no stiffness of its joints has to be "
               "assumed. What held names does not move; the forces there are those of the joints table of the answer."},
    {"loads", "Run loads grow with the load factor. Bows, misses and gaps are built in and do not. The forces act on the frame as it "
              "moves: a push bends a tube that bows, and a frame that sways is bent by its weight."},
    {"forced fit", "Misses and gaps are measured on the unloaded frame as it was drawn. The whole frame takes them up: a forced tube "
                   "moves its joints and loads its neighbours, and both carry stress before any run load (fit_axial, fit_moment, "
                   "fit_stress; locked_x to locked_z of the joints). Every tube is checked as built and without any miss and "
                   "gap, because what is locked in can relax. The lower margin counts."},
    {"unknown bows", "A bow without a clock points to the side to which its tube moves, or away from it, whichever is worse."},
    {"checks", "Each tube has three load factors in each run: first yield, the push that is the column load of its length/sqrt(fixity), "
               "and the interaction of both. If the frame buckles first, all three end at that load factor, and governs is "
               "frame. A tube holds if it holds in every run."},
    {"buckling", "critical_factor is the load factor at which the straight frame buckles, path_end that at which the frame as built "
                 "does. Where critical_factor is under 3, the tubes of the run have the remark '" NEAR_BUCKLING "': "
                 "the column length of a tube whose joints sway is longer than the tube, and it needs a fixity below 1."},
    {"arch", "A frame that sags under its weight can be welded that much higher. With --arch RUN, check finds where each joint has to be "
             "on the unloaded frame so that it comes to its drawn place, to within 0.001 in, when the run acts at load factor 1 on the "
             "frame as built. Masses, loads, misses, gaps and bows stay. Margins and movements are still those of the frame as "
             "drawn. A run under which the frame has no state is refused."},
    {"answer", "Text tells the verdict, the runs and each tube in its worst run. CSV is the table that --of names: tubes (a row for each "
               "tube in each run), joints, runs, or with --arch also arch. JSON has all of them. --report writes a page with four views of the frame."},
    {"cuts", "'railbow cut' tells how the faces part if a tube is cut through, with what is locked in or under a run, and from "
             "readings of such a cut what was locked in. See 'railbow help cut'."},
    {"decisions", "compare, sweep, limit, scatter and index take the folder too. 'railbow compare FOLDER --walls LIST' chooses a wall for each part. "
                  "sweep and limit vary a number of one tube (--tube NAME), one joint (--joint NAME) or the loads of a run (--run NAME: every "
                  "row that gives the column, or those on the tube or joint named with it), and judge the whole frame. scatter draws each "
                  "tube and joint for itself, and index turns the bows of all tubes."},
    {"errors", "A message names the table, the line and the column. A row that is wrong, a name that is unknown or given twice, a "
               "joint that no tube reaches, a frame that is not held or a load that nothing takes prevents the whole check. A run "
               "that cannot be solved is named and has no rows; the other runs have. The exit status is then 2."},
    {"left out", "Shear flexibility (a remark says so under ten diameters of length), the shortening of a tube that bows, the size of "
                 "joints (a tube reaches from point to point), the flexibility of the weld itself, and large turning of the frame."},
};
const size_t frame_note_count = sizeof frame_notes / sizeof *frame_notes;
