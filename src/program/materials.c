#define _XOPEN_SOURCE 700
#include "program/materials.h"

#include "cases/material_table.h"
#include "program/data_folder.h"
#include "program/exit_status.h"
#include "program/say.h"
#include "table/messages.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* The table in the data folder; NULL when memory ran out. There is no other place. */
static char *installed_table(void)
{
    text t = {0};
    text_format(&t, "%s/materials/steel_tube.csv", data_folder);
    return t.at;
}

/* ---- reading ---------------------------------------------------------------------------------------- */

static double or_else(double value, double fallback)
{
    return isnan(value) ? fallback : value;
}

static int fill_defaults(const void *context, const source_line *at, const void *record, rows *answers, text *complaints)
{
    (void)context;
    rbow_material m = *(const rbow_material *)record;
    m.shear_modulus = or_else(m.shear_modulus, m.elastic_modulus / 2.6);
    m.compression_yield = or_else(m.compression_yield, m.yield);
    m.weld_yield = or_else(m.weld_yield, m.yield);
    m.column_intercept = or_else(m.column_intercept, m.compression_yield);
    if (m.wall_over < m.wall_up_to) {
        rows_add(answers, &m);
        return ALL_HOLD;
    }
    message_add(complaints, at->file, at->line, "wall_up_to", "must be above wall_over");
    return NO_VERDICT;
}

static bool ranges_are_apart(const materials *m)
{
    for (size_t i = 0; i < m->count; i++)
        for (size_t k = 0; k < i; k++) {
            const rbow_material *a = &m->list[i], *b = &m->list[k];
            if (strcmp(a->name, b->name) != 0) continue;
            if (!(a->wall_over < b->wall_up_to && b->wall_over < a->wall_up_to)) continue;
            say("%s: material: '%s' stands in two rows whose walls overlap", m->file, a->name);
            return false;
        }
    return true;
}

bool materials_open(materials *m, const char *file)
{
    output memory = {.format = FORMAT_TEXT}; /* nothing is written: the rows are kept */
    sha256 digest;
    *m = (materials){.file = file != NULL ? strdup(file) : installed_table(), .kept = rows_for(&memory, &material_list)};
    if (m->file == NULL) {
        say("out of memory");
        return false;
    }
    if (file == NULL && access(m->file, F_OK) != 0) {
        say("%s: the materials table is not where it was to be installed; name a table with --materials FILE", m->file);
        return false;
    }
    sha256_start(&digest);
    rbow_material prototype;
    field_defaults(&material_list, &prototype);
    const pipeline p = {
        .list = &material_list,
        .prototype = &prototype,
        .results = &material_list,
        .jobs = 1,
        .out = &memory,
        .kept = &m->kept,
        .digest = &digest,
        .answer = fill_defaults,
    };
    const bool read = pipeline_run(&p, &m->file, 1) == ALL_HOLD;
    sha256_end(&digest, m->sha256);
    m->list = (const void *)m->kept.kept;
    m->count = m->kept.count;
    return read && ranges_are_apart(m);
}

void materials_close(materials *m)
{
    rows_free(&m->kept);
    free(m->file);
}

/* ---- asking ----------------------------------------------------------------------------------------- */

static void say_names(text *out, const materials *m)
{
    for (size_t i = 0; i < m->count; i++) {
        size_t first = 0;
        while (strcmp(m->list[first].name, m->list[i].name) != 0) first++;
        if (first == i) text_format(out, "%s%s", i == 0 ? "" : ", ", m->list[i].name);
    }
}

static void say_walls(text *out, const materials *m, const char *name)
{
    const char *separator = "";
    for (size_t i = 0; i < m->count; i++) {
        const rbow_material *k = &m->list[i];
        if (strcmp(k->name, name) != 0) continue;
        text_format(out, "%sover %g", separator, k->wall_over);
        if (isfinite(k->wall_up_to)) text_format(out, " up to %g", k->wall_up_to);
        separator = " or ";
    }
}

const rbow_material *materials_for(const materials *m, const char *name, double wall, const source_line *at,
                                   text *complaints)
{
    int known;
    const rbow_material *found = rbow_material_find(m->list, m->count, name, wall, &known);
    if (found != NULL) return found;
    text has = {0}, quoted = {0};
    if (known) {
        say_walls(&has, m, name);
        message_add(complaints, at->file, at->line, "wall", "%s serves no wall of %g in, only %s in (%s)", name,
                    wall, text_string(&has, &complaints->failed), m->file);
    } else {
        say_names(&has, m);
        text_quote(&quoted, name, strlen(name));
        message_add(complaints, at->file, at->line, "material", "%s is not in %s, which has %s", text_string(&quoted, &complaints->failed), m->file,
                    text_string(&has, &complaints->failed));
    }
    text_free(&has);
    text_free(&quoted);
    return NULL;
}
