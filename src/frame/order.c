/* Source: Cuthill & McKee, Reducing the bandwidth of sparse symmetric matrices, Proc. 24th ACM Nat. Conf. 1969; reversed as in
 * George & Liu, Computer Solution of Large Sparse Positive Definite Systems, 1981, ch. 4 (from memory). */
#include "frame/order.h"

#include <string.h>

typedef struct graph {
    size_t joints;
    uint32_t *first; /* of each joint and one more: where its neighbours begin */
    uint32_t *to;    /* two for each tube */
    uint32_t *next;  /* of each joint: the next free place among its neighbours; later, whether it is done */
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
    memcpy(g->next, g->first, g->joints * sizeof *g->next);
    for (size_t i = 0; i < f->tube_count; i++) {
        g->to[g->next[f->tubes[i].from]++] = (uint32_t)f->tubes[i].to;
        g->to[g->next[f->tubes[i].to]++] = (uint32_t)f->tubes[i].from;
    }
}

/* Breadth first from a joint; neighbours in the order of their degree.
 * Returned: order  from `count` on; the new count */
static size_t spread_from(const graph *g, size_t start, uint32_t *order, size_t count)
{
    size_t at = count;
    order[count++] = (uint32_t)start;
    g->next[start] = 1;
    for (; at < count; at++) {
        const size_t begin = count;
        for (size_t k = g->first[order[at]]; k < g->first[order[at] + 1]; k++) {
            const uint32_t joint = g->to[k];
            if (g->next[joint] != 0) continue;
            g->next[joint] = 1;
            size_t i = count++;
            for (; i > begin && degree(g, order[i - 1]) > degree(g, joint); i--) order[i] = order[i - 1];
            order[i] = joint;
        }
    }
    return count;
}

/* A joint at the far end of the part that `start` belongs to: the last of a search, and of a search from that. */
static size_t far_end(const graph *g, size_t start, uint32_t *order, size_t count)
{
    for (int round = 0; round < 2; round++) {
        const size_t end = spread_from(g, start, order, count);
        for (size_t i = count; i < end; i++) g->next[order[i]] = 0;
        start = order[end - 1];
    }
    return start;
}

size_t rbow_frame_order_room(const rbow_frame *f)
{
    return 3 * f->joint_count + 1 + 2 * f->tube_count;
}

void rbow_frame_order(const rbow_frame *f, uint32_t *room, uint32_t *order)
{
    const size_t n = f->joint_count;
    graph g = {n, room, room + n + 1, room + n + 1 + 2 * f->tube_count};
    size_t count = 0;
    connect(f, &g);
    memset(g.next, 0, n * sizeof *g.next);
    for (size_t i = 0; i < n; i++)
        if (g.next[i] == 0) count = spread_from(&g, far_end(&g, i, order, count), order, count);
    for (size_t i = 0; i < n / 2; i++) {
        const uint32_t swap = order[i];
        order[i] = order[n - 1 - i];
        order[n - 1 - i] = swap;
    }
}

static size_t place_in(const uint32_t *order, size_t count, size_t joint)
{
    size_t i = 0;
    while (order != NULL && i < count && order[i] != joint) i++;
    return order != NULL ? i : joint;
}

size_t rbow_frame_order_width(const rbow_frame *f, const uint32_t *order)
{
    size_t most = 0;
    for (size_t i = 0; i < f->tube_count; i++) {
        const size_t a = place_in(order, f->joint_count, f->tubes[i].from), b = place_in(order, f->joint_count, f->tubes[i].to);
        const size_t apart = a > b ? a - b : b - a;
        if (apart > most) most = apart;
    }
    return most;
}
