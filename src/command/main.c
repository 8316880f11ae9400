#define _POSIX_C_SOURCE 200809L
#include "command/commands.h"

#include "program/exit_status.h"
#include "program/say.h"

#include <fcntl.h>
#include <gsl/gsl_errno.h>
#include <railbow/version.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* A file that is opened later must not get the number of a closed standard stream, or messages would be written into it.
 * A substitute that cannot be used in the stream's direction takes the number, so that its use still fails. */
static void fill_standard_streams(void)
{
    for (int n = STDIN_FILENO; n <= STDERR_FILENO; n++)
        if (fcntl(n, F_GETFD) < 0 && open("/dev/null", n == STDIN_FILENO ? O_WRONLY : O_RDONLY) != n) return;
}

static int say_version(void)
{
    const bool fine = printf("railbow %s\n", rbow_version()) > 0 && fflush(stdout) == 0;
    if (!fine) say("stdout: cannot write");
    return fine ? ALL_HOLD : NO_VERDICT;
}

static int run_command(const command *c, int argc, char **argv)
{
    options o;
    char *name[] = {argv[0]};
    const options about = {.operands = name, .operand_count = 1};
    int status = NO_VERDICT;
    if (options_read(&o, c->name, c->takes, argc, argv)) status = o.help ? command_help(&about) : c->run(&o);
    options_free(&o);
    return status;
}

int main(int argc, char **argv)
{
    fill_standard_streams();
    gsl_set_error_handler_off();
    signal(SIGPIPE, SIG_IGN); /* writing to a closed pipe then fails and gives a message */
    if (argc < 2) {
        say("name a command; see 'railbow help'");
        return NO_VERDICT;
    }
    if (strcmp(argv[1], "--version") == 0) return say_version();
    const options none = {0};
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) return command_help(&none);
    const command *c = command_find(argv[1]);
    if (c != NULL) return run_command(c, argc - 1, argv + 1);
    say("there is no command '%s'; see 'railbow help'", argv[1]);
    return NO_VERDICT;
}
