/* What an answer rests on, from the command line and the materials table. */
#ifndef RAILBOW_PROGRAM_FACTS_H
#define RAILBOW_PROGRAM_FACTS_H

#include "program/materials.h"
#include "program/options.h"
#include "report/facts.h"

/* Given:    m  the table read, which must outlive the facts
 * Returned: false after a message. facts_free either way. */
bool facts_fill(run_facts *f, const options *o, const materials *m);
void facts_free(run_facts *f);

#endif
