#include "program/facts.h"

#include "program/inputs.h"
#include "program/say.h"

#include <railbow/version.h>
#include <stdlib.h>
#include <string.h>

bool facts_fill(run_facts *f, const options *o, const materials *m)
{
    const char *const named[] = {o->details, o->spec, o->cases, o->tolerances, o->stock};
    *f = (run_facts){.version = rbow_version(), .words = o->said, .word_count = o->said_count, .sha256_of = input_digest,
                     .materials = m->file, .materials_sha256 = m->sha256};
    f->inputs = malloc(((size_t)o->operand_count + 5) * sizeof *f->inputs);
    if (f->inputs == NULL) {
        say("out of memory");
        return false;
    }
    for (int i = 0; i < o->operand_count; i++)
        f->inputs[f->input_count++] = strcmp(o->operands[i], "-") == 0 ? "stdin" : o->operands[i];
    for (size_t i = 0; i < sizeof named / sizeof *named; i++)
        if (named[i] != NULL) f->inputs[f->input_count++] = named[i];
    return true;
}

void facts_free(run_facts *f)
{
    free(f->inputs);
    *f = (run_facts){.version = NULL};
}
