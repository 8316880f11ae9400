#include "page/wasi.h"

#include "study/parallel.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* ---- signals: none ever comes ------------------------------------------------------------------------ */

int sigemptyset(sigset_t *set)
{
    *set = 0;
    return 0;
}

int sigaddset(sigset_t *set, int number)
{
    *set |= 1UL << number;
    return 0;
}

int sigprocmask(int how, const sigset_t *set, sigset_t *before)
{
    (void)how;
    (void)set;
    if (before != NULL) *before = 0;
    return 0;
}

int sigaction(int number, const struct sigaction *wanted, struct sigaction *before)
{
    (void)number;
    (void)wanted;
    if (before != NULL) *before = (struct sigaction){0};
    return 0;
}

/* ---- files: they have no rights and no links --------------------------------------------------------- */

mode_t umask(mode_t mask)
{
    (void)mask;
    return 0;
}

int fchmod(int file, mode_t mode)
{
    (void)file;
    (void)mode;
    return 0;
}

/* Tries the names in order: the same run leaves the same files. */
int mkstemp(char *name)
{
    static const char digits[] = "0123456789";
    char *end = name + strlen(name) - 6;
    memset(end, '0', 6);
    for (size_t i = 0; i < 100; i++) {
        end[4] = digits[i / 10];
        end[5] = digits[i % 10];
        const int file = open(name, O_RDWR | O_CREAT | O_EXCL, 0600);
        if (file >= 0 || errno != EEXIST) return file;
    }
    return -1;
}

/* The path itself, if something stands there. */
char *realpath(const char *path, char *resolved)
{
    struct stat there;
    if (stat(path, &there) != 0) return NULL;
    return resolved == NULL ? strdup(path) : strcpy(resolved, path);
}

/* ---- threads: the calling one does all the work ------------------------------------------------------- */

void parallel_for(size_t count, int jobs, void (*task)(void *context, size_t i), void *context)
{
    (void)jobs;
    for (size_t i = 0; i < count; i++) task(context, i);
}
