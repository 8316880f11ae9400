#include "study/orientation.h"

#include <float.h>
#include <math.h>
#include <stdbool.h>

static const double full_circle = 2 * 3.14159265358979323846;

/* Margins at even clocks show every peak: a bow adds to the other moments as a vector, so the margin has one or
 * two peaks round the clock, and kinks where the governing place or check changes. */
enum { CLOCKS = 36, PARTS = 8 /* of a step, to tell peaks apart that lie close together */ };

static const double no_limit = DBL_MAX / 4; /* stands for infinity, which has no differences */

typedef struct orientation_search {
    const problem *problems; /* the cases of one tube */
    size_t count;
    rbow_status status;
    double sign;     /* 1 looks for the best, -1 for the worst */
    double straight; /* the lowest margin of the cases without a bow */
    double rounding; /* of a margin */
    double enough;   /* rad; so near that the tops of mirrored kinks are told to be level */
} orientation_search;

/* What the margin leaves open where it should be level: scenarios tie within 1e-9, and a direction that is searched for is
 * found to 1e-6 (measured: 4e-10 and 5e-8). */
static double rounding_at(const orientation_search *s, double height)
{
    return s->rounding * (1 + fabs(height));
}

static double margin_at(orientation_search *s, size_t i, const rbow_member *m)
{
    rbow_margin answer = {.margin = NAN};
    const rbow_status status = problem_margin(&s->problems[i], m, &answer);
    if (status != RBOW_OK) s->status = status;
    return answer.margin;
}

/* The lowest of all cases. */
static double signed_margin(orientation_search *s, double clock)
{
    double lowest = s->straight;
    for (size_t i = 0; i < s->count; i++) {
        rbow_member m = s->problems[i].member;
        if (!(m.bow > 0)) continue;
        m.bow_clock = clock < 0 ? clock + full_circle : clock >= full_circle ? clock - full_circle : clock;
        lowest = fmin(lowest, margin_at(s, i, &m));
    }
    return s->sign * fmin(lowest, no_limit);
}

static bool is_open(double clock, double amount)
{
    return amount > 0 && clock <= RBOW_ANY_CLOCK;
}

static orientation_search search_of(const problem problems[], size_t count)
{
    orientation_search s = {.problems = problems, .count = count, .status = RBOW_OK, .sign = 1, .straight = INFINITY,
                            .rounding = 3e-9, .enough = 1e-8};
    for (size_t i = 0; i < count; i++) {
        const rbow_member *m = &problems[i].member;
        if (!(m->bow > 0)) s.straight = fmin(s.straight, margin_at(&s, i, m));
        if (is_open(m->eccentricity_clock, m->eccentricity) || is_open(m->miss_a_clock, m->miss_a)
            || is_open(m->miss_b_clock, m->miss_b))
            s.rounding = 2e-7, s.enough = 1e-6;
    }
    return s;
}

typedef struct candidate {
    double clock, height;
} candidate;

enum { CANDIDATES_MOST = CLOCKS + CLOCKS * 2 * PARTS };

typedef struct candidates {
    candidate at[CANDIDATES_MOST];
    int count;
    double widest; /* largest difference within a step */
} candidates;

/* Golden section: it needs no derivative and is at home on the kinks, where parabolas stall. On a level top it
 * goes to the smaller clock: the hundredth of a rounding is what it may lose by that. */
static candidate golden_section(orientation_search *s, double low, double high)
{
    const double golden = 0.6180339887498949;
    double a = high - golden * (high - low), b = low + golden * (high - low);
    double at_a = signed_margin(s, a), at_b = signed_margin(s, b);
    while (high - low > s->enough && s->status == RBOW_OK) {
        if (at_a >= at_b - rounding_at(s, at_b) / 100) {
            high = b, b = a, at_b = at_a;
            a = high - golden * (high - low);
            at_a = signed_margin(s, a);
        } else {
            low = a, a = b, at_a = at_b;
            b = low + golden * (high - low);
            at_b = signed_margin(s, b);
        }
    }
    return at_a >= at_b - rounding_at(s, at_b) / 100 ? (candidate){a, at_a} : (candidate){b, at_b};
}

