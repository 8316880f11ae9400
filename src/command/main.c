#define _POSIX_C_SOURCE 200809L
#include "command/commands.h"
#include "command/say.h"

#include <gsl/gsl_errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

static int say_version(void)
{
    const bool fine = printf("railbow %s\n", RAILBOW_VERSION) > 0 && fflush(stdout) == 0;
    if (!fine) say("stdout: cannot write");
    return fine ? ALL_HOLD : NO_VERDICT;
}

static int run_command(const command *c, int argc, char **argv)
{
    options o;
    if (!options_read(&o, c, argc, argv)) return NO_VERDICT;
    if (!o.help) return c->run(&o);
    char *name[] = {argv[0]};
    const options about = {.operands = name, .operand_count = 1};
    return command_help(&about);
}

int main(int argc, char **argv)
{
    gsl_set_error_handler_off();
    signal(SIGPIPE, SIG_IGN); /* a closed pipe is then a failed write, with a message */
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
