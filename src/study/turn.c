#include "study/turn.h"

#include <math.h>
#include <stdbool.h>

static const double around = 2 * 3.14159265358979323846;

/* Margins at even clocks show every hill: a bow adds to the other moments as a vector, so the margin has one or
 * two hills round the clock, and kinks where the governing place or check changes. */
enum { CLOCKS = 36 };

static const double no_limit = 1e12; /* stands for infinity, which cannot be compared */
static const double enough = 3e-5; /* rad; well inside 0.1 degree */

typedef struct turning {
    const problem *problem;
    rbow_status status;
    double sign; /* 1 looks for the best, -1 for the worst */
} turning;

static double signed_margin(turning *t, double clock)
{
    rbow_member m = t->problem->member;
    rbow_margin answer = {.margin = NAN};
    m.bow_clock = clock < 0 ? clock + around : clock >= around ? clock - around : clock;
    const rbow_status status = problem_margin(t->problem, &m, &answer);
    if (status != RBOW_OK) t->status = status;
    return t->sign * fmin(answer.margin, no_limit);
}

typedef struct spot {
    double clock, height;
} spot;

/* Golden section: it needs no derivative and is at home on the kinks, where parabolas stall. On a level top it
 * goes to the smaller clock. */
static spot climb_between(turning *t, double low, double high)
{
    const double golden = 0.6180339887498949;
    double a = high - golden * (high - low), b = low + golden * (high - low);
    double at_a = signed_margin(t, a), at_b = signed_margin(t, b);
    while (high - low > enough && t->status == RBOW_OK) {
        if (at_a >= at_b) {
            high = b, b = a, at_b = at_a;
            a = high - golden * (high - low);
            at_a = signed_margin(t, a);
        } else {
            low = a, a = b, at_a = at_b;
            b = low + golden * (high - low);
            at_b = signed_margin(t, b);
        }
    }
    return at_a >= at_b ? (spot){a, at_a} : (spot){b, at_b};
}

/* Every even clock, and the top of every hill that could be the highest. Returned: how many. */
static int spots_of(turning *t, const double margins[CLOCKS], spot spots[2 * CLOCKS])
{
    int count = 0;
    double highest = -INFINITY, widest = 0;
    for (int i = 0; i < CLOCKS; i++) {
        spots[count++] = (spot){around * i / CLOCKS, t->sign * margins[i]};
        highest = fmax(highest, t->sign * margins[i]);
        widest = fmax(widest, fabs(margins[i] - margins[(i + 1) % CLOCKS]));
    }
    for (int i = 0; i < CLOCKS; i++) {
        const double here = spots[i].height;
        const double left = spots[(i + CLOCKS - 1) % CLOCKS].height, right = spots[(i + 1) % CLOCKS].height;
        const bool hill = here >= left && here >= right && (here > left || here > right);
        if (!hill || here + widest < highest) continue; /* it would have to rise more within a step than any does */
        spot top = climb_between(t, around * (i - 1) / CLOCKS, around * (i + 1) / CLOCKS);
        if (top.clock < 0) top.clock += around;
        spots[count++] = top;
    }
    return count;
}

/* The highest spot; differences of rounding's size are ties, which go to the smallest clock. */
static spot highest_of(const spot spots[], int count)
{
    spot best = spots[0];
    double highest = best.height;
    for (int i = 1; i < count; i++) highest = fmax(highest, spots[i].height);
    best.clock = INFINITY;
    for (int i = 0; i < count; i++)
        if (spots[i].height >= highest - 1e-9 * (1 + fabs(highest)) && spots[i].clock < best.clock) best = spots[i];
    return best;
}

rbow_status turn_bow(const problem *p, turn_answer *answer)
{
    turning t = {.problem = p, .status = RBOW_OK, .sign = 1};
    double margins[CLOCKS];
    spot spots[2 * CLOCKS];
    const double marked = signed_margin(&t, fmod(fmod(p->member.bow_clock, around) + around, around));
    *answer = (turn_answer){marked, 0, marked, 0, marked};
    if (t.status != RBOW_OK || !(p->member.bow > 0) || marked >= no_limit) return t.status;

    for (int i = 0; i < CLOCKS; i++) margins[i] = signed_margin(&t, around * i / CLOCKS);
    if (t.status != RBOW_OK) return t.status;
    const spot best = highest_of(spots, spots_of(&t, margins, spots));
    t.sign = -1;
    const spot worst = highest_of(spots, spots_of(&t, margins, spots));
    *answer = (turn_answer){marked, best.clock, best.height, worst.clock, -worst.height};
    return t.status;
}
