#include "command/words.h"

const char words_topic[] = "words";

const glossary_entry glossary[] = {
    {"bow", "How far an unloaded tube curves away from the straight line between its ends, at the largest offset."},
    {"clock", "A direction across the tube, as an angle in degrees seen from joint A toward joint B: 0 is up, 90 is to the "
              "right. In a frame, 0 is forward on an upright tube. The word any stands for an unknown clock; the check then "
              "takes the worst."},
    {"column load", "The push at which the straight tube buckles as a whole, by the column curve that the case or its "
                    "material names."},
    {"critical factor", "The load factor at which a frame of straight tubes, with the axial forces of the run, buckles as a whole. "
                        "Under 3, its tubes get the remark near frame buckling: where joints sway, the column length of a tube "
                        "is longer than the tube: give it a fixity below 1."},
    {"detail", "A hole, a ring weld, a sleeve, a socket or a plain place on a tube that is held against limits of its own."},
    {"dressed", "The thickness of wall that grinding has removed in the weld zones."},
    {"factor", "The load factor that a case must reach: 1.5, unless the case or --factor gives another."},
    {"fixity", "How firmly the joints keep the ends of a tube from rotating: the number c in critical load = "
               "c pi^2 E I/length^2. It is 1 for two pinned ends and 4 for two fixed ends. Welded ends "
               "lie between a soft weld, with fixity 2, and a stiff one."},
    {"forced fit", "The load that a tube carries before any run load, because it was pried, pulled or squeezed into place. "
                   "The columns miss and gap describe it."},
    {"gap", "The length by which the tube was too short before it was welded in (+, it was pulled), or too long (-, it was "
            "squeezed)."},
    {"governs", "The check whose load factor is smallest, compared with the factor asked for, governs: column, yield or "
                "interaction; in a frame also frame, where the frame buckles first. It sets the margin."},
    {"horn", "The stub that a cut rail leaves on the frame. The new rail's socket is part of it, and a pull can bend it into "
             "line."},
    {"interaction", "The check of push and bending together: the share of the column load plus the share of the strength in "
                    "bending and torsion. The tube fails where the sum is 1."},
    {"joint", "In a frame, the point where tubes meet. It moves and turns under load, and turns the tubes that are rigid to it."},
    {"landing", "The point at the other joint that the end of the tube has to meet."},
    {"life", "How often the car can run until a detail cracks: an estimate from an S-N curve, which gives the cycles to a crack for each "
             "range of stress, and from the damage of all loads together."},
    {"limit", "The load factor at which the tube yields or buckles. The command limit finds the limit of a column: the last "
              "value before the margin is too small."},
    {"load factor", "The number by which all run loads are multiplied. At load factor 1 the tube carries the loads that the "
                    "case states."},
    {"locked in", "What a tube of a frame carries before any run load, because it or another tube was forced."},
    {"margin", "The limit divided by the factor asked for, less 1. A case holds if its margin is 0 or more."},
    {"miss", "The distance from the landing to a straight bar that lies in the socket of the other joint."},
    {"orientation", "The clock toward which the tube's own bow points. The command index finds the best one."},
    {"path end", "The load factor at which the frame as built, with its bows and all that is locked in, buckles as a whole."},
    {"range", "How far the stress of a place moves while a load comes and goes, from its lowest to its highest value."},
    {"ring weld", "A weld all round a tube."},
    {"rosette", "A weld through a hole in the outer of two tubes, which joins it to the inner one."},
    {"run", "Loads of a frame that act together. Each tube is checked in every run. A life is counted in runs of the car: in one, the loads "
            "come as often as their cycles say."},
    {"run load", "A load that acts while the car runs: push or pull, bending, twist and the tube's own weight. Bow and forced "
                 "fit are built in, and are no run loads."},
    {"set", "The movement that remains after a pulled horn is let go."},
    {"sleeve", "A short tube inside two tube ends that meet, which joins them."},
    {"socket", "The part of a joint that receives the end of a tube and gives it its direction."},
    {"throat", "The thickness of a weld, measured across it the shortest way. Of a fillet it is 0.707 of the leg."},
    {"unforced", "The same case without its forced fit: misses and gap are 0."},
    {"utilisation", "The share of a limit that the loads use. At 1 the limit is reached."},
    {"wall reduction", "Q, the share of its compression yield that a tube can use before its wall buckles locally. It is 1 "
                       "unless the wall is thin."},
    {"weld zone", "The length of tube at each joint that the heat of welding has softened. Its yield is the material's "
                  "weld_yield. If its length is not given, the check assumes 1 in."},
};
const size_t glossary_count = sizeof glossary / sizeof *glossary;
