/* What wasi-libc has not and the program asks for; included before every file of the page's build. The functions are in
 * src/page/wasi.c. There is one process, one thread, and no terminal: signals never come and no file has rights. */
#ifndef RAILBOW_PAGE_WASI_H
#define RAILBOW_PAGE_WASI_H

#include <sys/types.h>

typedef unsigned long sigset_t;
struct sigaction {
    void (*sa_handler)(int);
    sigset_t sa_mask;
    int sa_flags;
};
struct winsize {
    unsigned short ws_row, ws_col;
};
enum { SIG_BLOCK, SIG_UNBLOCK, SIG_SETMASK };
#define TIOCGWINSZ 0

int sigemptyset(sigset_t *set);
int sigaddset(sigset_t *set, int number);
int sigprocmask(int how, const sigset_t *set, sigset_t *before);
int sigaction(int number, const struct sigaction *wanted, struct sigaction *before);
mode_t umask(mode_t mask);
int fchmod(int file, mode_t mode);
int mkstemp(char *name);
char *realpath(const char *path, char *resolved);

#endif
