#define _POSIX_C_SOURCE 200809L
#include "command/progress.h"

#include <signal.h>
#include <stdio.h>
#include <unistd.h>

static volatile sig_atomic_t stopped;

static void stop(int signal_number)
{
    (void)signal_number;
    stopped = 1;
}

progress progress_begin(const char *name, size_t all)
{
    progress p = {.name = name, .all = all};
    signal(SIGINT, stop);
    clock_gettime(CLOCK_MONOTONIC, &p.begun);
    return p;
}

static double seconds_since(const struct timespec *begun)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - begun->tv_sec) + 1e-9 * (double)(now.tv_nsec - begun->tv_nsec);
}

bool progress_show(progress *p, size_t done)
{
    const double seconds = seconds_since(&p->begun), share = (double)done / (double)p->all;
    if (seconds > 1 && done < p->all && isatty(STDERR_FILENO)) {
        fprintf(stderr, "\r\033[K%.40s: %.0f %% of %zu samples, %.0f s left", p->name, 100 * share, p->all,
                seconds * (1 - share) / share);
        p->shown = true;
    }
    return !stopped;
}

void progress_end(progress *p)
{
    if (p->shown) fputs("\r\033[K", stderr);
}

bool progress_stopped(void)
{
    return stopped != 0;
}
