#define _POSIX_C_SOURCE 200809L
#include "program/inputs.h"

#include "program/data_folder.h"
#include "program/bytes/sha256.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static bool is_same(const char *name, const struct stat *there)
{
    struct stat input;
    const bool standard = strcmp(name, "-") == 0;
    if ((standard ? fstat(STDIN_FILENO, &input) : stat(name, &input)) != 0) return false;
    return input.st_dev == there->st_dev && input.st_ino == there->st_ino;
}

const char *input_at(const options *o, const struct stat *there)
{
    const char *const named[] = {o->materials, o->tolerances, o->spec, o->cases, o->stock};
    char installed[4096];
    snprintf(installed, sizeof installed, "%s/materials/steel_tube.csv", data_folder);
    if (!S_ISREG(there->st_mode)) return NULL; /* a terminal may be read and written */
    for (size_t i = 0; i < sizeof named / sizeof *named; i++)
        if (named[i] != NULL && is_same(named[i], there)) return named[i];
    if (o->materials == NULL && is_same(installed, there)) return "the installed materials table";
    for (int i = 0; i < o->operand_count; i++)
        if (is_same(o->operands[i], there)) return strcmp(o->operands[i], "-") == 0 ? "stdin" : o->operands[i];
    return NULL;
}

/* ---- digests -------------------------------------------------------------------------------------------- */

typedef struct kept_digest {
    char *name;
    char digits[SHA256_DIGITS + 1];
} kept_digest;

static struct { /* only the thread that reads the files comes here */
    bool wanted;
    kept_digest *at;
    size_t count;
} digests;

void input_digests_wanted(void)
{
    digests.wanted = true;
}

bool input_digests_are_wanted(void)
{
    return digests.wanted;
}

static kept_digest *find(const char *name)
{
    for (size_t i = 0; i < digests.count; i++)
        if (strcmp(digests.at[i].name, name) == 0) return &digests.at[i];
    return NULL;
}

bool input_digest_keep(const char *name, const char *digits)
{
    kept_digest *at = find(name);
    if (at == NULL) {
        kept_digest *more = realloc(digests.at, (digests.count + 1) * sizeof *more);
        if (more == NULL) return false;
        digests.at = more;
        at = &more[digests.count];
        at->name = strdup(name);
        if (at->name == NULL) return false;
        digests.count++;
    }
    strcpy(at->digits, digits);
    return true;
}

const char *input_digest(const char *name)
{
    const kept_digest *at = find(name);
    return at != NULL ? at->digits : "";
}
