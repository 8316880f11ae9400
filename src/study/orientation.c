#include "study/orientation.h"

#include <float.h>
#include <math.h>
#include <stdbool.h>

static const double full_circle = 2 * 3.14159265358979323846;

/* Margins at even clocks show every peak: a bow adds to the other moments as a vector, so the margin has one or
 * two peaks round the clock, and kinks where the governing place or check changes. */
enum { CLOCKS = 36 };

static const double no_limit = DBL_MAX / 4; /* stands for infinity, which has no differences */
static const double enough = 1e-8; /* rad; so near that the tops of mirrored kinks are told to be level */

/* What the margin's own roots leave open where it should be level (measured: 6e-12, 1e-14 between mirrored clocks). */
static double rounding_at(double height)
{
    return 2e-11 * (1 + fabs(height));
}

typedef struct orientation_search {
    const problem *problem;
    rbow_status status;
    double sign; /* 1 looks for the best, -1 for the worst */
} orientation_search;

static double signed_margin(orientation_search *s, double clock)
{
    rbow_member m = s->problem->member;
    rbow_margin answer = {.margin = NAN};
    m.bow_clock = clock < 0 ? clock + full_circle : clock >= full_circle ? clock - full_circle : clock;
    const rbow_status status = problem_margin(s->problem, &m, &answer);
    if (status != RBOW_OK) s->status = status;
    return s->sign * fmin(answer.margin, no_limit);
}

typedef struct candidate {
    double clock, height;
} candidate;

typedef struct candidates {
    candidate at[2 * CLOCKS];
    int count;
    double widest; /* largest difference within a step */
} candidates;

/* Golden section: it needs no derivative and is at home on the kinks, where parabolas stall. On a level top it
 * goes to the smaller clock. */
static candidate golden_section(orientation_search *s, double low, double high)
{
    const double golden = 0.6180339887498949;
    double a = high - golden * (high - low), b = low + golden * (high - low);
    double at_a = signed_margin(s, a), at_b = signed_margin(s, b);
    while (high - low > enough && s->status == RBOW_OK) {
        if (at_a >= at_b - rounding_at(at_b)) {
            high = b, b = a, at_b = at_a;
            a = high - golden * (high - low);
            at_a = signed_margin(s, a);
        } else {
            low = a, a = b, at_a = at_b;
            b = low + golden * (high - low);
            at_b = signed_margin(s, b);
        }
    }
    return at_a >= at_b - rounding_at(at_b) ? (candidate){a, at_a} : (candidate){b, at_b};
}

static bool is_peak(const candidate even[], int i)
{
    const double here = even[i].height, left = even[(i + CLOCKS - 1) % CLOCKS].height, right = even[(i + 1) % CLOCKS].height;
    return here >= left && here >= right && (here > left || here > right);
}

/* Every even clock, and the top of every peak that could be the highest. */
static candidates candidates_of(orientation_search *s, const double margins[])
{
    candidates c = {.count = CLOCKS};
    double highest = -INFINITY;
    for (int i = 0; i < CLOCKS; i++) {
        c.at[i] = (candidate){full_circle * i / CLOCKS, s->sign * margins[i]};
        highest = fmax(highest, c.at[i].height);
        c.widest = fmax(c.widest, fabs(margins[i] - margins[(i + 1) % CLOCKS]));
    }
    for (int i = 0; i < CLOCKS; i++) {
        /* a low one would have to rise more within a step than any does */
        if (!is_peak(c.at, i) || c.at[i].height + c.widest < highest) continue;
        candidate top = golden_section(s, full_circle * (i - 1) / CLOCKS, full_circle * (i + 1) / CLOCKS);
        if (top.clock < 0) top.clock += full_circle;
        c.at[c.count++] = top;
    }
    return c;
}

/* The highest. Ties, within what a orientation_search leaves open and rounding, go to the smallest clock. */
static candidate highest_of(const candidates *s)
{
    double highest = -INFINITY;
    for (int i = 0; i < s->count; i++) highest = fmax(highest, s->at[i].height);
    const double left_open = 2 * enough * CLOCKS / full_circle * s->widest; /* as steep as any step */
    const double level = highest - left_open - rounding_at(highest);
    candidate best = {INFINITY, highest};
    for (int i = 0; i < s->count; i++)
        if (s->at[i].height >= level && s->at[i].clock < best.clock) best.clock = s->at[i].clock;
    return best;
}

static double unsigned_margin(double height, double sign)
{
    const double margin = sign * height;
    return margin < no_limit ? margin : (double)INFINITY;
}

/* At the case's own clock; at its worst where that is not known. */
static double margin_as_marked(orientation_search *s)
{
    const rbow_member *m = &s->problem->member;
    rbow_margin answer = {.margin = NAN};
    const rbow_status status = problem_margin(s->problem, m, &answer);
    if (status != RBOW_OK) s->status = status;
    return answer.margin;
}

rbow_status orientation_find(const problem *p, orientation *answer)
{
    orientation_search s = {.problem = p, .status = RBOW_OK, .sign = 1};
    double margins[CLOCKS];
    const double marked = margin_as_marked(&s);
    *answer = (orientation){marked, 0, marked, 0, marked};
    if (s.status != RBOW_OK || !(p->member.bow > 0)) return s.status;

    for (int i = 0; i < CLOCKS; i++) margins[i] = signed_margin(&s, full_circle * i / CLOCKS);
    candidates c = candidates_of(&s, margins);
    const candidate best = highest_of(&c);
    s.sign = -1;
    c = candidates_of(&s, margins);
    const candidate worst = highest_of(&c);
    *answer = (orientation){marked, best.clock, unsigned_margin(best.height, 1), worst.clock, unsigned_margin(worst.height, -1)};
    return s.status;
}

void orientation_margins(const problem *p, double margins[], size_t count)
{
    for (size_t i = 0; i < count; i++) {
        orientation_search s = {.problem = p, .status = RBOW_OK, .sign = 1};
        const double margin = unsigned_margin(signed_margin(&s, full_circle * (double)i / (double)count), 1);
        margins[i] = s.status == RBOW_OK ? margin : (double)NAN;
    }
}
