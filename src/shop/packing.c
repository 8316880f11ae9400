#include "shop/packing.h"

#include <railbow/sticks.h>

#include <math.h>

/* ---- order and worth ----------------------------------------------------------------------------------------------------- */

static int stands_before(size_t a, size_t b, const double first[], const double second[], int sign)
{
    if (first[a] > first[b] || first[a] < first[b]) return first[a] > first[b];
    if (second[a] > second[b] || second[a] < second[b]) return sign > 0 ? second[a] < second[b] : second[a] > second[b];
    return a < b;
}

/* Shell's sort with the gaps 1, 4, 13, 40 ... */
void rbow_packing_sort(size_t order[], size_t count, const double first[], const double second[], int sign)
{
    size_t gap = 1;
    for (size_t i = 0; i < count; i++) order[i] = i;
    while (gap < count / 3) gap = 3 * gap + 1;
    for (; gap > 0; gap /= 3)
        for (size_t i = gap; i < count; i++) {
            const size_t moving = order[i];
            size_t at = i;
            for (; at >= gap && stands_before(moving, order[at - gap], first, second, sign); at -= gap) order[at] = order[at - gap];
            order[at] = moving;
        }
}

int rbow_worth_more(const rbow_worth *a, const rbow_worth *b)
{
    if (a->left != b->left) return a->left < b->left;
    if (a->sticks != b->sticks) return a->sticks < b->sticks;
    if (fabs(a->length - b->length) > rbow_packing_slack) return a->length < b->length;
    return a->remainder > b->remainder + rbow_packing_slack;
}

rbow_worth rbow_packing_worth(const rbow_packing *p, const int stick_of[])
{
    rbow_worth w = {0};
    for (size_t i = 0; i < p->sticks; i++) p->free[i] = p->capacity[i];
    for (size_t i = 0; i < p->sticks; i++) p->open[i] = 0;
    for (size_t i = 0; i < p->pieces; i++) {
        w.left += stick_of[i] == RBOW_NO_STICK;
        if (stick_of[i] == RBOW_NO_STICK) continue;
        p->free[stick_of[i]] -= p->size[i];
        p->open[stick_of[i]] = 1;
    }
    for (size_t i = 0; i < p->sticks; i++) {
        if (!p->open[i]) continue;
        w.sticks++;
        w.length += p->capacity[i] - p->kerf;
        w.remainder = fmax(w.remainder, p->free[i] - p->kerf); /* behind the cut of the last piece */
    }
    return w;
}

/* ---- the lower bound ------------------------------------------------------------------------------------------------------ */

/* So many of the largest sticks that serve the need hold the total; all of them and one more where they do not. */
static size_t sticks_that_hold(const rbow_packing *p, double total, double need)
{
    size_t count = 0;
    for (size_t i = 0; i < p->sticks && total > rbow_packing_slack; i++) {
        const size_t stick = p->stick_order[i];
        if (!(p->curvature[stick] <= need)) continue;
        total -= p->capacity[stick];
        count++;
    }
    return count + (total > rbow_packing_slack);
}

/* Bound L2 of Martello and Toth for sizes in bins of one capacity c: a size above c - alpha has its bin alone among those of
 * alpha and more; two above c/2 do not share one; those from alpha to c/2 go first into what the middle ones leave. */
static size_t bound_of_two(const double sizes[], size_t count, double c, double alpha)
{
    size_t alone = 0, middle = 0;
    double room = 0, small = 0;
    for (size_t i = 0; i < count; i++) {
        const double size = sizes[i];
        if (size > c - alpha + rbow_packing_slack) {
            alone++;
        } else if (size > c / 2 + rbow_packing_slack) {
            middle++;
            room += c - size;
        } else if (size >= alpha) {
            small += size;
        }
    }
    return alone + middle + (small > room ? (size_t)ceil((small - room) / c - 1e-9) : 0);
}

