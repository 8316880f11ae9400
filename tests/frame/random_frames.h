/* Random frames that stand: bays of a four-chord box girder with crossed walls, like the front of a light car, held at one end. */
#ifndef TESTS_FRAME_RANDOM_FRAMES_H
#define TESTS_FRAME_RANDOM_FRAMES_H

#include "frames.h"

#include "dice.h"

static inline double some_end(dice *d)
{
    return dice_chance(d, 0.7) ? (double)RBOW_FIXED : dice_size(d, 1e4, 1e6);
}

static inline rbow_frame_tube *some_tube(structure *s, dice *d, size_t from, size_t to, bool forced)
{
    static const double walls[] = {0.035, 0.049, 0.058, 0.065, 0.083};
    rbow_frame_tube *t = add_tube(s, from, to, 0.125 * (5 + dice_below(d, 6)), walls[dice_below(d, 5)]);
    const double *a = s->joints[from].at, *b = s->joints[to].at;
    const double length = hypot(hypot(a[0] - b[0], a[1] - b[1]), a[2] - b[2]);
    t->end_a = some_end(d);
    t->end_b = some_end(d);
    t->weld_zone = dice_chance(d, 0.5) ? 0 : 1;
    t->fixity = dice_between(d, 1, 2);
    t->bow = dice_chance(d, 0.5) ? length * dice_between(d, 0, 0.003) : 0;
    t->bow_clock = dice_between(d, 0, 6);
    t->bow_shape = dice_below(d, 3);
    t->bow_at = length * dice_between(d, 0.3, 0.7);
    if (!forced) return t;
    t->miss_a = dice_chance(d, 0.4) ? length * dice_between(d, 0, 0.005) : 0;
    t->miss_b = dice_chance(d, 0.4) ? length * dice_between(d, 0, 0.005) : 0;
    t->miss_a_clock = dice_between(d, 0, 6);
    t->miss_b_clock = dice_between(d, 0, 6);
    t->gap = dice_chance(d, 0.4) ? length * dice_between(d, -3e-4, 3e-4) : 0;
    return t;
}

/* Given: bays; forced  with misses and gaps */
static inline structure *some_frame(dice *d, int bays, bool forced)
{
    structure *s = new_structure();
    for (int i = 0; i <= bays; i++)
        for (int k = 0; k < 4; k++) {
            const double y = k % 2 ? 9 : -9, z = k / 2 ? 24 : 8;
            const size_t j = add_joint(s, 22 * i + dice_between(d, -2, 2), y + dice_between(d, -2, 2), z + dice_between(d, -2, 2),
                                       i == 0 ? (dice_chance(d, 0.5) ? RBOW_HELD_FIXED : RBOW_HELD_PINNED) : 0);
            s->joints[j].mass = dice_chance(d, 0.3) ? dice_between(d, 0, 40) : 0;
        }
    for (int i = 0; i <= bays; i++) {
        static const size_t ring[4] = {0, 1, 3, 2};
        const size_t first = 4 * (size_t)i;
        for (size_t k = 0; k < 4; k++) {
            if (i < bays) some_tube(s, d, first + k, first + 4 + k, forced);
            if (i > 0) some_tube(s, d, first + ring[k], first + ring[(k + 1) % 4], forced);
            if (i < bays && dice_chance(d, 0.8)) some_tube(s, d, first + ring[k], first + 4 + ring[(k + 1) % 4], forced);
        }
    }
    return s;
}

static inline void some_loads(structure *s, dice *d)
{
    const size_t last = s->frame.joint_count - 4;
    add_load(s, RBOW_ACTS_ON_ALL, 0)->vertical_g = dice_between(d, 1, 4);
    for (size_t i = 0; i < 4; i++) {
        rbow_frame_load *l = push_joint(s, last + i, dice_between(d, -1500, 600), dice_between(d, -300, 300), dice_between(d, -300, 500));
        l->moment[0] = dice_between(d, -500, 500);
        l->moment[2] = dice_between(d, -500, 500);
    }
    rbow_frame_load *t = add_load(s, RBOW_ACTS_ON_TUBE, (size_t)dice_below(d, (int)s->frame.tube_count));
    for (int k = 0; k < 3; k++) {
        t->force[k] = dice_between(d, -60, 60);
        t->spread[k] = dice_between(d, -1, 1);
    }
}

#endif