static bool is_peak(double left, double here, double right)
{
    return here >= left && here >= right && (here > left || here > right);
}

/* The tops of all peaks within a step to either side of an even clock. */
static void add_tops(orientation_search *s, candidates *c, int clock)
{
    const double part = full_circle / CLOCKS / PARTS, first = full_circle * (clock - 1) / CLOCKS;
    double heights[2 * PARTS + 1];
    for (int i = 0; i <= 2 * PARTS; i++) heights[i] = signed_margin(s, first + i * part);
    for (int i = 1; i < 2 * PARTS; i++) {
        if (!is_peak(heights[i - 1], heights[i], heights[i + 1])) continue;
        candidate top = golden_section(s, first + (i - 1) * part, first + (i + 1) * part);
        if (top.clock < 0) top.clock += full_circle;
        c->at[c->count++] = top;
    }
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
        const double left = c.at[(i + CLOCKS - 1) % CLOCKS].height, right = c.at[(i + 1) % CLOCKS].height;
        if (is_peak(left, c.at[i].height, right) && c.at[i].height + c.widest >= highest) add_tops(s, &c, i);
    }
    return c;
}

/* The highest. Ties, within what a search leaves open and rounding, go to the smallest clock. */
static candidate highest_of(const orientation_search *s, const candidates *c)
{
    double highest = -INFINITY;
    for (int i = 0; i < c->count; i++) highest = fmax(highest, c->at[i].height);
    const double left_open = 2 * s->enough * CLOCKS / full_circle * c->widest; /* as steep as any step */
    const double level = highest - left_open - rounding_at(s, highest);
    candidate best = {INFINITY, highest};
    for (int i = 0; i < c->count; i++)
        if (c->at[i].height >= level && c->at[i].clock < best.clock) best.clock = c->at[i].clock;
    return best;
}

static double unsigned_margin(double height, double sign)
{
    const double margin = sign * height;
    return margin < no_limit ? margin : (double)INFINITY;
}

/* The lowest, each case at its own clock; at its worst where that is not known. */
static double margin_as_marked(orientation_search *s)
{
    double lowest = INFINITY;
    for (size_t i = 0; i < s->count; i++) {
        const double margin = margin_at(s, i, &s->problems[i].member);
        if (s->status != RBOW_OK) return NAN;
        lowest = fmin(lowest, margin);
    }
    return lowest;
}

static bool has_bow(const orientation_search *s)
{
    for (size_t i = 0; i < s->count; i++)
        if (s->problems[i].member.bow > 0) return true;
    return false;
}

rbow_status orientation_find(const problem problems[], size_t count, orientation *answer)
{
    orientation_search s = search_of(problems, count);
    double margins[CLOCKS];
    const double marked = margin_as_marked(&s);
    *answer = (orientation){marked, 0, marked, 0, marked};
    if (s.status != RBOW_OK || !has_bow(&s)) return s.status;

    for (int i = 0; i < CLOCKS; i++) margins[i] = signed_margin(&s, full_circle * i / CLOCKS);
    candidates c = candidates_of(&s, margins);
    const candidate best = highest_of(&s, &c);
    s.sign = -1;
    c = candidates_of(&s, margins);
    const candidate worst = highest_of(&s, &c);
    *answer = (orientation){marked, best.clock, unsigned_margin(best.height, 1), worst.clock, unsigned_margin(worst.height, -1)};
    return s.status;
}

void orientation_margins(const problem problems[], size_t count, double margins[], size_t clocks)
{
    orientation_search s = search_of(problems, count);
    const rbow_status straight = s.status;
    for (size_t i = 0; i < clocks; i++) {
        s.status = straight;
        const double margin = unsigned_margin(signed_margin(&s, full_circle * (double)i / (double)clocks), 1);
        margins[i] = s.status == RBOW_OK ? margin : (double)NAN;
    }
}
