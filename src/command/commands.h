/* The subcommands: one function and one file for each, and their list. */
#ifndef RAILBOW_COMMAND_COMMANDS_H
#define RAILBOW_COMMAND_COMMANDS_H

#include "program/options.h"

typedef struct command {
    const char *name;
    const char *summary;  /* one line, for the list of commands */
    const char *operands; /* "FILE..." */
    const char *text;     /* what it does and what it reports */
    const char *example;
    unsigned takes;
    int (*run)(const options *o);
} command;

extern const command commands[];
extern const size_t command_count;

const command *command_find(const char *name);

/* Says that there is no command of that name, and the nearest one. */
void command_refuse(const char *name);

/* Each function returns the exit status. */
int command_check(const options *o);
int command_explain(const options *o);
int command_new(const options *o);
int command_compare(const options *o);
int command_sweep(const options *o);
int command_limit(const options *o);
int command_index(const options *o);
int command_scatter(const options *o);
int command_life(const options *o);
int command_inspect(const options *o);
int command_release(const options *o);
int command_pull(const options *o);
int command_sight(const options *o);
int command_sticks(const options *o);
int command_section(const options *o);
int command_cases(const options *o);
int command_columns(const options *o);
int command_help(const options *o);

#endif
