#include "shop/packing.h"

#include <railbow/sticks.h>

#include <math.h>

/* Branch and bound by filling one stick after the other (bin completion: Martello & Toth, Knapsack Problems, Wiley 1990, sec.
 * 8.5, and Korf, AAAI 2002; both from memory). The largest piece that has no stick yet opens the next one, of every kind; then
 * every set of smaller pieces that fits completes it. So each plan is met once.
 *
 * The first round looks for fewer sticks, then for less length. In it a stick is closed only when no other piece fits: a piece
 * that fits can be moved there from a later stick, which costs nothing. The second round looks for a larger remainder with
 * these sticks and this length; there every set counts. */

typedef struct search {
    const rbow_packing *p;
    size_t pieces, kinds;
    size_t piece[RBOW_CUTTING_PIECES];
    int taken[RBOW_CUTTING_PIECES];
    size_t bin_of[RBOW_CUTTING_PIECES], kind_of[RBOW_CUTTING_PIECES];
    double rest, total;  /* sizes without a stick, and all */
    double wasted, most; /* room that closed sticks leave: together, and the largest */
    size_t bins;
    double length; /* of the sticks so far */
    /* a kind: sticks of one length and curvature, which follow each other in stick_order */
    int *kind_left;
    double *kind_first; /* the kind's first place in stick_order */
    int round;
    size_t target; /* sticks at most */
    long steps;
    rbow_worth best;
    int *stick_of;
} search;

static size_t stick_of_kind(const search *s, size_t kind)
{
    return s->p->stick_order[(size_t)s->kind_first[kind]];
}

static double capacity_of(const search *s, size_t kind)
{
    return s->p->capacity[stick_of_kind(s, kind)];
}

static void take_kinds(search *s)
{
    const rbow_packing *p = s->p;
    s->kinds = 0;
    s->kind_left = p->open;
    s->kind_first = p->scratch;
    for (size_t i = 0; i < p->sticks; i++) {
        const size_t stick = p->stick_order[i], before = p->stick_order[i > 0 ? i - 1 : 0];
        const int same = i > 0 && !(p->capacity[stick] < p->capacity[before]) && !(p->curvature[stick] < p->curvature[before]);
        if (!same) {
            s->kind_first[s->kinds] = (double)i;
            s->kind_left[s->kinds++] = 0;
        }
        s->kind_left[s->kinds - 1]++;
    }
}

/* ---- what can still become of it -------------------------------------------------------------------------------------------- */

/* So many more sticks, the largest first, hold the sizes; kinds + 1 sticks beyond all where they do not. */
static size_t more_sticks(const search *s, double sizes)
{
    size_t more = 0;
    for (size_t k = 0; k < s->kinds; k++)
        for (int i = 0; i < s->kind_left[k]; i++, more++) {
            if (!(sizes > rbow_packing_slack)) return more;
            sizes -= capacity_of(s, k);
        }
    return sizes > rbow_packing_slack ? s->p->pieces + 1 : more;
}

/* Whether a better plan may follow where the stick that is being filled takes `more` at most and leaves `waste` at least. */
static int may_win(const search *s, double more, double waste)
{
    const rbow_worth *best = &s->best;
    const double kerf = s->p->kerf, lack = s->rest - more;
    const size_t new_sticks = more_sticks(s, lack), sticks = s->bins + new_sticks;
    const double length = s->length + (new_sticks > 0 ? fmax(0, lack - (double)new_sticks * kerf) : 0);
    if (new_sticks > s->p->pieces || sticks > s->target) return 0;
    if (best->left > 0) return 1;
    if (sticks > best->sticks || (sticks == best->sticks && length > best->length + rbow_packing_slack)) return 0;
    if (s->round == 1) return sticks < best->sticks || length < best->length - rbow_packing_slack;
    const double spare = best->length + (double)best->sticks * kerf - s->total;
    return fmax(fmax(s->most, waste), spare - s->wasted) - kerf > best->remainder + rbow_packing_slack;
}

/* ---- a plan that is complete -------------------------------------------------------------------------------------------------- */

static void take_plan(search *s)
{
    const rbow_worth worth = {.sticks = s->bins, .length = s->length, .remainder = fmax(0, s->most - s->p->kerf)};
    size_t stick[RBOW_CUTTING_PIECES] = {0};
    if (!rbow_worth_more(&worth, &s->best)) return;
    s->best = worth;
    for (size_t b = 0; b < s->bins; b++) { /* the next one of its kind */
        size_t earlier = 0;
        for (size_t a = 0; a < b; a++) earlier += s->kind_of[a] == s->kind_of[b];
        stick[b] = s->p->stick_order[(size_t)s->kind_first[s->kind_of[b]] + earlier];
    }
    for (size_t i = 0; i < s->pieces; i++) s->stick_of[s->piece[i]] = (int)stick[s->bin_of[i]];
}

