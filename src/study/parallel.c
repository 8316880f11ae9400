#define _GNU_SOURCE /* sched_getaffinity */
#include "study/parallel.h"

#include <pthread.h>
#include <sched.h>
#include <stdatomic.h>
#include <unistd.h>

enum { THREADS_MOST = 1024, STACK = 1024 * 1024 }; /* a task takes some tens of KiB, whatever the shell's limit says */

typedef struct work {
    void (*task)(void *context, size_t i);
    void *context;
    size_t count;
    atomic_size_t next;
} work;

static void *take_tasks(void *given)
{
    work *w = given;
    for (size_t i; (i = atomic_fetch_add(&w->next, 1)) < w->count;) w->task(w->context, i);
    return NULL;
}

/* Cores that this process may use. */
static size_t cores(void)
{
    cpu_set_t allowed;
    CPU_ZERO(&allowed);
    if (sched_getaffinity(0, sizeof allowed, &allowed) == 0 && CPU_COUNT(&allowed) > 0) return (size_t)CPU_COUNT(&allowed);
    const long online = sysconf(_SC_NPROCESSORS_ONLN);
    return online > 0 ? (size_t)online : 1;
}

static size_t threads_for(size_t count, int jobs)
{
    size_t threads = jobs > 0 ? (size_t)jobs : cores();
    if (threads > count) threads = count;
    return threads < THREADS_MOST ? threads : THREADS_MOST;
}

/* Where the system gives no more threads, those that there are do the work; the calling one always does. */
static size_t start_threads(pthread_t started[], size_t wanted, work *w)
{
    pthread_attr_t attributes;
    size_t count = 0;
    if (pthread_attr_init(&attributes) != 0) return 0;
    pthread_attr_setstacksize(&attributes, STACK);
    while (count < wanted && pthread_create(&started[count], &attributes, take_tasks, w) == 0) count++;
    pthread_attr_destroy(&attributes);
    return count;
}

void parallel_for(size_t count, int jobs, void (*task)(void *context, size_t i), void *context)
{
    pthread_t started[THREADS_MOST];
    work w = {.task = task, .context = context, .count = count};
    const size_t threads = threads_for(count, jobs);
    const size_t running = threads > 1 ? start_threads(started, threads - 1, &w) : 0;
    take_tasks(&w);
    for (size_t i = 0; i < running; i++) pthread_join(started[i], NULL);
}
