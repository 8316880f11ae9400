/* Preloaded by memory.py: refuses memory to the program and what it links, but not to the thread library and the
 * loader, which end the process by themselves.
 *     REFUSE_AT     the first allocation refused, from 1; 0 none
 *     REFUSE_COUNT  how many in a row (0: all from there on)
 *     REFUSE_TELL   a file that gets the number of allocations asked for, when the program ends */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void *__libc_malloc(size_t n);
void *__libc_calloc(size_t count, size_t n);
void *__libc_realloc(void *old, size_t n);

static atomic_ulong asked;
static unsigned long from, count_refused;
static const char *tell;
static bool ready;

__attribute__((constructor)) static void begin(void)
{
    const char *at = getenv("REFUSE_AT"), *count = getenv("REFUSE_COUNT");
    tell = getenv("REFUSE_TELL");
    from = at != NULL ? strtoul(at, NULL, 10) : 0;
    count_refused = count != NULL ? strtoul(count, NULL, 10) : 1;
    ready = true;
}

__attribute__((destructor)) static void end(void)
{
    ready = false;
    FILE *file = tell != NULL ? fopen(tell, "w") : NULL;
    if (file == NULL) return;
    fprintf(file, "%lu\n", (unsigned long)asked);
    fclose(file);
}

static bool is_spared(const void *caller)
{
    Dl_info info;
    if (dladdr(caller, &info) == 0 || info.dli_fname == NULL) return false;
    return strstr(info.dli_fname, "libgomp") != NULL || strstr(info.dli_fname, "libomp") != NULL
        || strstr(info.dli_fname, "ld-linux") != NULL;
}

static bool refuses(const void *caller)
{
    if (!ready || is_spared(caller)) return false;
    const unsigned long n = ++asked;
    const bool refused = from > 0 && n >= from && (count_refused == 0 || n < from + count_refused);
    if (refused) errno = ENOMEM;
    return refused;
}

__attribute__((visibility("default"))) void *malloc(size_t n)
{
    return refuses(__builtin_return_address(0)) ? NULL : __libc_malloc(n);
}

__attribute__((visibility("default"))) void *calloc(size_t count, size_t n)
{
    return refuses(__builtin_return_address(0)) ? NULL : __libc_calloc(count, n);
}

__attribute__((visibility("default"))) void *realloc(void *old, size_t n)
{
    return refuses(__builtin_return_address(0)) ? NULL : __libc_realloc(old, n);
}
