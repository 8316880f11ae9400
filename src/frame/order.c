/* Source: Cuthill & McKee, Reducing the bandwidth of sparse symmetric matrices, Proc. 24th ACM Nat. Conf. 1969; reversed as in
 * George & Liu, Computer Solution of Large Sparse Positive Definite Systems, 1981, ch. 4 (from memory). */
#include "frame/order.h"

#include <stdbool.h>
#include <string.h>

typedef struct graph {
    size_t joints;
    size_t *first;  /* joint_count + 1: where its neighbours begin */
    size_t *to;     /* 2 tube_count */
    size_t *far;    /* joint_count: distance in the search for a start, or 1 where it stands in the order */
} graph;

static size_t degree(const graph *g, size_t joint)
{
    return g->first[joint + 1] - g->first[joint];
}

static void connect(const rbow_frame *f, graph *g)
{
    memset(g->first, 0, (g->joints + 1) * sizeof *g->first);
    for (size_t i = 0; i < f->tube_count; i++) {
        g->first[f->tubes[i].from + 1]++;
        g->first[f->tubes[i].to + 1]++;
    }
    for (size_t i = 0; i < g->joints; i++) g->first[i + 1] += g->first[i];
    memcpy(g->far, g->first, g->joints * sizeof *g->far); /* the next free place of each */
    for (size_t i = 0; i < f->tube_count; i++) {
        g->to[g->far[f->tubes[i].from]++] = f->tubes[i].to;
        g->to[g->far[f->tubes[i].to]++] = f->tubes[i].from;
    }
}

/* Breadth first from a joint; neighbours in the order of their degree.
 * Returned: order  from `count` on; the new count */
static size_t spread_from(const graph *g, size_t start, bool *done, size_t *order, size_t count)
{
    size_t next = count;
    order[count++] = start;
    done[start] = true;
    for (; next < count; next++) {
        const size_t begin = count;
        for (size_t k = g->first[order[next]]; k < g->first[order[next] + 1]; k++) {
            const size_t joint = g->to[k];
            if (done[joint]) continue;
            done[joint] = true;
            size_t i = count++;
            for (; i > begin && degree(g, order[i - 1]) > degree(g, joint); i--) order[i] = order[i - 1];
            order[i] = joint;
        }
    }
    return count;
}

/* A joint at the far end of the part that `start` belongs to: the last of a search, and of a search from that. */
static size_t far_end(const graph *g, size_t start, bool *done, size_t *order, size_t count)
{
    for (int round = 0; round < 2; round++) {
        const size_t end = spread_from(g, start, done, order, count);
        for (size_t i = count; i < end; i++) done[order[i]] = false;
        start = order[end - 1];
    }
    return start;
}

void rbow_frame_order(const rbow_frame *f, size_t *room, size_t *order)
{
    const size_t n = f->joint_count;
    graph g = {n, room, room + n + 1, room + n + 1 + 2 * f->tube_count};
    bool *done = (bool *)(g.far + n);
    size_t count = 0;
    connect(f, &g);
    memset(done, 0, n * sizeof *done);
    for (size_t i = 0; i < n; i++)
        if (!done[i]) count = spread_from(&g, far_end(&g, i, done, order, count), done, order, count);
    for (size_t i = 0; i < n / 2; i++) {
        const size_t swap = order[i];
        order[i] = order[n - 1 - i];
        order[n - 1 - i] = swap;
    }
}
