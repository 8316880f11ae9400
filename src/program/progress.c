#define _POSIX_C_SOURCE 200809L
#include "program/progress.h"

#include "report/lines.h"

#include <signal.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

static volatile sig_atomic_t stopped;

static struct {
    double begun;     /* the first case, s */
    size_t cases;
    size_t samples;   /* of the cases that are done */
    struct sigaction usual;
} all_cases;

static void stop(int signal_number)
{
    (void)signal_number;
    stopped = 1;
}

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* What nohup or a shell had ignored stays so. */
static void watch(void)
{
    struct sigaction watched = {.sa_handler = stop};
    sigemptyset(&watched.sa_mask);
    sigaction(SIGINT, NULL, &all_cases.usual);
    if (all_cases.usual.sa_handler != SIG_IGN) sigaction(SIGINT, &watched, NULL);
}

progress progress_begin(const char *name, size_t all)
{
    return progress_begin_of(name, all, NULL);
}

progress progress_begin_of(const char *name, size_t all, const char *what)
{
    progress p = {.name = name, .all = all, .what = what};
    if (all_cases.cases++ == 0) all_cases.begun = now();
    watch();
    progress_show(&p, 0);
    return p;
}

/* At the pace of all that was done so far. */
static double seconds_left(const progress *p, size_t done)
{
    const double worked = now() - all_cases.begun;
    return worked / (double)(all_cases.samples + done) * (double)(p->all - done);
}

bool progress_show(progress *p, size_t done)
{
    if (done < p->all && now() - all_cases.begun > 1 && isatty(STDERR_FILENO)) {
        text line = {0};
        text_put(&line, "\r\033[K");
        if (p->what == NULL) text_format(&line, "case %zu, ", all_cases.cases);
        shorten(&line, p->name, 40);
        text_format(&line, ": %.0f %% of %zu %s, %.0f s left%s", 100 * (double)done / (double)p->all, p->all,
                    p->what != NULL ? p->what : "samples", seconds_left(p, done), p->what != NULL ? "" : " for it");
        if (!line.failed) fputs(line.at, stderr);
        text_free(&line);
        p->shown = true;
    }
    return !stopped;
}

void progress_end(progress *p)
{
    if (p->shown) fputs("\r\033[K", stderr);
    all_cases.samples += p->all;
    sigaction(SIGINT, &all_cases.usual, NULL);
}

bool progress_stopped(void)
{
    return stopped != 0;
}
