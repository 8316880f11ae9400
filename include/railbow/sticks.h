/* Cutting parts of one tube size from sticks: which part from which stick. */
#ifndef RAILBOW_STICKS_H
#define RAILBOW_STICKS_H

#include <railbow/status.h>

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct rbow_piece { /* one piece of a part */
    double length;          /* in, > 0                                         */
    double bow_most;        /* in, >= 0: the bow it may have; NaN: any         */
} rbow_piece;

typedef struct rbow_stick { /* one stick */
    double length;          /* in, > 0                                         */
    double bow;             /* in, >= 0, over its length; NaN: not known. Such a stick serves no piece with a bow_most */
} rbow_stick;

typedef enum rbow_cutting_basis {
    RBOW_CUTTING_EXACT,    /* no plan is better                                                         */
    RBOW_CUTTING_STOPPED,  /* the search was ended at RBOW_CUTTING_STEPS: a better plan may exist       */
    RBOW_CUTTING_DECREASING /* first fit decreasing: more than RBOW_CUTTING_PIECES, or too few sticks   */
} rbow_cutting_basis;

enum {
    RBOW_CUTTING_PIECES = 60,     /* as many pieces are searched            */
    RBOW_CUTTING_STEPS = 4000000, /* of each round of a search: sets tried  */
    RBOW_NO_STICK = -1            /* of a piece that no stick has room for  */
};

typedef struct rbow_cutting {
    double length;    /* in: of all sticks that are cut, together      */
    double remainder; /* in: the largest that one of them leaves       */
    int sticks;       /* that are cut                                  */
    int least;        /* no plan needs fewer: a lower bound            */
    int left;         /* pieces without a stick                        */
    int basis;        /* rbow_cutting_basis                            */
} rbow_cutting;

/* Bytes of room that rbow_sticks_plan needs for so many pieces and sticks. */
RBOW_API size_t rbow_sticks_room(size_t pieces, size_t sticks);

/* A plan with the fewest sticks; of these the least length of sticks, so that short sticks are used up first; of these the
 * largest single remainder. Then the straightest sticks go to the pieces that need them. Each piece comes whole from one
 * stick.
 * Given:    pieces, sticks  of one tube size
 *           kerf            in, >= 0: what a cut takes. Pieces that fill a stick need one cut fewer than there are pieces
 *           room            rbow_sticks_room(...) bytes, aligned as malloc does
 * Returned: stick_of        for each piece the index of its stick, or RBOW_NO_STICK
 *           cutting         a stick takes pieces up to 1e-9 in beyond its length
 * Status:   RBOW_OK | RBOW_BAD_KERF | RBOW_BAD_PIECE | RBOW_BAD_PIECE_BOW | RBOW_BAD_STICK | RBOW_BAD_STICK_BOW
 * Source:   first fit decreasing, bound L2, and branch and bound: Martello & Toth, Knapsack Problems, Wiley 1990, ch. 8 (from
 *           memory). */
RBOW_API rbow_status rbow_sticks_plan(const rbow_piece *pieces, size_t piece_count, const rbow_stick *sticks, size_t stick_count,
                                      double kerf, void *room, int *stick_of, rbow_cutting *cutting);

/* What is left of a stick behind its pieces and their cuts; the last cut may run out of the stick.
 * Given:    length  in, of the stick
 *           pieces  in, the length of its pieces together
 *           count   how many they are
 * Returned: in, >= 0 */
RBOW_API double rbow_stick_remainder(double length, double pieces, size_t count, double kerf);

/* The bow of a piece of a stick. A bowed stick is taken as an arc: common practice, no source.
 * Given:    stick
 *           length  in, of the piece
 * Returned: in; NaN where the stick's bow is not known */
RBOW_API double rbow_stick_piece_bow(const rbow_stick *stick, double length);

#ifdef __cplusplus
}
#endif

#endif
