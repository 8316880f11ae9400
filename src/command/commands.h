/* One function a subcommand. Each returns the program's exit status. */
#ifndef RAILBOW_COMMAND_COMMANDS_H
#define RAILBOW_COMMAND_COMMANDS_H

#include "command/options.h"

int command_check(const options *o);
int command_explain(const options *o);
int command_new(const options *o);
int command_compare(const options *o);
int command_sweep(const options *o);
int command_limit(const options *o);
int command_index(const options *o);
int command_scatter(const options *o);
int command_inspect(const options *o);
int command_release(const options *o);
int command_pull(const options *o);
int command_section(const options *o);
int command_columns(const options *o);
int command_help(const options *o);

#endif
