/* The files that a run reads, so that no output is written over one of them. */
#ifndef RAILBOW_PROGRAM_INPUTS_H
#define RAILBOW_PROGRAM_INPUTS_H

#include "program/options.h"

#include <sys/stat.h>

/* Given:    o      the command line: operands, materials, tolerances, spec, cases, stock; '-' among the operands is stdin
 *           there  the file that an output would replace or write to
 * Returned: the name of the input that is this file (same device and inode, through links), or NULL */
const char *input_at(const options *o, const struct stat *there);

#endif
