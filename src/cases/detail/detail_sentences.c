#include "cases/detail/detail_sentences.h"

#define MEANING(value, meaning_, sentence_) [value##_AT] = {value, meaning_, sentence_},

const remark_meaning detail_remark_list[RBOW_DETAIL_REMARK_COUNT] = {
    MEANING(RBOW_DETAIL_UNSTABLE, "the tube buckles under the run load: no forces are given there",
            "The tube has no equilibrium at load factor 1: it buckles, whatever the detail is. See the check of the tube.")
    MEANING(RBOW_DETAIL_UNDER_TWO, "the weld strength is nominal, at rupture; AISC 360 J2.4 divides it by 2, so ask for a factor of 2",
            "The weld reaches its nominal strength at rupture under twice the run load. AISC 360 J2.4 divides that strength by 2 (from "
            "memory). Weld a larger throat, or ask for a load factor of 2.")
    MEANING(RBOW_DETAIL_THROAT_TAKEN, "no throat was given; a fillet whose leg is the wall has a throat of only 0.707 of the wall",
            "No throat was given, so the wall was taken. A fillet whose leg is the wall has a throat of only 0.707 of the wall: give the "
            "throat that the weld really has.")
    MEANING(RBOW_DETAIL_THICK_THROAT, "the weld is thicker than the wall, so the tube beside it goes first: see the margin of the tube",
            "The throat is larger than the wall. The wall beside the weld governs then (common practice, no source): the weld is not as "
            "strong as it is calculated here.")
    MEANING(RBOW_DETAIL_LOOSE, "FAA AC 43.13-1B 4-95 asks for a fit within 1/16 in on the diameter",
            "The fit is looser than 1/16 in on the diameter, which FAA AC 43.13-1B 4-95 allows (quoted second hand). Take a tube that fits "
            "closer.")
    MEANING(RBOW_DETAIL_PLAYS, "the clearance lets the tube's far end move by over 1/16 in to either side, unless the weld draws it tight",
            "Unless the weld draws the joint tight, the far end of the tube can lie over 1/16 in to either side (common practice, no source). "
            "Clamp it in line, take a closer fit or a longer overlap.")
    MEANING(RBOW_DETAIL_SHORT_OVERLAP, "FAA AC 43.13-1B 4-92 and 4-97 reach 1 1/2 diameters past the cut",
            "The overlap is under 1.5 diameters of the tube, the reach of a sleeve past the cut in FAA AC 43.13-1B 4-92 and 4-97. Take a "
            "longer one.")
    MEANING(RBOW_DETAIL_THIN_SLEEVE, "FAA AC 43.13-1B 4-92 asks for at least the wall of the tube",
            "The wall of the sleeve or stub is thinner than that of the tube. FAA AC 43.13-1B 4-92 asks for at least the same.")
    MEANING(RBOW_DETAIL_ROSETTE, "a hole at least 5/16 in over the wall and at most 2 1/4 walls or 7/16 in over it, pitch at least 4 holes",
            "The rosettes are outside AISC 360 J2.3b (from memory): holes from the wall + 5/16 in to the larger of the wall + 7/16 in and "
            "2.25 walls, centres at least 4 diameters apart round the tube. The formula of their strength is for such welds.")
};

const char *const detail_limit_words[RBOW_DETAIL_MODE_COUNT] = {
    [RBOW_DETAIL_BY_YIELD] = "its section yields",
    [RBOW_DETAIL_BY_WELD] = "its weld tears",
    [RBOW_DETAIL_BY_ROSETTES] = "its rosettes shear off",
    [RBOW_DETAIL_BY_BEARING] = "its rosettes tear the wall",
    [RBOW_DETAIL_BY_BUCKLING] = "the tube buckles as a whole",
    [RBOW_DETAIL_BY_NONE] = "",
};

const char *unforced_margin_words(bool detail_governs)
{
    return detail_governs ? "the margin of the tube itself, its details left out," : "the margin";
}
