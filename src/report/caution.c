#include "report/caution.h"

const char caution[] = "An aid to judgement, no substitute for the rule book, local codes and a licensed engineer. "
                       "Elastic model; it does not cover fatigue, cracks, weld defects, dents or impact.";

const char assumptions[] =
    "Assumed: a welded joint is soft (fixity 2) or rigid, an unknown clock points anywhere, and what is locked in is kept or gone, "
    "whichever is worst. An empty weld_zone is 1 in. Each case has its own column curve, else the material's. A required factor "
    "of 1.5 is the factor of safety of 14 CFR 23.303 and 25.303.";

const char frame_assumptions[] =
    "Assumed: joints have no size and turn as one piece with the tubes that are rigid to them; the loads act on the frame as it "
    "moves. What is locked in is kept or all gone, whichever is worse for a tube. A bow of unknown clock points to the side to "
    "which its tube moves, or away from it. An empty weld_zone is 1 in. The column load takes the length over the root of fixity. "
    "A required factor of 1.5 is the factor of safety of 14 CFR 23.303 and 25.303.";
