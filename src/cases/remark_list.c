#include "cases/remark_list.h"

#include <string.h>

#define MEANING(value_, meaning_, sentence_) [value_##_PLACE] = {value_, meaning_, sentence_},

const remark_meaning remark_list[RBOW_REMARK_COUNT] = {
    MEANING(RBOW_REMARK_UNSTABLE,
            "the axial load is at or above the elastic critical load: the tube buckles",
            "The push is at or above the elastic critical load: the tube buckles in the run. Take a larger or "
            "thicker tube, or shorten the free length with a brace.")
    MEANING(RBOW_REMARK_SET,
            "the forced fit alone takes the tube to yield: it stays bent",
            "The forced fit alone takes the tube to yield, so it will stay bent. Cut it loose and pull the "
            "sockets into line before it is welded.")
    MEANING(RBOW_REMARK_SLENDER,
            "L'/r is above 150, beyond the usual practice for tubes that are pushed",
            "L'/r is above 150, beyond the usual practice for tubes that are pushed. Check the bow with care, "
            "or brace the tube at its middle.")
    MEANING(RBOW_REMARK_SHORT_TUBE,
            "under ten diameters long: shear, which the model leaves out, bends it noticeably",
            "The tube is under ten diameters long. Shear, which the model leaves out, bends it noticeably: its "
            "real deflection is larger. Ask for more margin.")
    MEANING(RBOW_REMARK_THIN_WALL,
            "the wall can buckle locally: a reduced compression yield was used",
            "The wall can buckle locally, so a reduced compression yield was used. Keep dents away from it, or "
            "take the next wall.")
    MEANING(RBOW_REMARK_STIFF_ENDS,
            "the joints are stiffer than the usual welded joint (fixity above 2)",
            "The joints are taken as stiffer than the usual welded joint (fixity above 2). Make sure that they "
            "are, or check the case with welded ends.")
    MEANING(RBOW_REMARK_WELD_ZONE_TAKEN,
            "weld_zone is empty: the check assumes 1 in of softened metal at each joint",
            "No weld_zone is given: the check assumes 1 in of softened metal at each joint (at most half the length). "
            "Give its length, or 0 if the metal there is as strong as elsewhere.")
    MEANING(RBOW_REMARK_NO_BOW,
            "the check assumes a straight tube",
            "No bow is given: the check assumes a straight tube. Measure its bow on a flat table and give it; a pushed tube "
            "with a bow carries less.")
    MEANING(RBOW_REMARK_SIZE,
            "a size is unusual for such frames: check its unit and its decimal point",
            "A size is unusual for such frames. Check the unit and the decimal point of od, wall, length, bow and the misses.")
    MEANING(RBOW_REMARK_IDLE_ECCENTRICITY,
            "both joints are fixed and take its moment",
            "The eccentricity has no effect: both joints are fixed and take its moment. Check the "
            "joints for it.")
    MEANING(RBOW_REMARK_IDLE_MOMENT_A,
            "joint A is fixed and takes it",
            "The moment given to A has no effect: joint A is fixed and takes it. Check the joint for it.")
    MEANING(RBOW_REMARK_IDLE_MOMENT_B,
            "joint B is fixed and takes it",
            "The moment given to B has no effect: joint B is fixed and takes it. Check the joint for it.")
    MEANING(RBOW_REMARK_IDLE_POINT_LOAD,
            "it acts at a supported joint, which takes it",
            "The point load has no effect: it acts at a supported joint, which takes it. Check point_at.")
    MEANING(RBOW_REMARK_IDLE_GAP_STIFFNESS,
            "there is no gap to close",
            "The gap_stiffness has no effect: there is no gap.")
    MEANING(RBOW_REMARK_IDLE_DRESSED,
            "without a weld_zone there is nothing to dress: the section was NOT reduced",
            "The wall ground off has no effect: without a weld_zone there is nothing to dress, and the section "
            "was NOT reduced. Give the length of the soft metal.")
};

void remark_add(char *out, const char *remark)
{
    if (*out != '\0') strcat(out, "; ");
    strcat(out, remark);
}

void remarks_write(char out[REMARKS_ROOM], unsigned remarks)
{
    *out = '\0';
    for (int bit = 0; bit < RBOW_REMARK_COUNT; bit++)
        if ((remarks & (1U << bit)) != 0) remark_add(out, rbow_remark_text(1U << bit));
}

const char near_buckling_meaning[] =
    "the run has a critical factor under 3: a tube whose joints sway needs a longer column length than fixity gives";

void frame_remarks_write(char out[FRAME_REMARKS_ROOM], unsigned remarks, int near_buckling)
{
    remarks_write(out, remarks);
    if (near_buckling) remark_add(out, NEAR_BUCKLING);
}
