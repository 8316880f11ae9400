/* A lateral quantity in the two planes at once, up and to the right: one instruction works on both. */
#ifndef RAILBOW_ENGINE_PAIR_H
#define RAILBOW_ENGINE_PAIR_H

enum { UP, RIGHT };

typedef double pair __attribute__((vector_size(16)));

static inline double dot(pair a, pair b)
{
    const pair product = a * b;
    return product[UP] + product[RIGHT];
}

#endif
