/* The frame without its cut tubes: its pieces, and those that nothing holds. */
#ifndef RAILBOW_FRAME_CUT_PIECES_H
#define RAILBOW_FRAME_CUT_PIECES_H

#include <railbow/frame_cut.h>

#include <stdbool.h>

typedef struct cut_pieces {
    const rbow_frame *whole;
    const rbow_frame_cut_place *cuts;
    size_t cut_count;
    rbow_frame part;         /* the joints of the whole, the tubes that are left */
    rbow_frame_joint *joints; /* of the part; more is held: see below */
    rbow_frame_tube *tubes;   /* likewise */
    size_t *piece;    /* of each joint: the first joint of its piece */
    size_t *holder;   /* of the first joint of each piece: the joint at which a free piece is held, NOT_FREE for another */
    bool *reached;    /* of each joint: a tube is left there */
    bool *turned;     /* one that is rigid to it is left */
} cut_pieces;

static const size_t not_free = (size_t)-1;

/* Fills all lists. A free piece is held at one joint, a joint without a tube is held as well.
 * Given:    p       its lists with room, whole and cuts set
 *           loaded  whether a run acts
 * Status:   RBOW_OK | RBOW_STUB_NOT_HELD | RBOW_PIECE_NOT_HELD; note */
rbow_status rbow_cut_pieces(cut_pieces *p, bool loaded, rbow_frame_cut_note *note);

/* Moves the free pieces as rigid bodies, so that the squares of the movements of their joints are least.
 * Given: before, after  of each joint. Returned: after */
void rbow_cut_place_free(const cut_pieces *p, const rbow_frame_motion *before, rbow_frame_motion *after);

#endif
