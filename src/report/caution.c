#include "report/caution.h"

const char caution[] = "An aid to judgement, no substitute for the rule book, local codes and a licensed engineer. "
                       "Elastic model; it covers fatigue only as the command life estimates it, and does not cover cracks, weld defects, "
                       "dents or impact.";

const char life_caution[] =
    "A life is an estimate, right to orders of magnitude, and no substitute for inspection. Welds are taken as free of cracks. Curves "
    "of welds are design curves, the mean less two standard deviations. The 4130 curves are means, of sheet: half of the parts crack "
    "earlier. Every curve names its source in the table of curves; several are from memory.";

const char life_assumptions[] =
    "Assumed: the tube as built, with one stiffness of its welded joints and one direction of each unknown clock for all loads of a part, "
    "the worst for it. In one run each load comes as often as its cycles say and swings between the load factors cycle_low and cycle_high "
    "(empty cells: once, from 0 to 1); the damage of all loads adds up (Miner).";

const char frame_life_assumptions[] =
    "Assumed: the frame as built; bows of unknown clock all point to the side to which they move in the first run, or all away from it. In "
    "one run of the car the loads of each run of loads.csv come as often as its cycles say and swing between the load factors cycle_low and "
    "cycle_high (empty cells: once, from 0 to 1); the damage of all of them adds up (Miner).";

const char assumptions[] =
    "Assumed: a welded joint is soft (fixity 2) or rigid, an unknown clock points anywhere, and what is locked in is kept or gone, "
    "whichever is worst. An empty weld_zone is 1 in. Each case has its own column curve, else the material's. A required factor "
    "of 1.5 is the factor of safety of 14 CFR 23.303 and 25.303.";

const char frame_assumptions[] =
    "Assumed: joints have no size and turn as one piece with the tubes that are rigid to them; the loads act on the frame as it "
    "moves. What is locked in is kept or all gone, whichever is worse for a tube. A bow of unknown clock points to the side to "
    "which its tube moves, or away from it. An empty weld_zone is 1 in. The column load takes the length over the root of fixity. "
    "Left out: shear, the shortening of a tube that bows, and large turning of the frame. A required factor of 1.5 is the factor of safety of 14 CFR 23.303 and 25.303.";

const char unread_angle[] =
    "The angle between the stubs was not read: of all answers that explain the movement, this one has the least energy. More may have "
    "been locked in. Read the angle too.";
