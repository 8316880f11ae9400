#include "cases/frame_cut_table.h"

#include "cases/field_lines.h"
#include "cases/release_table.h"

#include <math.h>

#define FACE(at, dimension_, meaning_) NUMBER(frame_cut_row, #at, faces.at, dimension_, meaning_)

static const field cut_fields[] = {
    TEXT(frame_cut_row, "tube", tube, "name of the tube"),
    NUMBER(frame_cut_row, "at", at, DIM_LENGTH, "distance of the cut from A"),
    FACE(moved, DIM_LENGTH, "movement across the tube of the face on the B side, relative to the other face"),
    FACE(moved_clock, DIM_ANGLE, "clock of that movement, seen from A toward B"),
    FACE(turned, DIM_ANGLE, "angle of the stub at B to the line of the stub at A"),
    FACE(turned_clock, DIM_ANGLE, "clock of that angle: the side to which the stub at B points"),
    FACE(opened, DIM_LENGTH, "gap that opens along the tube; negative if the cut closes on the saw"),
};
const field_list frame_cuts_list = FIELD_LIST("cut", cut_fields, frame_cut_row);

#define MOVED(name_, at, dimension_, meaning_) NUMBER(frame_cut_joint_row, name_, moved.at, dimension_, meaning_)

static const field joint_fields[] = {
    TEXT(frame_cut_joint_row, "joint", joint, "name of the joint"),
    MOVED("move_x", move[RBOW_X], DIM_LENGTH, "movement forward, from before the cuts to after them; empty for a loose joint without a tube"),
    MOVED("move_y", move[RBOW_Y], DIM_LENGTH, "movement to the left"),
    MOVED("move_z", move[RBOW_Z], DIM_LENGTH, "movement upward"),
    MOVED("turn_x", turn[RBOW_X], DIM_TURN, "turn about x, right-hand"),
    MOVED("turn_y", turn[RBOW_Y], DIM_TURN, "turn about y, right-hand"),
    MOVED("turn_z", turn[RBOW_Z], DIM_TURN, "turn about z, right-hand"),
};
const field_list frame_cut_joints_list = FIELD_LIST("joint after cuts", joint_fields, frame_cut_joint_row);

#define FOUND(at, dimension_, meaning_) NUMBER(frame_cut_locked_row, #at, found.at, dimension_, meaning_)

static const field locked_fields[] = {
    TEXT(frame_cut_locked_row, "tube", tube, "name of the tube"),
    NUMBER(frame_cut_locked_row, "at", at, DIM_LENGTH, "distance of the cut from A"),
    FOUND(fit_axial, DIM_FORCE, "locked-in axial force, compression positive"),
    FOUND(shear, DIM_FORCE, "lateral force of the B side on the face of the A side"),
    FOUND(shear_clock, DIM_ANGLE, "clock of that force"),
    FOUND(moment_at_cut, DIM_MOMENT, "moment of the B side on that face"),
    FOUND(moment_clock, DIM_ANGLE, "clock toward which that moment bends the stub at A"),
    FOUND(moment_a, DIM_MOMENT, "locked-in moment at joint A"),
    FOUND(moment_b, DIM_MOMENT, "locked-in moment at joint B"),
    FOUND(fit_stress, DIM_STRESS, "locked-in equivalent stress where utilisation is largest"),
    FOUND(yield_use, DIM_NONE, "largest utilisation of yield by what was locked in"),
    WORD(frame_cut_locked_row, "basis", basis, basis_words,
         "turn read: from the angle; least energy: no angle, the smallest that explains the movement"),
    FOUND(miss_a, DIM_LENGTH, "miss of the tube in the socket at A with which it was built in, measured at B"),
    FOUND(miss_a_clock, DIM_ANGLE, "clock of that miss"),
    FOUND(miss_b, DIM_LENGTH, "the same for the socket at B, measured at A"),
    FOUND(miss_b_clock, DIM_ANGLE, "clock of that miss"),
    FOUND(gap, DIM_LENGTH, "how much the tube was too short; negative where it was too long"),
};
const field_list frame_cut_locked_list = FIELD_LIST("cut with readings", locked_fields, frame_cut_locked_row);

const char frame_cut_basis[] =
    "moved, turned: the face on the B side seen from the face on the A side; clocks from A toward B (0 up, 90 to the right). opened: "
    "negative where the cut closes on the saw; the faces are taken to pass each other. Left out: the twist of one face "
    "against the other.";
const char frame_cut_free[] =
    "A piece comes off, and nothing holds it. It is taken to lie where the sum of squares of its joints' movements is least: what "
    "the faces there do depends on how you hold the piece.";
const char frame_cut_locked_basis[] =
    "Found by putting the tube back with the misses and the gap that part its faces so, in the frame with all other misses "
    "and gaps as the table has them. Those of this tube in the table do not count.";

const frame_cut_joint_row *frame_cut_moves_most(const frame_cut_answer *a, double *distance)
{
    const frame_cut_joint_row *most = NULL;
    *distance = 1e-10; /* what rounding leaves is no movement */
    for (size_t i = 0; i < a->joint_count; i++) {
        const double *move = a->joints[i].moved.move, size = hypot(hypot(move[RBOW_X], move[RBOW_Y]), move[RBOW_Z]);
        if (!(size > *distance)) continue;
        *distance = size;
        most = &a->joints[i];
    }
    return most;
}