/* ---- the branches: 0 where the steps ran out ------------------------------------------------------------------------------------- */

static int fits(const search *s, size_t i, double free)
{
    return !s->taken[i] && rbow_packing_fits(s->p, s->piece[i], stick_of_kind(s, s->kind_of[s->bins - 1]), free);
}

static int is_equal(const search *s, size_t i, size_t k)
{
    const size_t a = s->piece[i], b = s->piece[k];
    const rbow_packing *p = s->p;
    return !(p->size[a] > p->size[b]) && !(p->size[a] < p->size[b]) && !(p->need[a] > p->need[b]) && !(p->need[a] < p->need[b]);
}

static void take(search *s, size_t i, int taken)
{
    s->taken[i] = taken;
    s->bin_of[i] = s->bins - 1;
    s->rest += taken ? -s->p->size[s->piece[i]] : s->p->size[s->piece[i]];
}

static int open_next(search *s);

/* The stick is done. */
static int close_stick(search *s, double free)
{
    const double wasted = s->wasted, most = s->most;
    for (size_t i = 0; i < s->pieces && s->round == 1; i++)
        if (fits(s, i, free)) return 1;
    if (!may_win(s, 0, free)) return 1;
    s->wasted += free;
    s->most = fmax(most, free);
    const int ended = open_next(s);
    s->wasted = wasted;
    s->most = most;
    return ended;
}

/* Every set of pieces from `from` on that fits into the room. */
static int fill(search *s, size_t from, double free)
{
    double can = 0;
    size_t refused = s->pieces; /* the last piece that was left out */
    if (++s->steps > RBOW_CUTTING_STEPS) return 0;
    for (size_t i = from; i < s->pieces; i++)
        if (fits(s, i, free)) can += s->p->size[s->piece[i]];
    if (!may_win(s, fmin(can, free), fmax(0, free - can))) return 1;
    for (size_t i = from; i < s->pieces; i++) {
        if (!fits(s, i, free) || (refused < s->pieces && is_equal(s, i, refused))) continue;
        take(s, i, 1);
        const int ended = fill(s, i + 1, free - s->p->size[s->piece[i]]);
        take(s, i, 0);
        if (!ended) return 0;
        refused = i;
    }
    return close_stick(s, free);
}

static int open_next(search *s)
{
    size_t first = 0;
    while (first < s->pieces && s->taken[first]) first++;
    if (first == s->pieces) {
        take_plan(s);
        return 1;
    }
    for (size_t k = 0; k < s->kinds; k++) {
        const double capacity = capacity_of(s, k), length = capacity - s->p->kerf;
        if (s->kind_left[k] == 0 || !rbow_packing_fits(s->p, s->piece[first], stick_of_kind(s, k), capacity)) continue;
        s->kind_of[s->bins++] = k;
        s->kind_left[k]--;
        s->length += length;
        take(s, first, 1);
        const int ended = fill(s, first + 1, capacity - s->p->size[s->piece[first]]);
        take(s, first, 0);
        s->length -= length;
        s->kind_left[k]++;
        s->bins--;
        if (!ended) return 0;
    }
    return 1;
}

static int run_round(const rbow_packing *p, int round, size_t target, rbow_worth *best, int stick_of[])
{
    search s = {.p = p, .pieces = p->pieces, .round = round, .target = target, .best = *best, .stick_of = stick_of};
    take_kinds(&s);
    for (size_t i = 0; i < p->pieces; i++) {
        s.piece[i] = p->piece_order[i];
        s.total += p->size[s.piece[i]];
    }
    s.rest = s.total;
    const int ended = open_next(&s);
    *best = s.best;
    return ended;
}

/* The tightest target first: the fewer the sticks, the less room may be wasted, and the fewer sets count. */
int rbow_packing_search(const rbow_packing *p, size_t bound, rbow_worth *best, int stick_of[])
{
    int ended = 1;
    for (size_t target = bound; target <= p->pieces; target++) {
        if (!run_round(p, 1, target, best, stick_of)) ended = 0;
        if (best->left == 0 && best->sticks <= target) break;
    }
    return best->left == 0 && run_round(p, 2, best->sticks, best, stick_of) && ended;
}
