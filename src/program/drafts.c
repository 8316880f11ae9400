#define _XOPEN_SOURCE 700 /* SIGXCPU, SIGXFSZ */
#include "program/drafts.h"

#include <signal.h>
#include <stddef.h>
#include <unistd.h>

enum { DRAFTS_MOST = 4 };
static char *volatile pending[DRAFTS_MOST];

static void drop_drafts(int signal_number)
{
    for (size_t i = 0; i < DRAFTS_MOST; i++)
        if (pending[i] != NULL) unlink(pending[i]);
    for (size_t i = 0; i < DRAFTS_MOST; i++)
        if (pending[i] != NULL) rmdir(pending[i]); /* a folder, now empty */
    signal(signal_number, SIG_DFL);
    raise(signal_number);
}

static const int stops[] = {SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGXCPU, SIGXFSZ};
static sigset_t before; /* what was held back already */

void drafts_hold_signals(void)
{
    sigset_t held;
    sigemptyset(&held);
    for (size_t i = 0; i < sizeof stops / sizeof *stops; i++) sigaddset(&held, stops[i]);
    sigprocmask(SIG_BLOCK, &held, &before);
}

void drafts_release_signals(void)
{
    sigprocmask(SIG_SETMASK, &before, NULL);
}

static void watch_signals(void)
{
    for (size_t i = 0; i < sizeof stops / sizeof *stops; i++) /* what nohup or a shell had ignored stays so */
        if (signal(stops[i], drop_drafts) == SIG_IGN) signal(stops[i], SIG_IGN);
}

void draft_expect(char *path)
{
    for (size_t i = 0; i < DRAFTS_MOST; i++)
        if (pending[i] == NULL) {
            pending[i] = path;
            break;
        }
    watch_signals();
}

void draft_forget(const char *path)
{
    for (size_t i = 0; i < DRAFTS_MOST; i++)
        if (pending[i] == path) pending[i] = NULL;
}
