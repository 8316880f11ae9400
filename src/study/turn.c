#include "study/turn.h"

#include <float.h>
#include <math.h>
#include <stdbool.h>

static const double around = 2 * 3.14159265358979323846;

/* Margins at even clocks show every hill: a bow adds to the other moments as a vector, so the margin has one or
 * two hills round the clock, and kinks where the governing place or check changes. */
enum { CLOCKS = 36 };

static const double no_limit = DBL_MAX / 4; /* stands for infinity, which has no differences */
static const double enough = 1e-8; /* rad; so near that the tops of mirrored kinks are told to be level */

/* What the margin's own roots leave open where it should be level (measured: 6e-12, 1e-14 between mirrored clocks). */
static double rounding_at(double height)
{
    return 2e-11 * (1 + fabs(height));
}

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

typedef struct spots {
    spot at[2 * CLOCKS];
    int count;
    double widest; /* largest difference within a step */
} spots;

/* Golden section: it needs no derivative and is at home on the kinks, where parabolas stall. On a level top it
 * goes to the smaller clock. */
static spot climb_between(turning *t, double low, double high)
{
    const double golden = 0.6180339887498949;
    double a = high - golden * (high - low), b = low + golden * (high - low);
    double at_a = signed_margin(t, a), at_b = signed_margin(t, b);
    while (high - low > enough && t->status == RBOW_OK) {
        if (at_a >= at_b - rounding_at(at_b)) {
            high = b, b = a, at_b = at_a;
            a = high - golden * (high - low);
            at_a = signed_margin(t, a);
        } else {
            low = a, a = b, at_a = at_b;
            b = low + golden * (high - low);
            at_b = signed_margin(t, b);
        }
    }
    return at_a >= at_b - rounding_at(at_b) ? (spot){a, at_a} : (spot){b, at_b};
}

static bool is_hill(const spot even[], int i)
{
    const double here = even[i].height, left = even[(i + CLOCKS - 1) % CLOCKS].height, right = even[(i + 1) % CLOCKS].height;
    return here >= left && here >= right && (here > left || here > right);
}

/* Every even clock, and the top of every hill that could be the highest. */
static spots spots_of(turning *t, const double margins[])
{
    spots s = {.count = CLOCKS};
    double highest = -INFINITY;
    for (int i = 0; i < CLOCKS; i++) {
        s.at[i] = (spot){around * i / CLOCKS, t->sign * margins[i]};
        highest = fmax(highest, s.at[i].height);
        s.widest = fmax(s.widest, fabs(margins[i] - margins[(i + 1) % CLOCKS]));
    }
    for (int i = 0; i < CLOCKS; i++) {
        /* a low one would have to rise more within a step than any does */
        if (!is_hill(s.at, i) || s.at[i].height + s.widest < highest) continue;
        spot top = climb_between(t, around * (i - 1) / CLOCKS, around * (i + 1) / CLOCKS);
        if (top.clock < 0) top.clock += around;
        s.at[s.count++] = top;
    }
    return s;
}

/* The highest spot. Ties, within what a climb leaves open and rounding, go to the smallest clock. */
static spot highest_of(const spots *s)
{
    double highest = -INFINITY;
    for (int i = 0; i < s->count; i++) highest = fmax(highest, s->at[i].height);
    const double climb = 2 * enough * CLOCKS / around * s->widest; /* as steep as any step */
    const double level = highest - climb - rounding_at(highest);
    spot best = {INFINITY, highest};
    for (int i = 0; i < s->count; i++)
        if (s->at[i].height >= level && s->at[i].clock < best.clock) best.clock = s->at[i].clock;
    return best;
}

static double unsigned_margin(double height, double sign)
{
    const double margin = sign * height;
    return margin < no_limit ? margin : (double)INFINITY;
}

rbow_status turn_bow(const problem *p, turn_answer *answer)
{
    turning t = {.problem = p, .status = RBOW_OK, .sign = 1};
    double margins[CLOCKS];
    const double marked = unsigned_margin(signed_margin(&t, fmod(fmod(p->member.bow_clock, around) + around, around)), 1);
    *answer = (turn_answer){marked, 0, marked, 0, marked};
    if (t.status != RBOW_OK || !(p->member.bow > 0)) return t.status;

    for (int i = 0; i < CLOCKS; i++) margins[i] = signed_margin(&t, around * i / CLOCKS);
    spots s = spots_of(&t, margins);
    const spot best = highest_of(&s);
    t.sign = -1;
    s = spots_of(&t, margins);
    const spot worst = highest_of(&s);
    *answer = (turn_answer){marked, best.clock, unsigned_margin(best.height, 1), worst.clock, unsigned_margin(worst.height, -1)};
    return t.status;
}

void turn_margins(const problem *p, double margins[], size_t count)
{
    for (size_t i = 0; i < count; i++) {
        turning t = {.problem = p, .status = RBOW_OK, .sign = 1};
        const double margin = unsigned_margin(signed_margin(&t, around * (double)i / (double)count), 1);
        margins[i] = t.status == RBOW_OK ? margin : (double)NAN;
    }
}
