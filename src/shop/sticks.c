#include <railbow/sticks.h>

#include "shop/packing.h"

#include <math.h>

/* ---- the room ------------------------------------------------------------------------------------------------------------ */

size_t rbow_sticks_room(size_t pieces, size_t sticks)
{
    const size_t more = pieces > sticks ? pieces : sticks;
    return (2 * pieces + 3 * sticks + more) * sizeof(double) + (pieces + sticks) * sizeof(size_t)
        + (pieces + sticks) * sizeof(int);
}

static rbow_packing packing_in(void *room, size_t pieces, size_t sticks, double kerf)
{
    rbow_packing p = {.kerf = kerf, .pieces = pieces, .sticks = sticks};
    const size_t more = pieces > sticks ? pieces : sticks;
    p.size = room;
    p.need = p.size + pieces;
    p.capacity = p.need + pieces;
    p.curvature = p.capacity + sticks;
    p.free = p.curvature + sticks;
    p.scratch = p.free + sticks;
    p.piece_order = (size_t *)(void *)(p.scratch + more);
    p.stick_order = p.piece_order + pieces;
    p.trial = (int *)(void *)(p.stick_order + sticks);
    p.open = p.trial + pieces;
    return p;
}

/* ---- what was given ------------------------------------------------------------------------------------------------------ */

static double curvature_of(double bow, double length)
{
    return isnan(bow) ? (double)INFINITY : bow / (length * length);
}

static rbow_status take_pieces(rbow_packing *p, const rbow_piece *pieces)
{
    for (size_t i = 0; i < p->pieces; i++) {
        if (!(pieces[i].length > 0) || isinf(pieces[i].length)) return RBOW_BAD_PIECE;
        if (pieces[i].bow_most < 0) return RBOW_BAD_PIECE_BOW;
        p->size[i] = pieces[i].length + p->kerf;
        p->need[i] = curvature_of(pieces[i].bow_most, pieces[i].length);
    }
    rbow_packing_sort(p->piece_order, p->pieces, p->size, p->need, 1);
    return RBOW_OK;
}

static rbow_status take_sticks(rbow_packing *p, const rbow_stick *sticks)
{
    for (size_t i = 0; i < p->sticks; i++) {
        if (!(sticks[i].length > 0) || isinf(sticks[i].length)) return RBOW_BAD_STICK;
        if (sticks[i].bow < 0 || isinf(sticks[i].bow)) return RBOW_BAD_STICK_BOW;
        p->capacity[i] = sticks[i].length + p->kerf;
        p->curvature[i] = curvature_of(sticks[i].bow, sticks[i].length);
    }
    rbow_packing_sort(p->stick_order, p->sticks, p->capacity, p->curvature, -1);
    return RBOW_OK;
}

/* ---- the straightest sticks to the pieces that need them -------------------------------------------------------------------- */

/* The stick that replaces one of the same length: for a need the straightest, else the least straight. */
static size_t stick_for(const rbow_packing *p, double length, double need, const double taken[])
{
    size_t best = p->sticks;
    for (size_t i = 0; i < p->sticks; i++) {
        if (taken[i] > 0 || !(fabs(p->capacity[i] - length) <= rbow_packing_slack)) continue;
        const int first = best == p->sticks;
        if (first || (isinf(need) ? p->curvature[i] > p->curvature[best] : p->curvature[i] < p->curvature[best])) best = i;
    }
    return best;
}

/* The sticks of a plan, the one whose pieces need the straightest first; sticks of one length change places. A piece that
 * needs nothing leaves the straight sticks in the rack. */
static void straighten(const rbow_packing *p, int stick_of[])
{
    double *need = p->free, *taken = p->scratch;
    for (size_t i = 0; i < p->sticks; i++) {
        need[i] = -1; /* not cut */
        taken[i] = 0;
        p->open[i] = RBOW_NO_STICK;
    }
    for (size_t i = 0; i < p->pieces; i++) {
        if (stick_of[i] == RBOW_NO_STICK) continue;
        double *n = &need[stick_of[i]];
        *n = *n < 0 ? p->need[i] : fmin(*n, p->need[i]);
    }
    for (;;) {
        size_t next = p->sticks;
        for (size_t i = 0; i < p->sticks; i++)
            if (need[i] >= 0 && p->open[i] == RBOW_NO_STICK && (next == p->sticks || need[i] < need[next])) next = i;
        if (next == p->sticks) break;
        const size_t better = stick_for(p, p->capacity[next], need[next], taken);
        p->open[next] = (int)better;
        taken[better] = 1;
    }
    for (size_t i = 0; i < p->pieces; i++)
        if (stick_of[i] != RBOW_NO_STICK) stick_of[i] = p->open[stick_of[i]];
}

/* ---- the plan ------------------------------------------------------------------------------------------------------------ */

static void search(const rbow_packing *p, rbow_worth *worth, int *stick_of, rbow_cutting *cutting)
{
    cutting->basis = RBOW_CUTTING_DECREASING;
    if (p->pieces > RBOW_CUTTING_PIECES) return;
    const int ended = rbow_packing_search(p, (size_t)cutting->least, worth, stick_of);
    if (worth->left == 0) cutting->basis = ended ? RBOW_CUTTING_EXACT : RBOW_CUTTING_STOPPED;
    if (worth->left == 0 && ended) cutting->least = (int)worth->sticks;
}

rbow_status rbow_sticks_plan(const rbow_piece *pieces, size_t piece_count, const rbow_stick *sticks, size_t stick_count, double kerf,
                             void *room, int *stick_of, rbow_cutting *cutting)
{
    *cutting = (rbow_cutting){.length = NAN, .remainder = NAN};
    if (!(kerf >= 0) || isinf(kerf)) return RBOW_BAD_KERF;
    rbow_packing p = packing_in(room, piece_count, stick_count, kerf);
    const rbow_status piece = take_pieces(&p, pieces);
    if (piece != RBOW_OK) return piece;
    const rbow_status stick = take_sticks(&p, sticks);
    if (stick != RBOW_OK) return stick;
    cutting->least = (int)rbow_packing_bound(&p);
    rbow_worth worth = rbow_packing_decreasing(&p, stick_of);
    search(&p, &worth, stick_of, cutting);
    straighten(&p, stick_of);
    cutting->length = worth.length;
    cutting->remainder = worth.remainder;
    cutting->sticks = (int)worth.sticks;
    cutting->left = (int)worth.left;
    return RBOW_OK;
}

double rbow_stick_remainder(double length, double pieces, size_t count, double kerf)
{
    return fmax(0, length - pieces - (double)count * kerf);
}

double rbow_stick_piece_bow(const rbow_stick *stick, double length)
{
    const double share = length / stick->length;
    return stick->bow * share * share;
}
