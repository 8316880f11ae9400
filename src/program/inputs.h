/* The files that a run reads, so that no output is written over one of them. */
#ifndef RAILBOW_PROGRAM_INPUTS_H
#define RAILBOW_PROGRAM_INPUTS_H

#include "program/options.h"

#include <sys/stat.h>

/* Given:    o      the command line: operands, materials, tolerances, spec, cases, stock; '-' among the operands is stdin
 *           there  the file that an output would replace or write to
 * Returned: the name of the input that is this file (same device and inode, through links), or NULL */
const char *input_at(const options *o, const struct stat *there);

/* The digests of the files that were read, for the page; nothing is kept before they are asked for. */
void input_digests_wanted(void);
bool input_digests_are_wanted(void);

/* Takes the digest of a file that was read to its end; one of the same name is replaced. Returned: false where memory ran out. */
bool input_digest_keep(const char *name, const char *digits);

/* Given: the name as messages have it ("stdin" for "-"). Returned: "" where there is none */
const char *input_digest(const char *name);

#endif
