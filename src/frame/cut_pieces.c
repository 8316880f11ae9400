#include "frame/cut_pieces.h"

#include "frame/solver.h"

static bool is_cut(const cut_pieces *p, size_t tube)
{
    for (size_t i = 0; i < p->cut_count; i++)
        if (p->cuts[i].tube == tube) return true;
    return false;
}

static void take_joints(cut_pieces *p)
{
    for (size_t i = 0; i < p->whole->joint_count; i++) {
        p->joints[i] = p->whole->joints[i];
        p->piece[i] = i;
        p->holder[i] = not_free;
        p->reached[i] = p->turned[i] = false;
    }
}

static void reach(cut_pieces *p, size_t joint, double end)
{
    p->reached[joint] = true;
    p->turned[joint] = p->turned[joint] || end > 0;
}

static size_t first_of(const cut_pieces *p, size_t joint)
{
    while (p->piece[joint] != joint) joint = p->piece[joint];
    return joint;
}

static void join(cut_pieces *p, size_t a, size_t b)
{
    a = first_of(p, a);
    b = first_of(p, b);
    if (a < b) p->piece[b] = a;
    else p->piece[a] = b;
}

static void take_tubes(cut_pieces *p)
{
    size_t left = 0;
    for (size_t i = 0; i < p->whole->tube_count; i++) {
        const rbow_frame_tube *t = &p->whole->tubes[i];
        if (is_cut(p, i)) continue;
        p->tubes[left++] = *t;
        reach(p, t->from, t->end_a);
        reach(p, t->to, t->end_b);
        join(p, t->from, t->to);
    }
    p->part = (rbow_frame){p->joints, p->whole->joint_count, p->tubes, left};
    for (size_t i = 0; i < p->whole->joint_count; i++) p->piece[i] = first_of(p, i);
}

/* ---- stubs ---------------------------------------------------------------------------------------------- */

/* Whether a stub that is rigid to this joint, or on a spring, stands. A joint without a tube lies free with its stubs, or its
 * support holds it whole. */
static bool keeps_stub(const cut_pieces *p, size_t joint)
{
    const unsigned held = p->whole->joints[joint].held, turns = RBOW_HELD_RX | RBOW_HELD_RY | RBOW_HELD_RZ;
    if (p->turned[joint]) return true;
    if (!p->reached[joint]) return held == RBOW_HELD_NONE || held == RBOW_HELD_FIXED;
    return (held & turns) == turns;
}

static rbow_status check_stubs(const cut_pieces *p, rbow_frame_cut_note *note)
{
    for (size_t i = 0; i < p->cut_count; i++) {
        const rbow_frame_tube *t = &p->whole->tubes[p->cuts[i].tube];
        const bool at_a = t->end_a > 0 && keeps_stub(p, t->from), at_b = t->end_b > 0 && keeps_stub(p, t->to);
        if (at_a && at_b) continue;
        note->cut = i;
        note->loose.joint = at_a ? t->to : t->from;
        return RBOW_STUB_NOT_HELD;
    }
    return RBOW_OK;
}

/* ---- free pieces ---------------------------------------------------------------------------------------- */

/* A free piece is held at a joint that tubes can turn, if it has one. */
static void find_free(cut_pieces *p)
{
    const size_t count = p->whole->joint_count;
    for (size_t i = 0; i < count; i++) p->holder[i] = p->piece[i] == i ? i : not_free;
    for (size_t i = count; i-- > 0;)
        if (p->turned[i]) p->holder[p->piece[i]] = i;
    for (size_t i = 0; i < count; i++)
        if (p->whole->joints[i].held != RBOW_HELD_NONE) p->holder[p->piece[i]] = not_free;
}

static rbow_status hold_free(cut_pieces *p, bool loaded, rbow_frame_cut_note *note)
{
    for (size_t i = 0; i < p->whole->joint_count; i++) {
        if (!p->reached[i]) p->joints[i].held = RBOW_HELD_FIXED;
        if (p->holder[i] == not_free) continue;
        if (loaded) {
            note->loose.joint = i;
            return RBOW_PIECE_NOT_HELD;
        }
        p->joints[p->holder[i]].held = RBOW_HELD_FIXED;
    }
    return RBOW_OK;
}

rbow_status rbow_cut_pieces(cut_pieces *p, bool loaded, rbow_frame_cut_note *note)
{
    take_joints(p);
    take_tubes(p);
    find_free(p);
    const rbow_status status = check_stubs(p, note);
    return status == RBOW_OK ? hold_free(p, loaded, note) : status;
}

