#define _POSIX_C_SOURCE 200809L
#include "program/wanted.h"

#include "program/say.h"

#include <fnmatch.h>
#include <stdlib.h>

bool wanted_open(wanted *w, const options *o)
{
    const size_t count = o->case_count + o->part_count + o->row_count;
    *w = (wanted){.options = o, .what = "case", .by = "case"};
    if (count == 0) return true;
    w->found = calloc(count, sizeof *w->found);
    if (w->found == NULL) say("out of memory");
    return w->found != NULL;
}

void wanted_close(wanted *w)
{
    free(w->found);
    w->found = NULL;
}

static bool meets(atomic_bool *found, const char *const *patterns, size_t count, const char *name)
{
    bool any = count == 0;
    for (size_t i = 0; i < count; i++) {
        if (fnmatch(patterns[i], name, 0) != 0) continue;
        atomic_store(&found[i], true);
        any = true;
    }
    return any;
}

bool wanted_named(const wanted *w, const char *name, const char *part)
{
    const options *o = w->options;
    if (w->found == NULL) return true;
    const bool by_name = meets(w->found, o->case_patterns, o->case_count, name);
    const bool by_part = meets(w->found + o->case_count, o->part_patterns, o->part_count, part);
    return by_name && by_part;
}

static bool has_line(const wanted *w, size_t line)
{
    const options *o = w->options;
    bool any = w->found == NULL || o->row_count == 0;
    for (size_t i = 0; i < o->row_count; i++) {
        if ((size_t)o->rows[i] != line) continue;
        atomic_store(&w->found[o->case_count + o->part_count + i], true);
        any = true;
    }
    return any;
}

bool wanted_is(const wanted *w, const load_case *c, size_t line)
{
    const bool by_line = has_line(w, line);
    return wanted_named(w, c->name, *c->part != '\0' ? c->part : c->name) && by_line;
}

bool wanted_all_found(const wanted *w)
{
    const options *o = w->options;
    bool all = true;
    const size_t patterns = o->case_count + o->part_count;
    for (size_t i = 0; w->found != NULL && i < o->row_count; i++) {
        if (atomic_load(&w->found[patterns + i])) continue;
        say("--row: no %s without an error stands in line %d", w->what, o->rows[i]);
        all = false;
    }
    for (size_t i = 0; w->found != NULL && i < patterns; i++) {
        if (atomic_load(&w->found[i])) continue;
        const bool is_case = i < o->case_count;
        say("--%s: no %s%s meets '%s'", is_case ? w->by : "part", w->what, is_case ? "" : "'s part",
            is_case ? o->case_patterns[i] : o->part_patterns[i - o->case_count]);
        all = false;
    }
    return all;
}
