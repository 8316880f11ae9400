/* The climb to a limit: a level (the use of yield, or the interaction) followed as the load factor grows, to the first
 * place where it reaches 1. */
#ifndef RAILBOW_ENGINE_CLIMB_H
#define RAILBOW_ENGINE_CLIMB_H

#include "engine/factor.h"
#include "engine/wide.h"

typedef struct mark { /* what is seen at a load factor */
    double factor;
    double level[LEVELS];
    bool closely; /* not by a glance */
} mark;

typedef struct place { /* along the tube, xi, and in which zone */
    double at;
    int zone;
} place;

typedef struct batch { /* what one glance sees */
    mark seen[GLANCES];
    int count;
} batch;

enum { BATCHES_MOST = 8 };

typedef struct step { /* the height of a level at a load factor, see climb_height */
    double factor, height;
} step;

enum { STEPS_MOST = GLANCES + 2 };

typedef struct steps { /* from below the limit to beyond it, rising */
    step at[STEPS_MOST];
    int count;
} steps;

/* Both levels come from one equilibrium, so what one climb sees is kept for the other. */
typedef struct memory {
    batch batches[BATCHES_MOST];
    int count;           /* of all there were: the oldest goes where there is no room */
    steps ahead[LEVELS]; /* of each level around a crossing that has been met; none before */
    mark loaded;         /* at a load factor of 1, where that is known */
    mark last;           /* looked at closely */
    place place[LEVELS]; /* where its levels are reached */
    double end; /* where one climb's first walk ended, for the other to meet remembered places; 0 for none */
} memory;

typedef struct climb {
    const frame *frame;
    double tension;
    double critical; /* load factor at which the tube buckles; INFINITY for none */
    level level;
    memory *memory;
    mark start;   /* of the walk; below the limit */
    int halvings; /* of stretches, that are left */
    bool failed;
} climb;

climb climb_of(const frame *f, double tension, level which, memory *m);

void memory_clear(memory *m);

/* Keeps what has been seen at a load factor, as the last looked at closely. */
mark memory_keep(memory *m, double factor, const sight *s);

/* The whole tube at a load factor. Where something is not a number, the climb has failed. */
mark climb_look(climb *c, double factor);

/* 0 at the limit, below it negative; close to linear where a tube nears its critical load and bends without bound. */
double climb_height(const climb *c, const mark *m);

/* Nowhere. */
reach climb_never(const climb *c);

/* A range without an end: where the axial load does not change, a level that grows at all grows for ever. */
#define FOR_EVER 1e100

/* Given:    from  looked at closely
 *           high  where the range ends
 * Returned: out   the first place where the level reaches 1; climb_never() where it does not
 * Status:   RBOW_OK | RBOW_NO_CONVERGENCE | RBOW_STRESS_OVERFLOW */
rbow_status climb_to_limit(climb *c, const mark *from, double high, reach *out);

#endif
