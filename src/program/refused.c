#include "program/refused.h"

void refused_add(refused_rows *r, const char *file, size_t line)
{
    if (r->count < REFUSED_NAMED) {
        r->lines[r->count] = line;
        r->files[r->count] = file;
    }
    r->count++;
}

void refused_say(text *out, const refused_rows *r)
{
    const size_t named = r->count < REFUSED_NAMED ? r->count : REFUSED_NAMED, more = r->count - named;
    if (!r->names_files && named > 0) text_put(out, r->count == 1 ? "line " : "lines ");
    for (size_t i = 0; i < named; i++) {
        text item = {0};
        if (r->names_files)
            text_format(&item, "line %zu of %s", r->lines[i], r->files[i]);
        else
            text_format(&item, "%zu", r->lines[i]);
        text_item(out, i, named + (more > 0), "and", text_string(&item, &out->failed));
        text_free(&item);
    }
    if (more > 0) text_format(out, " and %zu more", more);
}