/* ---- placing -------------------------------------------------------------------------------------------- */

typedef struct placing { /* of one piece */
    double count, centre[RBOW_AXES], move[RBOW_AXES], turn[RBOW_AXES];
} placing;

static void cross(const double a[RBOW_AXES], const double b[RBOW_AXES], double out[RBOW_AXES])
{
    for (int i = 0; i < RBOW_AXES; i++) {
        const int j = (i + 1) % RBOW_AXES, k = (i + 2) % RBOW_AXES;
        out[i] = a[j] * b[k] - a[k] * b[j];
    }
}

/* Means over the joints of the piece: their place, and what they lack to where they were. */
static placing means_of(const cut_pieces *p, size_t first, const rbow_frame_motion *before, const rbow_frame_motion *after)
{
    placing m = {.count = 0};
    for (size_t i = first; i < p->whole->joint_count; i++) {
        if (p->piece[i] != first) continue;
        m.count++;
        for (int k = 0; k < RBOW_AXES; k++) {
            m.centre[k] += p->joints[i].at[k];
            m.move[k] += before[i].move[k] - after[i].move[k];
            m.turn[k] += before[i].turn[k] - after[i].turn[k];
        }
    }
    for (int k = 0; k < RBOW_AXES; k++) {
        m.centre[k] /= m.count;
        m.move[k] /= m.count;
        m.turn[k] /= m.count;
    }
    return m;
}

/* The turn w of least squares: with r from the centre and d what a joint lacks, (sum r r - r r') w = sum r x d. The matrix is
 * singular for joints on one line: the mean turn counts beside it with a weight of 1e-9. */
static void set_turn(const cut_pieces *p, size_t first, const rbow_frame_motion *before, const rbow_frame_motion *after, placing *m)
{
    double a[RBOW_AXES][RBOW_AXES] = {{0}}, b[RBOW_AXES] = {0}, trace;
    for (size_t i = first; i < p->whole->joint_count; i++) {
        double r[RBOW_AXES], d[RBOW_AXES], c[RBOW_AXES];
        if (p->piece[i] != first) continue;
        for (int k = 0; k < RBOW_AXES; k++) {
            r[k] = p->joints[i].at[k] - m->centre[k];
            d[k] = before[i].move[k] - after[i].move[k];
        }
        cross(r, d, c);
        for (int k = 0; k < RBOW_AXES; k++) {
            b[k] += c[k];
            for (int j = 0; j < RBOW_AXES; j++) a[k][j] += (j == k ? dot3(r, r) : 0) - r[k] * r[j];
        }
    }
    trace = a[0][0] + a[1][1] + a[2][2];
    const double weight = trace > 0 ? 1e-9 * trace : 1;
    for (int k = 0; k < RBOW_AXES; k++) {
        a[k][k] += weight;
        b[k] += weight * m->turn[k];
    }
    double c[RBOW_AXES][RBOW_AXES]; /* rows: the cross products of the others, so that a c' = det 1 */
    for (int k = 0; k < RBOW_AXES; k++) cross(a[(k + 1) % RBOW_AXES], a[(k + 2) % RBOW_AXES], c[k]);
    const double det = dot3(a[0], c[0]);
    for (int k = 0; k < RBOW_AXES; k++) m->turn[k] = (c[0][k] * b[0] + c[1][k] * b[1] + c[2][k] * b[2]) / det;
}

void rbow_cut_place_free(const cut_pieces *p, const rbow_frame_motion *before, rbow_frame_motion *after)
{
    for (size_t first = 0; first < p->whole->joint_count; first++) {
        if (p->holder[first] == not_free) continue;
        placing m = means_of(p, first, before, after);
        set_turn(p, first, before, after, &m);
        for (size_t i = first; i < p->whole->joint_count; i++) {
            double r[RBOW_AXES], turned[RBOW_AXES];
            if (p->piece[i] != first) continue;
            for (int k = 0; k < RBOW_AXES; k++) r[k] = p->joints[i].at[k] - m.centre[k];
            cross(m.turn, r, turned);
            for (int k = 0; k < RBOW_AXES; k++) {
                after[i].move[k] += m.move[k] + turned[k];
                after[i].turn[k] += m.turn[k];
            }
        }
    }
}