static size_t bound_of_sizes(const double sizes[], size_t count, double c)
{
    size_t most = bound_of_two(sizes, count, c, 0);
    for (size_t i = 0; i < count; i++) {
        if (sizes[i] > c / 2 || (i > 0 && !(sizes[i] < sizes[i - 1]))) continue;
        const size_t bound = bound_of_two(sizes, count, c, sizes[i]);
        if (bound > most) most = bound;
    }
    return most;
}

/* Of the pieces with that need or a stricter one, in the sticks that serve it. */
static size_t bound_of_need(const rbow_packing *p, double need)
{
    size_t count = 0;
    double total = 0, largest = 0;
    for (size_t i = 0; i < p->pieces; i++) {
        const size_t piece = p->piece_order[i];
        if (p->need[piece] > need) continue;
        p->scratch[count++] = p->size[piece];
        total += p->size[piece];
    }
    for (size_t i = 0; i < p->sticks; i++)
        if (p->curvature[i] <= need) largest = fmax(largest, p->capacity[i]);
    if (count == 0 || !(largest > 0)) return 0;
    const size_t by_total = sticks_that_hold(p, total, need), by_sizes = bound_of_sizes(p->scratch, count, largest);
    return by_total > by_sizes ? by_total : by_sizes;
}

size_t rbow_packing_bound(const rbow_packing *p)
{
    size_t most = bound_of_need(p, INFINITY);
    for (size_t i = 0; i < p->pieces && p->pieces <= RBOW_CUTTING_PIECES; i++) {
        const size_t bound = isinf(p->need[i]) ? 0 : bound_of_need(p, p->need[i]);
        if (bound > most) most = bound;
    }
    return most;
}

/* ---- first fit and best fit decreasing --------------------------------------------------------------------------------------- */

typedef struct rule {
    int straight_first; /* pieces with a need before those without */
    int best_fit;       /* the stick with the least room, not the first */
    int shortest;       /* a new stick is the shortest that serves, not the longest */
} rule;

/* The stick for a piece: one that is cut into already, else a new one, the least straight of its length. */
static int choose(const rbow_packing *p, size_t piece, const rule *r, size_t opened)
{
    int best = RBOW_NO_STICK;
    for (size_t i = 0; i < opened; i++) {
        const int stick = p->open[i];
        if (!rbow_packing_fits(p, piece, (size_t)stick, p->free[stick])) continue;
        if (best == RBOW_NO_STICK || p->free[stick] < p->free[best]) best = stick;
        if (!r->best_fit) break;
    }
    for (size_t i = 0; i < p->sticks && best == RBOW_NO_STICK; i++) {
        size_t at = r->shortest ? p->sticks - 1 - i : i;
        const size_t stick = p->stick_order[at];
        const int is_new = !(p->free[stick] < p->capacity[stick]);
        if (is_new && rbow_packing_fits(p, piece, stick, p->capacity[stick])) best = (int)stick;
    }
    return best;
}

static void place(const rbow_packing *p, const rule *r, int stick_of[])
{
    size_t opened = 0;
    for (size_t i = 0; i < p->sticks; i++) p->free[i] = p->capacity[i];
    for (size_t round = 0; round < 2; round++)
        for (size_t i = 0; i < p->pieces; i++) {
            const size_t piece = p->piece_order[i];
            if ((r->straight_first && isinf(p->need[piece])) != (round == 1)) continue;
            const int stick = choose(p, piece, r, opened);
            stick_of[piece] = stick;
            if (stick == RBOW_NO_STICK) continue;
            if (!(p->free[stick] < p->capacity[stick])) p->open[opened++] = stick;
            p->free[stick] -= p->size[piece];
        }
}

rbow_worth rbow_packing_decreasing(const rbow_packing *p, int stick_of[])
{
    rbow_worth best = {.left = p->pieces + 1};
    for (int i = 0; i < 8; i++) {
        const rule r = {i & 1, i & 2, i & 4};
        place(p, &r, p->trial);
        const rbow_worth worth = rbow_packing_worth(p, p->trial);
        if (!rbow_worth_more(&worth, &best)) continue;
        best = worth;
        for (size_t k = 0; k < p->pieces; k++) stick_of[k] = p->trial[k];
    }
    return best;
}
